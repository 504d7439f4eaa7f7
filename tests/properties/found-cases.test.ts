import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { countHolding } from '../../db/acts/count.ts'
import { testDry } from '../../db/acts/dry-test.ts'
import { lift } from '../../db/acts/lift.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { openBooks, type OpeningItem } from '../../db/acts/open-books.ts'
import { pour } from '../../db/acts/pour.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { rewet } from '../../db/acts/rewet.ts'
import { slake } from '../../db/acts/slake.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { weighOnPlaster } from '../../db/acts/weigh-on-plaster.ts'
import { weighScrap } from '../../db/acts/weigh-scrap.ts'
import { correctEntry } from '../../db/correct.ts'
import type { Act, Circumstances } from '../../db/perform.ts'
import { g, kg, openTestStudio, type TestStudio } from '../support/studio.ts'
import { attempt } from './commands.ts'
import { faultsOf, odditiesOf } from './second-opinion.ts'
import { viewStudio } from './view.ts'

let studio: TestStudio
beforeEach(async () => {
  studio = await openTestStudio()
})
afterEach(async () => {
  const { services, studioId } = studio
  const wrong = [
    ...(await faultsOf(services.db, studioId)),
    ...(await odditiesOf(services.db, studioId)),
  ]
  await studio.close()
  expect(wrong).toEqual([])
})

/** Accepted, or the code of the refusal. */
async function outcome<Said extends Circumstances>(act: Act<Said>, said: Said): Promise<string> {
  const verdict = await attempt(act.kind, async () => ({
    answer: await studio.does(act, said),
    isRetry: false,
  }))
  return verdict.refusal?.code ?? 'accepted'
}

async function outcomeOfReversal(entryId: string): Promise<string> {
  const { services, studioId } = studio
  const verdict = await attempt('reverse', () =>
    correctEntry(services, { studioId }, { said: { entryId } }),
  )
  return verdict.refusal?.code ?? 'accepted'
}

const opening = (...items: OpeningItem[]) => studio.does(openBooks, { items })
const five = { reading: { net: kg('5') }, cost: '5' }
const clay = (bodyId: string, lotId: string) => ({ ...five, what: 'clay' as const, bodyId, lotId })
const scrap = (bodyId: string, vesselId: string) => ({
  ...{ ...five, what: 'scrap' as const, bodyId, vesselId },
})
const basin = (bodyId: string, vesselId: string) => ({
  ...{ ...five, what: 'basin' as const, bodyId, vesselId },
})
const load = (lotId: string) => ({
  ...{ ...five, what: 'load' as const, bodyId: 'buff', lotId, batId: 'bat-a' },
})

/** A sample that tells less water than the books think, or as much. */
const sample = { wetWithTin: g('100.00'), dryWithTin: g('80.00') }

describe('readings that random acts have found', () => {
  test('the same mass read on a better scale is accepted, and changes only how sure it is', async () => {
    await opening(scrap('buff', 'bucket-1'))
    const reading = { net: kg('5'), scaleId: 'bench' }
    const said = { vesselId: 'bucket-1', bodyId: 'buff', state: 'turnings' as const, reading }
    expect(await outcome(weighScrap, said)).toBe('accepted')
  })

  test('less than the ledger can keep is refused in words', async () => {
    await opening(clay('buff', 'c'), { ...scrap('buff', 'bucket-1'), state: 'slops' })
    const drop = { lotId: 'c', place: 'bench' as const, water: g('0.0000001') }
    expect(await outcome(rewet, drop)).toBe('act_must_move_something')
    const speck = { fromVesselId: 'bucket-1', basinVesselId: 'basin-1' }
    expect(await outcome(slake, { ...speck, scrap: { net: g('0.000001') } })).toBe(
      'act_must_move_something',
    )
  })

  test('a cost that no clay is left to carry is not told as a reversal that comes too late', async () => {
    const water = { content: '0.9999999', basis: 'wet' as const }
    const slip = { ...scrap('buff', 'bucket-1'), reading: { net: g('0.1') }, water }
    const code = await outcome(openBooks, { items: [slip] })
    expect(code).not.toBe('accepted')
    expect(code).not.toMatch(/^reversal_/)
  })

  test('clay is thrown although an addition to it was taken back after a dry test', async () => {
    const bags = { bodyId: 'buff', lotId: 'd', bags: 2, bagMass: kg('12.5'), price: '20' }
    await studio.does(receiveDelivery, { clays: [bags] })
    await studio.does(openBag, { lotId: 'd', bags: 1, newLotId: 'o' })
    const added = await studio.does(openBag, { lotId: 'd', bags: 1, intoLotId: 'o' })
    await studio.does(testDry, { bodyId: 'buff', state: 'wedged', lotId: 'o', sample })
    expect(await outcomeOfReversal(added.entry.entryId)).toBe('accepted')
    const from = [{ lotId: 'o', reading: { net: g('1000.0') } }]
    expect(await outcome(throwRun, { formId: 'mug', from, pieces: 2 })).toBe('accepted')
  })
})

describe('clays that random acts have brought together', () => {
  test('bags do not join a lot of another clay', async () => {
    const bags = { bodyId: 'buff', lotId: 'd', bags: 2, bagMass: kg('10'), price: '10' }
    await studio.does(receiveDelivery, { clays: [bags] })
    await opening(clay('white', 'w'))
    const code = await outcome(openBag, { lotId: 'd', bags: 1, intoLotId: 'w' })
    expect(code).toBe('bodies_must_not_mix_unless_declared')
  })

  test('two clays do not meet in a vessel within one opening', async () => {
    const items = [scrap('buff', 'bucket-1'), scrap('white', 'bucket-1')]
    expect(await outcome(openBooks, { items })).toBe('bodies_must_not_mix_unless_declared')
  })

  test('two clays do not meet in a vessel when one is counted where it lay before', async () => {
    await opening(scrap('buff', 'bucket-1'))
    const { holdingId } = await studio.holds({ vesselId: 'bucket-1' })
    await studio.does(slake, { fromVesselId: 'bucket-1', basinVesselId: 'basin-1' })
    await opening(scrap('white', 'bucket-1'))
    const code = await outcome(countHolding, { holdingId, reading: { net: kg('1') } })
    expect(code).toBe('bodies_must_not_mix_unless_declared')
  })

  test('two clays do not meet in a vessel when one is taken back to where another lies now', async () => {
    await opening(scrap('buff', 'bucket-1'))
    const emptied = { fromVesselId: 'bucket-1', basinVesselId: 'basin-1' }
    const { entry } = await studio.does(slake, emptied)
    await opening(scrap('white', 'bucket-1'))
    expect(await outcomeOfReversal(entry.entryId)).not.toBe('accepted')
  })

  test('two clays do not meet in an empty vessel when they are put there at the same instant', async () => {
    const items = ['buff', 'white'].map((bodyId) => scrap(bodyId, 'bucket-1'))
    const codes = await Promise.all(items.map((item) => outcome(openBooks, { items: [item] })))
    expect(codes.filter((code) => code === 'accepted')).toHaveLength(1)
  })

  test('a dry test of one clay does not set a lot of another right', async () => {
    await opening(clay('buff', 'c'))
    const said = { bodyId: 'white', state: 'wedged' as const, lotId: 'c', sample }
    expect(await outcome(testDry, said)).not.toBe('accepted')
  })
})

describe('bats and places that random acts have found', () => {
  test('the books do not open with two loads on one bat', async () => {
    await opening(load('one'))
    expect(await outcome(openBooks, { items: [load('two')] })).toBe('bat_must_be_empty')
  })

  test('a bat takes one of two loads that are poured from two basins at the same instant', async () => {
    await opening(basin('buff', 'basin-1'), basin('white', 'basin-2'))
    for (const round of ['1', '2', '3', '4']) {
      const pours = ['basin-1', 'basin-2'].map((basinVesselId) => {
        const one = {
          batId: 'bat-a',
          lotId: `${basinVesselId}-${round}`,
          reading: { net: g('900') },
        }
        return outcome(pour, { basinVesselId, loads: [one] })
      })
      const codes = await Promise.all(pours)
      expect([...codes].sort()).toEqual(['accepted', 'bat_must_be_empty'])
      const poured = codes[0] === 'accepted' ? 'basin-1' : 'basin-2'
      await studio.does(lift, { lotId: `${poured}-${round}` })
    }
  })

  test('a lifting is not taken back to a bat that carries the next load', async () => {
    await opening(basin('buff', 'basin-1'), load('one'))
    const { entry } = await studio.does(lift, { lotId: 'one' })
    const loads = [{ batId: 'bat-a', reading: { net: kg('1') } }]
    await studio.does(pour, { basinVesselId: 'basin-1', loads })
    expect(await outcomeOfReversal(entry.entryId)).toBe('bat_must_be_empty')
  })

  test('a load that was lifted, and a lot that never was one, are not weighed on plaster', async () => {
    await opening(load('one'), clay('buff', 'c'))
    await studio.does(lift, { lotId: 'one' })
    for (const lotId of ['one', 'c']) {
      const said = { lotId, reading: { net: kg('3') }, withPlaster: false }
      expect(await outcome(weighOnPlaster, said)).toBe('clay_must_be_enough')
    }
  })

  test('the world outside is not counted', async () => {
    await opening(clay('buff', 'c'))
    const { services, studioId } = studio
    const { holdings } = await viewStudio(services.db, studioId)
    const outside = holdings.find((held) => !held.isInside)?.holdingId ?? 'none'
    const code = await outcome(countHolding, { holdingId: outside, reading: { net: g('100') } })
    expect(code).not.toBe('accepted')
  })
})
