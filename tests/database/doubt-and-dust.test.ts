import { afterAll, beforeAll, expect, test } from 'vitest'
import { countHolding } from '../../db/acts/count.ts'
import { testDry } from '../../db/acts/dry-test.ts'
import { bisqueFire } from '../../db/acts/fire.ts'
import { lift } from '../../db/acts/lift.ts'
import { losePieces } from '../../db/acts/lose.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { openBooks } from '../../db/acts/open-books.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { stockReport } from '../../db/reports/stock.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { g, kg, openTestStudio, type TestStudio } from '../support/studio.ts'

let studio: TestStudio
beforeAll(async () => {
  studio = await openTestStudio()
})
afterAll(async () => {
  await studio.close()
})

async function doubtOf(holdingId: string): Promise<Decimal> {
  const { holdings } = await stockReport(studio.services.db, { studioId: studio.studioId })
  const found = holdings.find((one) => one.holdingId === holdingId)
  return decimal(found?.standardUncertaintyGrams ?? 'NaN')
}

test('bags opened one by one are as unsure as the same bags opened together', async () => {
  const bags = { bodyId: 'buff', bags: 16, bagMass: kg('12.5'), price: '200' }
  await studio.does(receiveDelivery, {
    clays: [
      { ...bags, lotId: 'one-by-one' },
      { ...bags, lotId: 'together' },
    ],
  })
  const first = { lotId: 'one-by-one', bags: 1 }
  await studio.does(openBag, { ...first, newLotId: 'slow' })
  for (let bag = 2; bag <= 9; bag += 1) await studio.does(openBag, { ...first, intoLotId: 'slow' })
  await studio.does(openBag, { lotId: 'together', bags: 9, newLotId: 'quick' })
  const slow = await doubtOf((await studio.holds({ lotId: 'slow' })).holdingId)
  const quick = await doubtOf((await studio.holds({ lotId: 'quick' })).holdingId)
  expect(slow.minus(quick).abs().lessThan('0.01'), `${slow.toFixed()} ${quick.toFixed()}`).toBe(
    true,
  )
})

test('pots that a count finds more of are no surer, pot for pot', async () => {
  await studio.does(openBooks, {
    items: [{ what: 'pots', bodyId: 'buff', formId: 'mug', runId: 'few', at: 'bisque', pieces: 5 }],
  })
  const { holdingId } = await studio.holds({ runId: 'few' })
  const before = await doubtOf(holdingId)
  await studio.does(countHolding, { holdingId, pieces: 50 })
  expect((await doubtOf(holdingId)).dividedBy(before).toFixed(3)).toBe('10.000')
})

test('bone-dry pots lost unweighed, ware into the bisque and a dried sample each bring the caution', async () => {
  await studio.does(openBooks, {
    items: [
      { what: 'pots', bodyId: 'buff', formId: 'mug', runId: 'dry', at: 'greenware', pieces: 6 },
    ],
  })
  const drying = { runId: 'dry', pieces: 1, stage: 'drying' as const, cause: 'cracked' }
  const lost = await studio.does(losePieces, { ...drying, vesselId: 'bucket-1' })
  const fired = await studio.does(bisqueFire, { runs: [{ runId: 'dry' }] })
  const sample = { wetWithTin: g('100.0'), dryWithTin: g('80.0') }
  const tested = await studio.does(testDry, { bodyId: 'buff', state: 'turnings', sample })
  for (const answer of [lost, fired, tested]) {
    expect(answer.cautions.map((caution) => caution.hazard)).toHaveLength(1)
    expect(answer.cautions[0]?.limits.length).toBeGreaterThan(0)
  }
})

test('a slab that is lifted unweighed is taken for clay that is ready to wedge, not for slurry', async () => {
  const load = { what: 'load' as const, bodyId: 'white', batId: 'bat-a' }
  await studio.does(openBooks, {
    items: [{ ...load, lotId: 'slab', reading: { net: kg('4.00') } }],
  })
  await studio.does(lift, { lotId: 'slab', newLotId: 'lifted' })
  const { dryGrams, waterGrams } = await studio.holds({ lotId: 'lifted' })
  const wet = decimal(dryGrams).plus(waterGrams)
  expect(decimal(waterGrams).dividedBy(wet).toFixed(4)).toBe('0.2200')
})

test('a bat is not opened with two loads', async () => {
  const load = { what: 'load' as const, bodyId: 'white', batId: 'bat-b', reading: { net: kg('4') } }
  await studio.does(openBooks, { items: [{ ...load, lotId: 'on-b' }] })
  const again = studio.does(openBooks, { items: [{ ...load, lotId: 'on-b-too' }] })
  await expect(again).rejects.toMatchObject({ code: 'bat_must_be_empty' })
})
