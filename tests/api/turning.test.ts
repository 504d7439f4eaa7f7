import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { openPottery, problem, problemIn, STUDIO, type Body, type Pottery } from './pottery.ts'

// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Json = any

let pottery: Pottery

/** Each group has a pottery of its own, with clay enough on the bench. */
function openWithClay(): void {
  beforeAll(async () => {
    pottery = await openPottery()
    halfHours = 0
    await pottery.does('receive-delivery', {
      happenedAt: soon(),
      clays: [
        { bodyId: 'buff', lotId: 'd1', bags: 80, bagMass: kg('12.5'), water: WATER, price: '1500' },
      ],
    })
    await pottery.does('open-bag', { happenedAt: soon(), lotId: 'd1', bags: 80, newLotId: 'o1' })
  })
  afterAll(() => pottery.close())
}

const WATER = { content: '0.2', basis: 'wet', standing: 'measured' }
const PIECES = 20
const BALL_GRAMS = 400

interface Made {
  readonly formId: string
  /** What is turned off each run; none where it is not turned. */
  readonly shares: readonly (number | null)[]
  /** Wasters of each run, where they are fired. */
  readonly wasters?: readonly number[]
  readonly by?: (index: number) => string
}

/** Half an hour passes from each act to the next: what is dated back is asked more of. */
let halfHours = 0
function soon(): string {
  halfHours += 1
  return new Date(Date.parse('2026-03-01T10:00:00Z') + halfHours * 30 * 60_000).toISOString()
}

/** Runs of twenty, turned as told, and fired where it is said what became of them. */
async function make({ formId, shares, wasters, by }: Made): Promise<void> {
  await pottery.ask('POST', '/v1/forms', { body: { formId, name: `Form ${formId}` } })
  for (const [index, share] of shares.entries()) {
    const runId = `${formId}-${String(index + 1)}`
    const who = by === undefined ? {} : { by: by(index) }
    await pottery.does('throw', {
      ...{ happenedAt: soon(), formId, runId, label: runId, ...who },
      from: [{ lotId: 'o1', balls: PIECES, ballMass: g(String(BALL_GRAMS)) }],
    })
    if (share !== null) await turn({ runId, share, who })
  }
  if (wasters === undefined) return
  const runs = shares.map((_, index) => ({ runId: `${formId}-${String(index + 1)}` }))
  await pottery.does('bisque', { happenedAt: soon(), runs })
  await pottery.does('glaze-fire', { happenedAt: soon(), runs })
  for (const [index, lost] of wasters.entries()) {
    await pottery.does('grade', {
      ...{ happenedAt: soon(), runId: runs[index]?.runId },
      ...{ firsts: PIECES - lost, seconds: 0, wasters: lost },
      ...(lost > 0 ? { cause: 'cracked through the foot' } : {}),
    })
  }
}

function turn(turned: { runId: string; share: number; who?: object }): Promise<Body> {
  const { runId, share, who = {} } = turned
  return pottery.does('turn', {
    ...{ happenedAt: soon(), runId, vesselId: 'bucket-1', ...who, water: WATER },
    turnings: { net: g((share * PIECES * BALL_GRAMS).toFixed(0)) },
  })
}

const read = async (address: string): Promise<Json> => {
  const answer = await pottery.ask('GET', address)
  expect(answer.status).toBe(200)
  return answer.body
}
const usual = [0.18, 0.2, 0.19, 0.17, 0.2, 0.18, 0.19, 0.21, 0.17, 0.19]

describe('the turning of a form', () => {
  openWithClay()

  test('has a signal where the last runs are turned thinner than the habit', async () => {
    await make({
      formId: 'drifter',
      shares: [...usual, 0.2, 0.21, 0.2, 0.21, 0.2, 0.21, 0.22, 0.2],
    })
    const report = await read('/v1/reports/turning/drifter')
    expect(report.lately).toBe('thinner')
    expect(report.words).toMatch(/^You turn thinner lately\. drifter-10 to drifter-18: 9 runs/)
    expect(report.points).toHaveLength(18)
    expect(report.points[0]).toMatchObject({
      ...{ runId: 'drifter-1', turnedOffFraction: '0.18', movingRangeFraction: null },
      ...{ beforeDryGrams: '6400', turnedOffDryGrams: '1152', firedPieces: null },
    })
    // The mean of the first ten, and how far their neighbours differ on average: 19 hundredths in 9.
    expect(report.chart).toMatchObject({
      ...{ centreFraction: '0.188', habitRuns: 10, meanMovingRangeFraction: '0.021111' },
      ...{ upperLimitFraction: '0.244147', lowerLimitFraction: '0.131853' },
      movingRangeLimitFraction: '0.06897',
    })
    const now = report.signals.filter((signal: Json) => signal.isNow)
    expect(now).toMatchObject([
      { kind: 'eight_on_one_side', direction: 'thinner', lastRunId: 'drifter-18', runs: 9 },
    ])
    expect(now[0].words).toBe(
      'The last 9 runs, drifter-10 to drifter-18: 20.4 % was turned off where the habit is 18.8 %, all 9 on that side; the walls or feet are thinner now.',
    )
    expect(report.points.at(-1).signals).toEqual(['eight_on_one_side'])
    expect(Number(report.points[0].standardUncertainty)).toBeGreaterThan(0)
  }, 60_000)

  test('has none where only chance is at work, in the list or by itself', async () => {
    await make({ formId: 'honest', shares: [...usual, ...usual] })
    const report = await read('/v1/reports/turning/honest')
    expect([report.lately, report.signals]).toEqual(['as_usual', []])
    const { forms } = await read('/v1/reports/turning')
    const listed = Object.fromEntries(forms.map((form: Json) => [form.formId, form]))
    expect(listed['honest']).toMatchObject({
      ...{ isSignal: false, lately: 'as_usual', turnedRuns: 20, latestFraction: '0.19' },
      latestRunId: 'honest-20',
    })
    expect(listed['honest'].words).toMatch(/^Turned as usual: 18\.\d % comes off/)
    expect(listed['drifter']).toMatchObject({ isSignal: true, habitFraction: '0.188' })
  }, 60_000)

  test('is not judged from few runs, and counts those that were not turned', async () => {
    await make({ formId: 'young', shares: [0.1, null, 0.12, 0.11] })
    const report = await read('/v1/reports/turning/young')
    expect(report).toMatchObject({ lately: 'not_yet_known', chart: null, notTurnedRuns: 1 })
    expect(report.words).toBe('Not yet known: 3 of the 8 runs that it takes to see a drift.')
    expect(report.points.map((point: Json) => point.runId)).toEqual([
      'young-1',
      'young-3',
      'young-4',
    ])
    const { forms } = await read('/v1/reports/turning?formId=young')
    expect(forms).toMatchObject([
      { formId: 'young', runs: 4, turnedRuns: 3, habitFraction: null, isSignal: false },
    ])
  })

  test('a turning that was taken back counts for nothing, and two turnings of a run add up', async () => {
    await make({ formId: 'twice', shares: [0.1, 0.1] })
    const wrong = await turn({ runId: 'twice-2', share: 0.4 })
    const { entryId } = wrong['entry'] as { entryId: string }
    await pottery.ask('POST', '/v1/acts/correct', { body: { entryId } })
    await turn({ runId: 'twice-1', share: 0.05 })
    const { points } = await read('/v1/reports/turning/twice')
    const shares = points.map((point: Json) => point.turnedOffFraction)
    expect(shares).toEqual(['0.15', '0.1'])
    const { items } = await read(points[0].trail)
    expect(items.map((item: Json) => item.kind)).toEqual(['turn', 'turn'])
  })

  test('is had as CSV, and each trail leads on', async () => {
    const { text, headers } = await pottery.ask('GET', '/v1/reports/turning/drifter?format=csv')
    expect(headers.get('content-disposition')).toContain('turning-drifter.csv')
    const lines = text.trim().split('\r\n')
    expect(lines).toHaveLength(19)
    expect(lines[0]).toMatch(/^form,run,label,thrown_at,turned_off_fraction,/)
    expect(lines[1]).toMatch(/^drifter,drifter-1,drifter-1,2026-03-01T11:30:00\.000Z,0\.18,/)
    const report = await read('/v1/reports/turning/drifter')
    const addresses = [report, ...report.points, ...report.signals].map((one: Json) => one.trail)
    for (const address of addresses) expect((await pottery.ask('GET', address)).status).toBe(200)
    const { forms } = await read('/v1/reports/turning')
    for (const { trail } of forms) expect((await pottery.ask('GET', trail)).status).toBe(200)
  })

  test('of a form that was never thrown is empty, and of one that there is not is refused', async () => {
    const empty = await read('/v1/reports/turning/plate')
    expect(empty).toMatchObject({ points: [], lately: 'not_yet_known' })
    for (const address of ['/v1/reports/turning/teapot', '/v1/reports/turning?formId=teapot']) {
      const refused = await pottery.ask('GET', address)
      expect(problemIn(refused)).toEqual(problem(404, 'form_not_found'))
    }
  })
})

describe('the link to losses in the kiln', () => {
  openWithClay()
  const rising = [0.1, 0.12, 0.14, 0.16, 0.18, 0.2, 0.22, 0.24, 0.26, 0.28]

  test('is said where thin runs lost more, by what was turned off and by what they weigh', async () => {
    await make({ formId: 'costly', shares: rising, wasters: [0, 1, 0, 1, 2, 2, 3, 5, 6, 9] })
    const { kilnLosses } = await read('/v1/reports/turning/costly')
    expect(kilnLosses.byTurnedOff).toMatchObject({
      ...{ verdict: 'thinner_loses_more', reason: null, runs: 10 },
      ...{ firedPieces: 200, lostPieces: 29 },
    })
    expect(Number(kilnLosses.byTurnedOff.oddsRatioAPoint.interval95.from)).toBeGreaterThan(1)
    expect(kilnLosses.byTurnedOff.words).toMatch(/^Runs that were turned thinner lost more/)
    expect(kilnLosses.byDryMass.verdict).toBe('lighter_loses_more')
    expect(kilnLosses.byDryMass.words).toContain('Each hundredth lighter went with')
  }, 60_000)

  test('is not claimed where losses do not follow', async () => {
    await make({ formId: 'chancy', shares: rising, wasters: [2, 1, 3, 2, 1, 2, 3, 1, 2, 2] })
    const { kilnLosses } = await read('/v1/reports/turning/chancy')
    expect(kilnLosses.byTurnedOff).toMatchObject({
      verdict: 'no_link_seen',
      reason: 'interval_holds_no_effect',
    })
    expect(kilnLosses.byTurnedOff.words).toContain('there may still be one')
  }, 60_000)

  test('says why nothing can be said: nothing fired, nothing lost, too few runs', async () => {
    await make({ formId: 'young', shares: [0.1, null, 0.12] })
    const young = await read('/v1/reports/turning/young')
    expect(young.kilnLosses).toMatchObject({
      byTurnedOff: { verdict: 'too_little_to_say', reason: 'nothing_lost', oddsRatioAPoint: null },
      runsNotThrough: 3,
    })
    expect(young.kilnLosses.byTurnedOff.words).toContain('no run has been through the kilns yet')
    await make({ formId: 'safe', shares: [0.1, 0.2, 0.15], wasters: [0, 0, 0] })
    const safe = await read('/v1/reports/turning/safe')
    expect(safe.kilnLosses.byTurnedOff.words).toContain('none of 60 was lost')
    await make({ formId: 'few', shares: [0.1, 0.2, 0.15], wasters: [1, 5, 6] })
    const few = await read('/v1/reports/turning/few')
    expect(few.kilnLosses.byTurnedOff.reason).toBe('too_few_runs')
  }, 60_000)
})

describe('makers', () => {
  openWithClay()
  const compare = (comparesMakers: boolean) =>
    pottery.ask('PATCH', `/v1/studios/${STUDIO}`, { body: { comparesMakers } })

  test('are named nowhere unless the studio has switched the comparison on', async () => {
    const shares = [0.1, 0.2, 0.11, 0.21, 0.1, 0.19, 0.11, 0.2, 0.1, 0.21]
    const by = (index: number) => (index % 2 === 0 ? 'Ines' : 'Tobin')
    await make({ formId: 'shared', shares, wasters: [0, 4, 1, 5, 0, 4, 0, 6, 1, 5], by })
    for (const address of ['/shared', '', '/shared?format=csv']) {
      const { text, status } = await pottery.ask('GET', `/v1/reports/turning${address}`)
      expect(status).toBe(200)
      expect(text).not.toMatch(/Ines|Tobin|"makers"/)
    }
  }, 60_000)

  test('stand side by side where it is on, and what tells them apart is said', async () => {
    await compare(true)
    const { makers } = await read('/v1/reports/turning/shared')
    expect(makers.makers).toMatchObject([
      {
        ...{ maker: 'Ines', runs: 5, turnedRuns: 5, turnedOffFraction: '0.104' },
        ...{ firedPieces: 100, survivedPieces: 98, survivorsFraction: '0.98' },
      },
      {
        ...{ maker: 'Tobin', runs: 5, turnedRuns: 5, turnedOffFraction: '0.202' },
        ...{ firedPieces: 100, survivedPieces: 76, survivorsFraction: '0.76' },
      },
    ])
    expect(makers.findings).toHaveLength(2)
    expect(makers.words).toContain('Tobin turns more off than Ines: 20.2 % against 10.4 % a run')
    expect(makers.words).toContain('More of Ines’s pots come through the kilns than of Tobin’s')
    await make({ formId: 'nobodys', shares: [0.1, 0.2] })
    const { makers: nobody } = await read('/v1/reports/turning/nobodys')
    expect(nobody).toMatchObject({ makers: [], findings: [], unnamedRuns: 2 })
  })

  test('are named no more once it is off again', async () => {
    await compare(false)
    const report = await read('/v1/reports/turning/shared')
    expect(report).not.toHaveProperty('makers')
  })
})
