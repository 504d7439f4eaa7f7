import { afterAll, beforeAll, expect, test } from 'vitest'
import { openBooks } from '../../db/acts/open-books.ts'
import { rewet } from '../../db/acts/rewet.ts'
import { weighScrap } from '../../db/acts/weigh-scrap.ts'
import { g, kg, openTestStudio, type TestStudio } from '../support/studio.ts'

let studio: TestStudio
beforeAll(async () => {
  studio = await openTestStudio()
})
afterAll(async () => {
  await studio.close()
})

test('an act that would move less than the ledger counts is refused in words', async () => {
  await studio.does(openBooks, {
    items: [{ what: 'clay', bodyId: 'buff', lotId: 'lump', reading: { net: kg('2.00') } }],
  })
  const drop = studio.does(rewet, { lotId: 'lump', place: 'bench', water: g('0.0000001') })
  await expect(drop).rejects.toMatchObject({ code: 'act_must_move_something' })
})

test('weighed again as heavy but less surely, a vessel keeps its clay and is less sure', async () => {
  const weigh = (standardUncertainty: string) =>
    studio.does(weighScrap, {
      vesselId: 'bucket-1',
      bodyId: 'buff',
      state: 'turnings',
      reading: { net: g('950') },
      water: { content: '0.2', basis: 'wet', standardUncertainty },
    })
  await weigh('0.01')
  const before = await studio.holds({ place: 'scrap', vesselId: 'bucket-1' })
  const again = await weigh('0.02')
  expect(await studio.holds({ place: 'scrap', vesselId: 'bucket-1' })).toEqual(before)
  expect(again.entry.estimates.map((one) => one.standardUncertaintyGrams)).toEqual(['19.001403'])
})
