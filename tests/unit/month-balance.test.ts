import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { BookedWeighing } from '../../shared/balance-book.ts'
import { toldApart } from '../../shared/balance-labels.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { dayInWords } from '../../shared/day-words.ts'
import { monthFinding } from '../../shared/month-finding.ts'
import { monthNetwork, OUTSIDE, type MonthDescription } from '../../shared/month-network.ts'
import { MonthNodes, UNWEIGHED } from '../../shared/month-nodes.ts'
import { findingWords } from '../../shared/month-words.ts'
import { nextWeighIn } from '../../shared/next-weigh-in.ts'
import { knownMistakes } from '../../shared/reading-mistakes.ts'
import { reconciled } from '../../shared/reconciliation.ts'
import { WetnessTrace } from '../../shared/wetness.ts'
import { withBadReading } from '../support/simulate-month.ts'
import { workedDayMonth } from '../support/simulate-worked-day.ts'

const grams = (value: number) => decimal(value)
const read = (dry: number, unsure = 10) => ({
  dryGrams: grams(dry),
  standardUncertaintyGrams: grams(unsure),
})
const bucket = { id: 'bucket', place: 'scrap', name: 'the bucket' } as const
const run = { id: 'run', place: 'greenware', name: 'the run' } as const
const told = (id: string) => ({ id, label: `The ${id}`, kind: 'turn' as const })

describe('the nodes of a month', () => {
  test('are new after a stock was weighed whole, and what is left is its closing', () => {
    const nodes = new MonthNodes()
    nodes.opens(bucket, { ...told('opening'), ...read(500) })
    nodes.moves(run, bucket, { ...told('turnings'), ...read(1_000) })
    nodes.weighsWhole(bucket, { ...told('whole'), ...read(1_500) })
    const { flows } = nodes.description([])
    expect(flows.map(({ id, from, to }) => [id, from, to])).toEqual([
      ['opening', OUTSIDE, 'scrap/bucket/0'],
      ['turnings', 'greenware/run/0', 'scrap/bucket/0'],
      ['whole', 'scrap/bucket/0', 'scrap/bucket/1'],
      ['before greenware/run/0', OUTSIDE, 'greenware/run/0'],
      ['closing of scrap/bucket/1', 'scrap/bucket/1', OUTSIDE],
      ['closing of greenware/run/0', 'greenware/run/0', OUTSIDE],
    ])
    expect([...nodes.settled()]).toEqual(['scrap/bucket/0'])
    expect(nodes.stocks().get('scrap/bucket/1')).toBe(bucket)
  })

  test('begin anew where a stock was emptied, with nothing left in between', () => {
    const nodes = new MonthNodes()
    nodes.opens(bucket, { ...told('opening'), ...read(500) })
    nodes.moves(bucket, null, { ...told('slaked'), ...read(500) })
    nodes.empties(bucket)
    nodes.moves(null, bucket, { ...told('mopped up'), ...UNWEIGHED })
    const { flows } = nodes.description([])
    expect(flows.filter(({ kind }) => kind === 'closing').map(({ from }) => from)).toEqual([
      'scrap/bucket/1',
    ])
  })
})

describe('a month told from the books', () => {
  const seeds = fc.integer({ min: 1, max: 10_000 })

  test('has reconciled flows that balance at every node', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { network } = monthNetwork(workedDayMonth(seed).description)
        const { flows } = reconciled(network)
        for (const balance of network.balances) {
          const around = balance.flatMap((sign, at) => (sign === 0 ? [] : [{ sign, at }]))
          const values = around.map(({ sign, at }) => sign * (flows[at]?.value ?? NaN))
          if (values.some(Number.isNaN)) continue
          expect(Math.abs(values.reduce((sum, one) => sum + one, 0))).toBeLessThan(1e-3)
        }
      }),
      { numRuns: 5 },
    )
  })

  test('says the same of twice the clay, weighed half as well', () => {
    fc.assert(
      fc.property(seeds, fc.constantFrom(2, 8, 1_000), (seed, times) => {
        const { description } = workedDayMonth(seed)
        const one = monthFinding(description)
        const other = monthFinding(scaled(description, times))
        expect(other.verdict).toBe(one.verdict)
        expect(other.globalTest.chiSquare).toBeCloseTo(one.globalTest.chiSquare, 3)
        expect(other.found.map(({ id }) => id)).toEqual(one.found.map(({ id }) => id))
      }),
      { numRuns: 5 },
    )
  })

  test('names a tare on the turned pots in a sentence that fits on a line or two', () => {
    const { description } = workedDayMonth(3)
    const pots = description.flows.filter(({ kind }) => kind === 'weigh_run').at(-1)
    const finding = monthFinding(withBadReading(description, { id: pots?.id ?? '', grams: 900 }))
    expect(finding.found[0]?.id).toBe(pots?.id)
    const [words] = findingWords(finding)
    expect(words).toMatch(/^The pots weighed on 28 May, \d\d:\d\d \(run 4\.2\) weighed \d+ g more /)
    expect(words?.length).toBeLessThan(400)
  })
})

describe('readings of one name', () => {
  const entry = (entryId: string, time: string) => ({
    ...{ entryId, kind: 'turn' as const, said: {}, day: '14 May', time, state: null, stage: null },
    ...{ fromLotIds: [], counts: [], batIds: [], lines: [], estimates: [], weighings: [] },
  })
  const nothing = { holdingId: 'bucket', weighing: null, dryFraction: 1, mistakes: [] }
  const named = (label: string, origins: readonly (readonly [string, string | null])[]) => {
    const nodes = new MonthNodes()
    for (const [id] of origins) nodes.moves(run, bucket, { ...told(id), label, ...read(1_000) })
    const { flows } = toldApart(nodes.description([]), {
      entries: [entry('one', '10:20'), entry('two', '15:05')],
      origins: new Map(origins.map(([id, entryId]) => [id, { ...nothing, entryId }])),
      sources: new Map(),
      stocks: nodes.stocks(),
    })
    return flows.filter(({ kind }) => kind === 'turn').map((one) => one.label)
  }

  test('are told apart by the hour, and else by their number', () => {
    const label = 'The turnings of 14 May (run)'
    expect(named(label, [['a', 'one']])).toEqual([label])
    const twice = [['a', 'one'] as const, ['b', 'two'] as const]
    expect(named(label, twice)).toEqual([
      'The turnings of 14 May, 10:20 (run)',
      'The turnings of 14 May, 15:05 (run)',
    ])
    const atOnce = [['a', 'one'] as const, ['b', 'one'] as const]
    expect(named(label, atOnce)).toEqual([`${label}, 1 of 2`, `${label}, 2 of 2`])
  })

  test('never leave a made-up month with two of one name', () => {
    const { flows } = workedDayMonth(1).description
    const labels = flows.flatMap((flow) => [flow, ...(flow.again ?? [])]).map((one) => one.label)
    expect(new Set(labels).size).toBe(labels.length)
  })
})

function scaled({ flows, sources = [] }: MonthDescription, times: number): MonthDescription {
  const by = (value: typeof ZERO) => value.times(times)
  const reading = <Flow extends MonthDescription['flows'][number]>(flow: Flow) => ({
    ...flow,
    dryGrams: flow.dryGrams === null ? null : by(flow.dryGrams),
    standardUncertaintyGrams: by(flow.standardUncertaintyGrams),
    ...(flow.expectedMistakeGrams === undefined
      ? {}
      : { expectedMistakeGrams: by(flow.expectedMistakeGrams) }),
    sources: (flow.sources ?? []).map((one) => ({
      ...one,
      contributionGrams: by(one.contributionGrams),
    })),
  })
  return {
    sources,
    flows: flows.map((flow) => ({
      ...reading(flow),
      ...(flow.again === undefined
        ? {}
        : { again: flow.again.map((one) => reading({ ...flow, ...one })) }),
    })),
  }
}

describe('what a clay’s water rests on', () => {
  test('is mixed as its dry clay is, and goes along with a share', () => {
    const trace = new WetnessTrace()
    trace.holds('lot', 3_000)
    trace.becomes('lot', new Map([['sample', 0.02]]))
    trace.receives('lot', { dryGrams: 1_000, wetness: new Map([['other', 0.04]]) })
    expect(Object.fromEntries(trace.of('lot'))).toEqual({ sample: 0.015, other: 0.01 })
    trace.restsOn('lot', 'weigh-in', 0.001)
    expect(trace.of('lot').get('weigh-in')).toBe(0.001)
    expect(trace.of('nowhere').size).toBe(0)
  })
})

describe('the mistakes that everybody makes', () => {
  const weighing = (more: Partial<BookedWeighing> = {}): BookedWeighing => ({
    ...{ weighingNo: 1, purpose: 'reading', kind: 'clay', vesselId: null },
    ...{ netGrams: grams(4_400), tareGrams: ZERO, standardUncertaintyGrams: grams(3) },
    read: { value: '4.40', unit: 'kg' },
    ...more,
  })
  const red = { id: 'red', name: 'Red bucket', grams: grams(400) }
  const blue = { id: 'blue', name: 'Blue bucket', grams: grams(1_100) }
  const around = { vessel: red, vessels: [red, blue], bats: [] }
  const sizes = (of: BookedWeighing, with_ = around) =>
    knownMistakes(of, with_).map(({ words, wetGrams }) => [words, wetGrams.toFixed(1)])

  test('are a tare left on, pounds, and two digits swapped', () => {
    expect(sizes(weighing())).toEqual([
      ['was the tare of Red bucket left on', '400.0'],
      ['was it read in pounds', '2404.2'],
      ['was it 4.04 kg, with two digits swapped', '360.0'],
    ])
  })

  test('of a reading with its tare are another vessel and a tare taken off twice', () => {
    const withTare = { netGrams: grams(4_000), tareGrams: grams(400), vesselId: 'red' }
    expect(sizes(weighing(withTare)).slice(0, 2)).toEqual([
      ['was the tare taken off twice', '-400.0'],
      ['was it in Blue bucket', '700.0'],
    ])
  })

  test('say what would have been read, ready to be sent', () => {
    const [tare, pounds] = knownMistakes(weighing(), around)
    expect(tare?.reads).toEqual({ gross: { value: '4.40', unit: 'kg' }, inVesselId: 'red' })
    expect(pounds?.reads).toEqual({ net: { value: '4.40', unit: 'lb' } })
    const bat = { id: 'bat-a', name: 'Bat A', grams: grams(7_000) }
    const [, withBat] = knownMistakes(weighing(), { ...around, bats: [bat] })
    expect(withBat).toMatchObject({ words: 'was it weighed with Bat A', reads: null })
  })
})

describe('the next weigh-in', () => {
  test('is of pots first, then of buckets, of which all but the rest was weighed', () => {
    const nodes = new MonthNodes()
    nodes.opens(run, { ...told('thrown'), ...read(9_000) })
    nodes.moves(run, bucket, { ...told('turnings'), ...read(1_000) })
    const found = nextWeighIn(nodes.description([]), nodes.stocks())
    expect(found).toMatchObject({ holdingId: 'run' })
    expect(found.words).toMatch(/^Weigh all pots of the run after turning/)
    const none = nextWeighIn({ flows: [] }, new Map())
    expect(none.holdingId).toBeNull()
  })
})

test('a day is said as the wall of the studio has it', () => {
  const moment = new Date('2026-05-13T23:30:00Z')
  expect(dayInWords(moment, 'Europe/London')).toBe('14 May')
  expect(dayInWords(moment, 'America/New_York')).toBe('13 May')
})
