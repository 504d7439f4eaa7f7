import { afterAll, beforeAll, expect, test } from 'vitest'
import { receiveMaterials } from '../../db/acts/receive-materials.ts'
import { material } from '../../db/schema.ts'
import { openTestStudio, TEST_NOW, type TestStudio } from '../support/studio.ts'

let studio: TestStudio
beforeAll(async () => {
  studio = await openTestStudio()
  await studio.services.db.insert(material).values({
    ...{ studioId: studio.studioId, changedAt: TEST_NOW, materialId: 'box', name: 'Box' },
    ...{ kind: 'packaging', keptBy: 'count' },
  })
})
afterAll(() => studio.close())

test('a delivery that names a material twice is refused at the second, and brings nothing', async () => {
  const box = { materialId: 'box', pieces: 2, price: '3.00' }
  const twice = studio.does(receiveMaterials, { materials: [box, box] })
  await expect(twice).rejects.toMatchObject({
    code: 'material_must_be_told_as_it_is_kept',
    pointer: '/materials/1/materialId',
  })
  expect((await studio.holds({ place: 'materials' })).pieces).toBe('0')
  await studio.does(receiveMaterials, { materials: [box] })
  expect((await studio.holds({ place: 'materials' })).pieces).toBe('2')
})
