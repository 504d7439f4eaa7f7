import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openBooks } from '../../db/acts/open-books.ts'
import { readSlurry } from '../../db/acts/read-slurry.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { reconcile } from '../../db/reports/reconcile.ts'
import { doubtOfDifference, doubtOfSum, NO_DOUBT } from '../../shared/doubt.ts'
import type { Held } from '../../shared/quantity.ts'
import { heldIn, sourcesOf, unsureBy } from '../support/doubts.ts'
import { g, kg, openTestStudio, type TestStudio } from '../support/studio.ts'

let studio: TestStudio
beforeAll(async () => {
  studio = await openTestStudio()
})
afterAll(async () => {
  await studio.close()
})

/** d/√12 of a scale that shows whole grams. */
const READING = 1 / Math.sqrt(12)

describe('forty balls of one lot, whose water content may be wrong', () => {
  const BALLS = 40
  let runs: Held[]
  let lot: Held
  let whole: Held

  beforeAll(async () => {
    const clay = { what: 'clay' as const, bodyId: 'buff', lotId: 'forty' }
    // By the handbook 0.22 of it is water, give or take 0.015: 15.6 kg of clay, give or take 300 g.
    await studio.does(openBooks, {
      items: [{ ...clay, reading: { net: kg('20.000') }, cost: '40' }],
    })
    whole = await heldIn(studio, { lotId: 'forty' })
    runs = []
    for (let ball = 1; ball <= BALLS; ball += 1) {
      const runId = `ball-${ball}`
      await studio.does(throwRun, {
        ...{ formId: 'mug', runId },
        from: [{ lotId: 'forty', balls: 1, ballMass: g('400') }],
      })
      runs.push(await heldIn(studio, { runId }))
    }
    lot = await heldIn(studio, { lotId: 'forty' })
  })

  test('are each unsure by that water content and by a reading of their own', () => {
    for (const run of runs) {
      expect(run.dryGrams.toFixed()).toBe('312')
      expect(unsureBy(run.dryDoubt)).toBeCloseTo(Math.hypot(400 * 0.015, 0.78 * READING), 4)
    }
  })

  test('are off together: what they sum to is unsure by the sum, not by the root of it', () => {
    const sum = doubtOfSum(runs.map((run) => run.dryDoubt))
    const ofReadings = Math.sqrt(BALLS) * 0.78 * READING
    expect(unsureBy(sum)).toBeCloseTo(Math.hypot(BALLS * 400 * 0.015, ofReadings), 3)
    const apart = Math.sqrt(BALLS) * 400 * 0.015
    expect(unsureBy(sum)).toBeGreaterThan(6 * apart)
  })

  test('differ from each other by hardly anything but their readings', () => {
    const [one = lot, other = lot] = runs
    const apart = doubtOfDifference(one.dryDoubt, other.dryDoubt)
    expect(unsureBy(apart)).toBeCloseTo(Math.SQRT2 * 0.78 * READING, 4)
    expect(sourcesOf(apart, 'moisture')).toEqual([])
  })

  test('cost no more or less by that water content, which all of the lot shares', () => {
    for (const run of runs) {
      expect(run.cost.toFixed(2)).toBe('0.80')
      // A gram of wet clay is 0.002 of money. Small readings that became one of the lot's clay and one of
      // its cost are no longer known to be the same, which adds a little to the last balls.
      const ofReading = unsureBy(run.costDoubt) / (0.002 * READING)
      expect(ofReading).toBeGreaterThan(0.999)
      expect(ofReading).toBeLessThan(1.25)
      expect(sourcesOf(run.costDoubt, 'moisture')).toEqual([])
    }
  })

  test('leave the lot as unsure as it is, by few sources', () => {
    // 4 kg wet are left; the first reading stays with it, and the forty are its mistakes the other way.
    const ofReadings = 0.78 * READING * Math.sqrt(1 + BALLS)
    expect(unsureBy(lot.dryDoubt)).toBeCloseTo(Math.hypot(4000 * 0.015, ofReadings), 2)
    expect(lot.dryDoubt.size).toBeLessThanOrEqual(14)
    expect(sourcesOf(lot.dryDoubt, 'merged_water')).toEqual([])
  })

  test('and the lot are what the lot was, source by source of its water', () => {
    const together = doubtOfSum([...runs.map((run) => run.dryDoubt), lot.dryDoubt])
    for (const kind of ['moisture', 'batch']) {
      const [source = ''] = sourcesOf(whole.dryDoubt, kind)
      expect(together.get(source)?.toFixed()).toBe(whole.dryDoubt.get(source)?.toFixed())
    }
  })

  test('an emptied lot is not unsure of what it holds', async () => {
    const rest = { lotId: 'forty', whatIsLeft: true as const }
    await studio.does(throwRun, { formId: 'mug', runId: 'rest', pieces: 10, from: [rest] })
    const empty = await heldIn(studio, { lotId: 'forty' })
    expect([empty.dryGrams.toFixed(), empty.dryDoubt, empty.costDoubt]).toEqual([
      '0',
      NO_DOUBT,
      NO_DOUBT,
    ])
    expect((await reconcile(studio.services.db)).faults).toEqual([])
  })
})

describe('turnings', () => {
  const turned = { runId: 'turned', vesselId: 'bucket-1' }
  beforeAll(async () => {
    const clay = { what: 'clay' as const, bodyId: 'buff', lotId: 'for-turning' }
    const from = [{ lotId: 'for-turning', balls: 20, ballMass: g('400') }]
    await studio.does(openBooks, { items: [{ ...clay, reading: { net: kg('20.000') } }] })
    await studio.does(throwRun, { formId: 'mug', runId: 'turned', from })
  })

  test('weighed as a difference in one vessel are not unsure by its tare', async () => {
    const board = { inVesselId: 'bucket-3' }
    await studio.does(turnRun, {
      ...turned,
      before: { gross: g('6400'), ...board },
      after: { gross: g('6000'), ...board },
    })
    const { dryDoubt } = await heldIn(studio, { vesselId: 'bucket-1' })
    expect(sourcesOf(dryDoubt, 'tare')).toEqual([])
    const ofReadings = sourcesOf(dryDoubt, 'reading').map((one) => dryDoubt.get(one)?.toFixed(6))
    // Turnings are 0.15 water: 0.85 of 0.288675 g, the one reading up and the other down.
    expect(ofReadings.sort()).toEqual(['-0.245374', '0.245374'])
  })

  test('weighed alone in a vessel are, by as much as a reading and the other way', async () => {
    const before = await heldIn(studio, { vesselId: 'bucket-1' })
    await studio.does(turnRun, { ...turned, turnings: { gross: g('800'), inVesselId: 'bucket-2' } })
    const after = await heldIn(studio, { vesselId: 'bucket-1' })
    const brought = doubtOfDifference(after.dryDoubt, before.dryDoubt)
    expect(brought.get('tare|400|bucket-2')?.toFixed(6)).toBe('-0.245374')
  })

  test('of one water content that is said are off together, however its digits were written', async () => {
    const before = await heldIn(studio, { vesselId: 'bucket-1' })
    for (const content of ['0.2', '0.20']) {
      await studio.does(turnRun, { ...turned, turnings: { net: g('50') }, water: { content } })
    }
    const after = await heldIn(studio, { vesselId: 'bucket-1' })
    const brought = doubtOfDifference(after.dryDoubt, before.dryDoubt)
    const [said = '', ...others] = sourcesOf(brought, 'said')
    expect(others).toEqual([])
    // 100 g of a content that is off by 0.015.
    expect(brought.get(said)?.toFixed()).toBe('-1.5')
    for (const water of [{ content: '0.2' }, { content: '0.3' }]) {
      await studio.does(turnRun, { ...turned, turnings: { net: g('10') }, water })
    }
    const { dryDoubt } = await heldIn(studio, { vesselId: 'bucket-1' })
    expect(sourcesOf(dryDoubt, 'said')).toHaveLength(2)
  })

  test('of many batches stay as unsure by their water as all the batches leave it', async () => {
    const before = await heldIn(studio, { vesselId: 'bucket-1' })
    const more = 14
    for (let at = 0; at < more; at += 1) {
      await studio.does(turnRun, { ...turned, turnings: { net: g('100') } })
    }
    const { dryDoubt } = await heldIn(studio, { vesselId: 'bucket-1' })
    const figure = sourcesOf(dryDoubt, 'moisture').find((one) => one.includes('turnings')) ?? ''
    // Half of 0.015 is of each batch, root(3/4) of it of the figure; 400 + 400 + 14 x 100 g were weighed.
    expect(dryDoubt.get(figure)?.toNumber()).toBeCloseTo(-2200 * 0.015 * Math.sqrt(0.75), 4)
    const ofBatches = [...sourcesOf(dryDoubt, 'batch'), ...sourcesOf(dryDoubt, 'merged_water')]
    const batches = new Map([...dryDoubt].filter(([source]) => ofBatches.includes(source)))
    const expected = 0.0075 * Math.sqrt(2 * 400 ** 2 + more * 100 ** 2)
    expect(unsureBy(batches)).toBeCloseTo(expected, 4)
    expect(dryDoubt.size).toBeLessThanOrEqual(15)
    expect(before.dryDoubt.size).toBeGreaterThan(0)
  })
})

describe('a basin of slurry by density and by volume', () => {
  /** 9 L in the basin; a litre of it weighs 1.4 kg. At 20 °C water weighs 0.9982 g/mL, grains 2.6. */
  const read = async (vesselId: string) => {
    const open = { what: 'basin' as const, bodyId: 'buff', vesselId }
    await studio.does(openBooks, { items: [{ ...open, reading: { net: kg('12') } }] })
    await studio.does(readSlurry, {
      basinVesselId: vesselId,
      slurry: { net: g('1400') },
      volume: { value: '1000', unit: 'ml' },
      wholeVolume: { value: '9', unit: 'l' },
    })
    return heldIn(studio, { vesselId, place: 'basin' })
  }
  const SLOPE = 2.6 / (2.6 - 0.9982)
  let one: Held
  let other: Held
  beforeAll(async () => {
    one = await read('basin-1')
    other = await read('basin-2')
  })

  test('is unsure by its jug once, in its mass and in its water together', () => {
    const [jug = '', ...more] = sourcesOf(one.dryDoubt, 'jug')
    expect(more).toEqual([])
    // Clay in 9 L is 9000 x 2.6/1.6018 x (density - 0.9982): one per cent of 1.4 moves it by 204.5 g.
    expect(one.dryDoubt.get(jug)?.toNumber()).toBeCloseTo(-9000 * SLOPE * 0.014, 0)
  })

  test('is unsure by how full the basin was, which is of its mass and not of its water', () => {
    const [volume = '', ...more] = sourcesOf(one.dryDoubt, 'volume')
    expect(more).toEqual([])
    const expected = one.dryGrams.toNumber() / 100
    expect(one.dryDoubt.get(volume)?.toNumber()).toBeCloseTo(expected, 1)
  })

  test('shares what grains weigh with every basin of that clay, and nothing else', () => {
    expect(sourcesOf(one.dryDoubt, 'grain')).toEqual(['grain|2.6|buff'])
    const apart = doubtOfDifference(one.dryDoubt, other.dryDoubt)
    expect(sourcesOf(apart, 'grain')).toEqual([])
    expect(sourcesOf(apart, 'jug')).toHaveLength(2)
  })
})
