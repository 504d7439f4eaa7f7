import { describe, expect, test } from 'vitest'
import type { BookedEntry } from '../../shared/balance-book.ts'
import { waterKept } from '../../shared/balance-kept.ts'
import { decimal } from '../../shared/decimal.ts'
import { doubtRead } from '../../shared/doubt.ts'
import { monthBalance } from '../../shared/month-balance.ts'
import { monthFinding } from '../../shared/month-finding.ts'
import { monthNetwork } from '../../shared/month-network.ts'
import { Chance } from '../support/chance.ts'

const FIGURE = 'moisture|wedged|0.22|0.015|buff'
const SCALE = 3
/** Of 20 kg wet: the figure is unsure by 0.013 of it, and this batch differs by 0.0075. */
const [SHARED, BATCH] = [260, 150]

const count = (grams: number, dryDoubt: Readonly<Record<string, string>>): BookedEntry => ({
  ...{ entryId: 'counted', kind: 'count', said: {}, day: '2 May', time: '09:00', state: 'wedged' },
  ...{ stage: null, fromLotIds: [], counts: [null], batIds: [] },
  lines: [
    {
      ...{ holdingId: 'lot', dryGrams: decimal(grams - 15_600), pieces: decimal(0) },
      dryDoubt: doubtRead(dryDoubt),
    },
  ],
  estimates: [
    {
      ...{ estimateNo: 1, holdingId: 'lot', of: 'counted', weighingNo: 1 },
      ...{ dryGrams: decimal(grams), waterGrams: decimal(4_400) },
      ...{ method: 'default_for_state', standing: 'assumed' },
      standardUncertaintyGrams: decimal(Math.hypot(SHARED, BATCH, 0.78 * SCALE).toFixed(6)),
    },
  ],
  weighings: [
    {
      ...{ weighingNo: 1, purpose: 'reading', kind: 'clay', vesselId: null },
      ...{ netGrams: decimal(20_000), tareGrams: decimal(0) },
      standardUncertaintyGrams: decimal(SCALE),
      read: { value: '20.00', unit: 'kg' },
    },
  ],
})

/** The line of a count is what was read less what the books had: the figure all but falls out of it. */
const COUNTED = { [FIGURE]: '-8', 'batch|counted|2': '-150', 'batch|laid in|1': '140' }
const OPENING = { [FIGURE]: '-252', 'batch|laid in|1': '-140', 'reading|laid in|2': '40' }

function book(opening: number, counted: number) {
  return {
    ...{ bodyId: 'buff', lossOnIgnitionFraction: decimal(0), vessels: [], bats: [] },
    holdings: [
      {
        ...{ holdingId: 'lot', place: 'bench' as const, bodyId: 'buff', lotId: 'lot' },
        ...{ runId: null, vesselId: null, name: 'the lot' },
        ...{ openingDryGrams: decimal(opening), openingDryDoubt: doubtRead(OPENING) },
        nowDryGrams: decimal(counted),
      },
    ],
    ...{ entries: [count(counted, COUNTED)], openFrom: null, isClosed: false },
  }
}

describe('the water of a weigh-in', () => {
  const asked = { water: Math.hypot(SHARED, BATCH), state: 'wedged' }
  const kept = (dryDoubt: Readonly<Record<string, string>>) => {
    const entry = count(15_600, dryDoubt)
    const estimate = entry.estimates[0]
    if (estimate === undefined) throw new TypeError('it was estimated')
    return waterKept({ sources: new Map() }, { entry, estimate }, asked)
  }

  test('is what its line keeps, where the line brings it', () => {
    const brought = { [FIGURE]: '-260', 'batch|counted|2': '-150', 'reading|counted|1': '2.3' }
    expect(Object.fromEntries(kept(brought) ?? [])).toEqual({
      [FIGURE]: 260,
      'batch|counted|2': 150,
    })
  })

  test('is the batch as the ledger keeps it and the rest by the figure, where a whole was weighed', () => {
    const found = kept(COUNTED)
    expect(found?.get('batch|counted|2')).toBe(150)
    expect(found?.get(FIGURE)).toBeCloseTo(SHARED, 6)
    expect(found?.has('batch|laid in|1')).toBe(false)
  })

  test('is not known where the line names no figure of that state', () => {
    expect(kept({})).toBeUndefined()
    expect(kept({ 'moisture|slops|0.8|0.03|buff': '-20', 'batch|counted|2': '-150' })).toBe(
      undefined,
    )
  })
})

describe('what the books began with', () => {
  test('shares its figure with what is weighed by it in the month', () => {
    const { covariance, readings } = monthNetwork(monthBalance(book(15_600, 15_590)).description)
    const [opening, counted] = [0, readings.findIndex(({ id }) => id === 'counted/1')]
    // Both have more clay where that figure is lower: 252 g and 260 g.
    expect(covariance[opening]?.[counted]).toBeCloseTo(252 * 260, 0)
    expect(Math.sqrt(covariance[opening]?.[opening] ?? NaN)).toBeCloseTo(
      Math.hypot(252, 140, 40, 15.6, 1),
      3,
    )
  })

  test('leaves open what pots lost unseen, which the ledger does not keep', () => {
    const whole = book(15_600, 15_590)
    const pots = whole.holdings.map((one) => ({ ...one, place: 'greenware' as const }))
    const { covariance } = monthNetwork(monthBalance({ ...whole, holdings: pots }).description)
    expect(Math.sqrt(covariance[0]?.[0] ?? NaN)).toBeCloseTo(
      Math.hypot(252, 140, 40, 15.6, 78, 1),
      3,
    )
  })

  test('agrees with it as often as it shall, over honest months', () => {
    const chance = new Chance(11)
    const months = 400
    const found = Array.from({ length: months }, () => {
      const figure = chance.normal()
      const opening = 15_600 + 252 * figure + Math.hypot(140, 40, 15.6) * chance.normal()
      const own = Math.hypot(0.78 * SCALE, 20, 1)
      const counted = 15_600 + 260 * figure + 150 * chance.normal() + own * chance.normal()
      const month = book(rounded(opening), rounded(counted))
      return monthFinding(monthBalance(month).description).globalTest
    })
    const mean = found.reduce((sum, one) => sum + one.chiSquare / one.degreesOfFreedom, 0) / months
    expect(Math.abs(mean - 1)).toBeLessThan(0.2)
    const alarms = found.filter(({ pValue }) => pValue < 0.05).length / months
    expect(Math.abs(alarms - 0.05)).toBeLessThan(0.03)
  })
})

function rounded(grams: number): number {
  return Number(grams.toFixed(3))
}
