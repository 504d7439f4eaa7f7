import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { monthFinding } from '../../shared/month-finding.ts'
import { monthNetwork, OUTSIDE } from '../../shared/month-network.ts'
import type { MonthFlow } from '../../shared/month-network.ts'
import { findingWords } from '../../shared/month-words.ts'

const grams = (value: number) => decimal(value)

function flow(
  id: string,
  [kind, from, to]: readonly [MonthFlow['kind'], MonthFlow['from'], MonthFlow['to']],
  reading: { dry: number | null; unsure?: number } & Partial<MonthFlow>,
): MonthFlow {
  const { dry, unsure = 20, ...more } = reading
  return {
    ...{ id, kind, from, to, label: `The ${id}` },
    dryGrams: dry === null ? null : grams(dry),
    standardUncertaintyGrams: grams(unsure),
    ...more,
  }
}

/** Ten kilograms are thrown, turned and fired; what each act says agrees with the others. */
const throwing = (dry: number) =>
  flow('balls of 12 May', ['throw', 'bench', 'greenware/1'], { dry })
const pots = (dry: number | null) =>
  flow('pots of 13 May', ['weigh_run', 'greenware/1', 'greenware/1/leather'], { dry })
const turnings = (dry: number, more: Partial<MonthFlow> = {}) =>
  flow('turnings of 14 May', ['turn', 'greenware/1/leather', 'scrap'], { dry, ...more })
const load = (dry: number) =>
  flow('kiln load of 20 May', ['bisque', 'greenware/1/leather', 'bisque/1'], { dry })
const fired = (dry: number) => flow('fired pots', ['bisque', 'bisque/1', OUTSIDE], { dry })
const stocks = [
  flow('bench at the beginning', ['opening', OUTSIDE, 'bench'], { dry: 15_000 }),
  flow('bench at the end', ['closing', 'bench', OUTSIDE], { dry: 5_000 }),
  flow('scrap at the end', ['closing', 'scrap', OUTSIDE], { dry: 1_500 }),
]
const month = (turned = 1_500, more: Partial<MonthFlow> = {}): MonthFlow[] => [
  ...stocks,
  throwing(10_010),
  pots(9_990),
  turnings(turned, more),
  load(8_500),
  fired(8_490),
]

describe('the clay of a month as a network', () => {
  test('has a balance for each node, and none for the world outside', () => {
    const { network, readings } = monthNetwork({ flows: month() })
    expect(network.balances).toHaveLength(5)
    expect(readings.map(({ id }) => id)).toEqual(month().map(({ id }) => id))
    expect(network.measured[5]).toBe(1_500)
    for (const row of network.balances) {
      expect(row).toContain(1)
      expect(row).toContain(-1)
    }
  })

  test('gives a flow that was read twice a node between its readings', () => {
    const again = flow('count', ['turn', 'bench', 'scrap'], { dry: 1_480, unsure: 60 })
    const { network } = monthNetwork({ flows: month(1_500, { again: [again] }) })
    expect(network.balances).toHaveLength(6)
    expect(network.measured).toHaveLength(month().length + 1)
    const finding = monthFinding({ flows: month(1_500, { again: [again] }) })
    const reconciledOf = (id: string) =>
      finding.readings.find((one) => one.id === id)?.reconciledDryGrams?.toFixed(3)
    expect(reconciledOf('count')).toBe(reconciledOf('turnings of 14 May'))
    const turned = finding.groups.find(({ kind }) => kind === 'turn')
    expect(turned?.dryGrams?.toFixed()).toBe('1500')
    expect(turned?.reconciledDryGrams?.toFixed(3)).toBe(reconciledOf('count'))
  })

  test('lets readings that share a figure err together', () => {
    const sources = [{ sourceId: 'water', contributionGrams: grams(12) }]
    const { covariance, suspects } = monthNetwork({
      flows: month().map((one) =>
        one.id.startsWith('turnings') || one.id.startsWith('pots') ? { ...one, sources } : one,
      ),
      sources: [{ id: 'water', label: 'The water content of the pots of 13 May' }],
    })
    expect(covariance[4]?.[4]).toBeCloseTo(400, 9)
    expect(covariance[4]?.[5]).toBeCloseTo(144, 9)
    expect(covariance[4]?.[3]).toBe(0)
    expect(suspects.at(-1)).toMatchObject({ what: 'source' })
  })

  test('never names a guess, nor a figure that one reading alone rests on', () => {
    const sources = [{ sourceId: 'water', contributionGrams: grams(12) }]
    const { suspects } = monthNetwork({
      flows: month(1_500, { sources, isGuess: true }),
      sources: [{ id: 'water', label: 'The water content' }],
    })
    expect(suspects).toHaveLength(month().length - 1)
  })

  test('refuses what cannot be a month', () => {
    const bad = (flows: MonthFlow[]) => () => monthNetwork({ flows })
    expect(bad([...month(), turnings(1)])).toThrow('an id of its own')
    expect(bad(month().slice(1))).toThrow('what comes to bench leaves it')
    expect(bad(month(1_500, { standardUncertaintyGrams: grams(0) }))).toThrow('never quite sure')
    expect(bad([])).toThrow('something happened')
    const sources = [{ sourceId: 'water', contributionGrams: grams(21) }]
    expect(bad(month(1_500, { sources }))).toThrow('is described')
    expect(() =>
      monthNetwork({
        flows: month(1_500, { sources }),
        sources: [{ id: 'water', label: 'The water' }],
      }),
    ).toThrow('part of the whole')
  })
})

describe('what a month says', () => {
  test('is that all agrees, where it does', () => {
    const finding = monthFinding({ flows: month() })
    expect(finding.verdict).toBe('agrees')
    expect(finding.found).toEqual([])
    expect(finding.globalTest.degreesOfFreedom).toBe(5)
    expect(findingWords(finding)[0]).toBe(
      'All readings of the month agree, as well as they are known.',
    )
  })

  test('is that small mistakes would hide, where all agrees better than it claims to be unsure', () => {
    const tooWell = 'They agree even better than they claim to be unsure'
    const with_ = (scale: number) =>
      findingWords(
        monthFinding({
          flows: month().map((one) => ({ ...one, standardUncertaintyGrams: grams(scale) })),
        }),
      )
    // Ten grams apart where each is good to ten grams is chance; where each is good to fifty, it is not.
    expect(with_(10)).toHaveLength(1)
    expect(with_(50)[1]).toContain(tooWell)
  })

  test('asks of what the month began with as the books say it', () => {
    const asking = {
      ...{ verb: 'came to', beganWith: '13 bags of buff (delivery-4)' },
      ...{ question: 'was a bag used that nobody wrote down', questionIfLess: 'was one there' },
    }
    const beginning = (dry: number) => {
      const flows = [
        ...month().filter(({ kind }) => kind !== 'opening'),
        flow('bench at the beginning', ['opening', OUTSIDE, 'bench'], { dry, asking }),
        flow('bench counted', ['count', 'bench', 'bench/1'], { dry: 5_000 }),
      ].map((one) => (one.kind === 'closing' && one.from === 'bench' ? closingOf(one) : one))
      return findingWords(monthFinding({ flows }))[0]
    }
    const closingOf = (one: MonthFlow): MonthFlow => ({ ...one, from: 'bench/1' })
    expect(beginning(24_900)).toMatch(
      /^The books began the month with 9\.9 kg more dry clay in 13 bags of buff \(delivery-4\) than everything else says \(give or take \d+ g\): was a bag used that nobody wrote down\?/,
    )
    expect(beginning(5_000)).toMatch(/ less dry clay in .*: was one there\?/)
  })

  test('names the weigh-in that everything else speaks against, and how much it is off', () => {
    const finding = monthFinding({ flows: month(3_600) })
    expect(finding.verdict).toBe('something_stands_out')
    expect(finding.found.map(({ id }) => id)).toEqual(['turnings of 14 May'])
    expect(findingWords(finding)).toEqual([
      'The turnings of 14 May weighed 2.1 kg more than everything else says (give or take 48 g): tare?',
    ])
  })

  test('names a known mistake that would make as much of it', () => {
    const mistakes = [
      { words: 'was the tare of bucket 3 left on', dryGrams: grams(2_080) },
      { words: 'was it weighed in pounds', dryGrams: grams(5_000) },
    ]
    const [words] = findingWords(monthFinding({ flows: month(3_600, { mistakes }) }))
    expect(words).toMatch(/: was the tare of bucket 3 left on\?$/)
  })

  test('asks for something left out where a weigh-in is too light', () => {
    const [words] = findingWords(monthFinding({ flows: month(900) }))
    expect(words).toMatch(
      /^The turnings of 14 May weighed 6\d\d g less .*: was something left out, or the tare taken off twice\?$/,
    )
  })

  test('reconciles the flows without the weigh-in that was found', () => {
    const { readings } = monthFinding({ flows: month(3_600) })
    const found = readings.find(({ id }) => id === 'turnings of 14 May')
    expect(found?.standing).toBe('left_out')
    expect(Math.abs((found?.reconciledDryGrams?.toNumber() ?? NaN) - 1_500)).toBeLessThan(30)
    const agreeing = monthFinding({ flows: month() }).readings
    readings.forEach(({ reconciledDryGrams }, index) => {
      const other = agreeing[index]?.reconciledDryGrams?.toNumber() ?? NaN
      expect(Math.abs((reconciledDryGrams?.toNumber() ?? NaN) - other)).toBeLessThan(10)
    })
  })

  test('says which others may be meant where nothing tells them apart', () => {
    const flows = month().map((one) =>
      one.id === 'bench at the end' ? { ...one, dryGrams: grams(4_000) } : one,
    )
    const [words] = findingWords(monthFinding({ flows }))
    expect(words).toContain('It may as well be another: The bench at the ')
    expect(words).toContain('Nothing tells them apart.')
  })

  test('names a figure that several weights rest on', () => {
    const shared = (dry: number) => [{ sourceId: 'water', contributionGrams: grams(dry / 250) }]
    // All that was weighed leather-hard is a tenth too heavy.
    const leather = ['pots of 13 May', 'turnings of 14 May']
    const flows = month().map((one) => {
      const dry = one.dryGrams?.toNumber() ?? NaN
      if (!leather.includes(one.id)) return one
      return {
        ...one,
        dryGrams: grams(dry * 1.1),
        standardUncertaintyGrams: grams(Math.hypot(20, dry / 250)),
        sources: shared(dry),
      }
    })
    const finding = monthFinding({
      flows,
      sources: [{ id: 'water', label: 'The water content of the pots of 13 May' }],
    })
    expect(finding.found[0]).toMatchObject({ what: 'source', id: 'water' })
    expect(findingWords(finding)[0]).toMatch(
      /^The water content of the pots of 13 May: off by 2\d\.\d times its uncertainty/,
    )
    const reconciledOf = (id: string) =>
      finding.readings.find((one) => one.id === id)?.reconciledDryGrams?.toNumber() ?? NaN
    expect(Math.abs(reconciledOf('pots of 13 May') - 10_000)).toBeLessThan(20)
    expect(Math.abs(reconciledOf('turnings of 14 May') - 1_500)).toBeLessThan(20)
  })

  test('is that nothing can be checked, where all was weighed once only', () => {
    const finding = monthFinding({
      flows: [
        stocks[0],
        { ...throwing(10_000), to: OUTSIDE },
        { ...stocks[1], dryGrams: null },
      ].map((one) => one as MonthFlow),
    })
    expect(finding.verdict).toBe('nothing_to_check')
    expect(finding.readings.map(({ standing }) => standing)).toEqual([
      'unchecked',
      'unchecked',
      'worked_out',
    ])
    expect(finding.readings[2]?.reconciledDryGrams?.toFixed()).toBe('5000')
    expect(findingWords(finding)[0]).toContain('nothing can be checked')
  })

  test('gives the flows of one kind between two places together', () => {
    const { groups } = monthFinding({ flows: month() })
    const bisque = groups.filter(({ kind }) => kind === 'bisque')
    expect(bisque.map(({ from, to }) => `${from} ${to}`)).toEqual([
      'greenware bisque',
      'bisque outside',
    ])
    expect(bisque[0]?.dryGrams?.toFixed()).toBe('8500')
    expect(bisque[0]?.reconciledDryGrams?.toFixed(6)).toBe(
      bisque[1]?.reconciledDryGrams?.toFixed(6),
    )
    expect(bisque[0]?.standardUncertaintyGrams?.lessThan(20)).toBe(true)
  })

  test('tells from which size on a mistake in a weigh-in would most likely show', () => {
    const { readings } = monthFinding({ flows: month() })
    const from = readings.find(({ id }) => id === 'turnings of 14 May')?.wouldShowFromGrams
    expect(from?.greaterThan(60)).toBe(true)
    expect(from?.lessThan(120)).toBe(true)
    const size = from?.toNumber() ?? NaN
    expect(monthFinding({ flows: month(1_490 + 1.3 * size) }).verdict).toBe('something_stands_out')
  })
})
