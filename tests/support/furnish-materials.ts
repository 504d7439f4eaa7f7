import { and, eq } from 'drizzle-orm'
import type { Connection } from '../../db/connection.ts'
import {
  form,
  glazeRecipe,
  glazeRecipePart,
  kiln,
  material,
  studio,
  vessel,
} from '../../db/schema.ts'
import { TEST_NOW } from './studio.ts'

/** What a kilowatt-hour and a fire's wear cost in the studio's kilns. */
export const PER_KILOWATT_HOUR = '0.3'
export const WEAR_PER_FIRING = '2.5'

/**
 * Puts into a studio what glazes, fires and packs: two powders of which one is damp, two glazes with a
 * recipe, boxes and paper, shelves, gas, two glaze pails, and a kiln of each kind.
 */
export async function furnishMaterials(
  { db }: Pick<Connection, 'db'>,
  studioId: string,
  secondsCostRule: 'like_firsts' | 'by_price' = 'like_firsts',
): Promise<void> {
  const changedAt = TEST_NOW
  const ofStudio = { studioId, changedAt }
  const known = (materialId: string, kind: string, keptBy: string) => ({
    ...{ ...ofStudio, materialId, name: materialId, kind, keptBy },
  })
  const powder = { waterContentWetBasis: '0', lossOnIgnitionFraction: '0' }
  await db.insert(material).values([
    { ...known('quartz', 'ingredient', 'mass'), ...powder, crystallineSilicaFraction: '0.98' },
    {
      ...known('whiting', 'ingredient', 'mass'),
      ...{ waterContentWetBasis: '0.03', lossOnIgnitionFraction: '0.44' },
    },
    { ...known('celadon', 'glaze', 'mass'), lossOnIgnitionFraction: '0.1' },
    { ...known('tenmoku', 'glaze', 'mass'), lossOnIgnitionFraction: '0.05' },
    known('box', 'packaging', 'count'),
    known('paper', 'packaging', 'mass'),
    known('shelf', 'kiln_furniture', 'count'),
    known('gas', 'fuel', 'mass'),
  ])
  await db.insert(glazeRecipe).values(
    ['celadon', 'tenmoku'].map((materialId) => ({
      ...{ studioId, materialId, versionNo: 1, madeAt: changedAt },
    })),
  )
  const part = (materialId: string, [partNo, ingredientId, parts]: [number, string, string]) => ({
    ...{ studioId, materialId, versionNo: 1, partNo, ingredientId, parts, isAddition: false },
  })
  await db
    .insert(glazeRecipePart)
    .values([
      part('celadon', [1, 'quartz', '60']),
      part('celadon', [2, 'whiting', '40']),
      part('tenmoku', [1, 'quartz', '70']),
      part('tenmoku', [2, 'whiting', '30']),
    ])
  await db.insert(vessel).values(
    ['glaze-1', 'glaze-2'].map((vesselId) => ({
      ...{ ...ofStudio, vesselId, name: vesselId, kind: 'bucket', tareGrams: '700' },
    })),
  )
  const fired = { volumeLitres: '200', wearPerFiring: WEAR_PER_FIRING }
  await db.insert(kiln).values([
    {
      ...{ ...ofStudio, ...fired, kilnId: 'electric', name: 'Electric' },
      ...{ pricePerKilowattHour: PER_KILOWATT_HOUR, ratedKilowatts: '9' },
      ...{ bisqueHours: '9', glazeHours: '8', shareBy: 'shelf_space' },
    },
    {
      ...{ ...ofStudio, ...fired, kilnId: 'gas-kiln', name: 'Gas kiln', shareBy: 'mass' },
      fuelMaterialId: 'gas',
    },
  ])
  const ofForm = (formId: string) => and(eq(form.studioId, studioId), eq(form.formId, formId))
  await db
    .update(form)
    .set({
      ...{ kilnFootprintSquareCentimetres: '90', kilnHeightCentimetres: '11' },
      glazeGramsPerPiece: '28.5',
      packing: [
        { materialId: 'box', perPiece: '1' },
        { materialId: 'paper', perPiece: '35' },
      ],
    })
    .where(ofForm('mug'))
  await db.update(studio).set({ secondsCostRule }).where(eq(studio.studioId, studioId))
}
