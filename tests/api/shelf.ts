import { g, kg } from '../support/studio.ts'
import type { Pottery } from './pottery.ts'

/** What stands on the shelf of a test pottery, as it is entered. */
export const SHELF = [
  {
    ...{ materialId: 'flint', name: 'Flint', kind: 'ingredient', keptBy: 'mass' },
    ...{ waterContentWetBasis: '0.02', packSize: '25000' },
    hazards: [{ hazard: 'silica', percentage: '99.5' }],
  },
  { materialId: 'whiting', name: 'Whiting', kind: 'ingredient', keptBy: 'mass' },
  {
    ...{ materialId: 'manganese', name: 'Manganese dioxide', kind: 'ingredient', keptBy: 'mass' },
    hazards: [{ hazard: 'manganese', statement: 'H373' }],
  },
  { materialId: 'clear', name: 'Clear glaze', kind: 'glaze', keptBy: 'mass' },
  {
    ...{ materialId: 'mug-box', name: 'Mug box', kind: 'packaging', keptBy: 'count' },
    packSize: '20',
  },
  { materialId: 'paper', name: 'Tissue paper', kind: 'packaging', keptBy: 'mass' },
  { materialId: 'half-shelf', name: 'Half shelf', kind: 'kiln_furniture', keptBy: 'count' },
  { materialId: 'propane', name: 'Propane', kind: 'fuel', keptBy: 'mass' },
] as const

export async function fillShelf({ ask }: Pick<Pottery, 'ask'>): Promise<void> {
  for (const body of SHELF) {
    const { status, text } = await ask('POST', '/v1/materials', { body })
    if (status !== 201) throw new Error(text)
  }
}

/** What happens on the shelf, in the order in which it does: every act of it at least once. */
export const LIFE_ON_THE_SHELF: readonly (readonly [act: string, said: object])[] = [
  [
    'open-books',
    {
      items: [],
      materials: [
        { materialId: 'flint', mass: kg('5'), cost: '6.00' },
        { materialId: 'half-shelf', pieces: 6, cost: '90.00' },
        ...[{ materialId: 'clear', vesselId: 'bucket-2', mass: g('900'), waterMass: g('1100') }],
      ],
    },
  ],
  [
    'receive-materials',
    {
      materials: [
        { materialId: 'flint', packs: 1, price: '28.00' },
        { materialId: 'mug-box', packs: 2, price: '30.00' },
      ],
      freight: '9.99',
    },
  ],
  ['count-material', { materialId: 'flint', reading: { net: kg('29.5') } }],
  ['use-material', { materialId: 'half-shelf', pieces: 2, why: 'into_kiln' }],
]
