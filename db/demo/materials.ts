import type { RecipeSaid } from '../glaze-recipes.ts'
import type { CatalogueItem } from '../catalogue.ts'

/** As the sheet of such a powder prints it; the suppliers are as invented as the studio. */
const SILICA = {
  hazard: 'silica',
  statement: 'H372: damages the lungs, breathed in again and again',
}

const powder = (
  materialId: string,
  name: string,
  more: { lossOnIgnitionFraction: string; hazards?: readonly unknown[] },
): CatalogueItem => ({
  ...{ materialId, name, kind: 'ingredient', keptBy: 'mass', packSize: '25000' },
  supplier: 'Lowtide Minerals',
  dataSheetOn: '2026-01-12',
  waterContentWetBasis: '0.004',
  ...more,
})

const glaze = (materialId: string, name: string): CatalogueItem => ({
  ...{ materialId, name, kind: 'glaze', keptBy: 'mass' },
})

const counted = (materialId: string, name: string, kind: string): CatalogueItem => ({
  ...{ materialId, name, kind, keptBy: 'count' },
})

export const DEMO_MATERIALS: readonly CatalogueItem[] = [
  powder('feldspar', 'Potash feldspar', { lossOnIgnitionFraction: '0.005', hazards: [SILICA] }),
  powder('flint', 'Flint', { lossOnIgnitionFraction: '0.002', hazards: [SILICA] }),
  powder('whiting', 'Whiting', { lossOnIgnitionFraction: '0.4397' }),
  powder('china-clay', 'China clay', { lossOnIgnitionFraction: '0.13', hazards: [SILICA] }),
  {
    ...powder('cobalt-carbonate', 'Cobalt carbonate', {
      lossOnIgnitionFraction: '0.30',
      hazards: [{ hazard: 'cobalt', statement: 'H317, H334, H350i' }],
    }),
    packSize: '500',
    reorderPoint: '100',
  },
  glaze('gull-white', 'Gull white'),
  glaze('tide-blue', 'Tide blue'),
  { ...counted('mug-box', 'Box for a mug', 'packaging'), reorderPoint: '60' },
  { ...counted('plate-box', 'Box for a plate', 'packaging'), reorderPoint: '30' },
  { materialId: 'paper-wool', name: 'Paper wool', kind: 'packaging', keptBy: 'mass' },
  counted('kiln-shelf', 'Kiln shelf', 'kiln_furniture'),
  counted('element-set', 'Set of elements', 'kiln_furniture'),
  { materialId: 'propane', name: 'Propane, by the bottle', kind: 'fuel', keptBy: 'mass' },
]

const BASE = [
  { ingredientId: 'feldspar', parts: '40' },
  { ingredientId: 'flint', parts: '30' },
  { ingredientId: 'whiting', parts: '20' },
  { ingredientId: 'china-clay', parts: '10' },
]

/** Four common powders, in the proportions that are taught; the second with a blue. */
export const DEMO_RECIPES: readonly { glazeId: string; said: RecipeSaid }[] = [
  { glazeId: 'gull-white', said: { parts: BASE, note: 'The plain one.' } },
  {
    glazeId: 'tide-blue',
    said: {
      parts: [...BASE, { ingredientId: 'cobalt-carbonate', parts: '1', isAddition: true }],
    },
  },
]

export const DEMO_KILNS: readonly CatalogueItem[] = [
  {
    kilnId: 'top-loader',
    name: 'Top loader',
    volumeLitres: '290',
    ratedKilowatts: '18',
    pricePerKilowattHour: '0.28',
    wearPerFiring: '2.40',
    shareBy: 'shelf_space',
    bisqueHours: '9.5',
    glazeHours: '11',
  },
  {
    kilnId: 'gas-drum',
    name: 'Gas drum in the yard',
    volumeLitres: '120',
    wearPerFiring: '0.80',
    shareBy: 'count',
    fuelMaterialId: 'propane',
  },
]

/** What a form takes of the kiln and of glaze, and what it is packed in. */
export const OF_FORM: Readonly<Record<string, CatalogueItem>> = {
  mug: {
    ...{ kilnFootprintSquareCentimetres: '110', kilnHeightCentimetres: '12' },
    glazeGramsPerPiece: '20',
    packing: [
      { materialId: 'mug-box', perPiece: '1' },
      { materialId: 'paper-wool', perPiece: '30' },
    ],
  },
  'dinner-plate': {
    ...{ kilnFootprintSquareCentimetres: '800', kilnHeightCentimetres: '5' },
    glazeGramsPerPiece: '55',
    packing: [
      { materialId: 'plate-box', perPiece: '1' },
      { materialId: 'paper-wool', perPiece: '60' },
    ],
  },
  planter: {
    ...{ kilnFootprintSquareCentimetres: '400', kilnHeightCentimetres: '20' },
    glazeGramsPerPiece: '80',
  },
  'foot-ring-bowl': {
    ...{ kilnFootprintSquareCentimetres: '260', kilnHeightCentimetres: '9' },
    glazeGramsPerPiece: '38',
  },
  'moon-jar': {
    ...{ kilnFootprintSquareCentimetres: '900', kilnHeightCentimetres: '32' },
    glazeGramsPerPiece: '160',
  },
}

/** Whether a form has a box of its own; the others leave in newspaper, which nobody counts. */
export function isPacked(formId: string): boolean {
  return OF_FORM[formId]?.['packing'] !== undefined
}
