import { expect } from 'vitest'
import { kg } from '../support/studio.ts'
import { NEIGHBOUR, STUDIO, type Pottery } from './pottery.ts'

const EARLY = { happenedAt: '2026-06-01T10:00:00Z' }

const MATERIALS = [
  ['feldspar', 'Feldspar', 'ingredient', 'mass', { lossOnIgnitionFraction: '0' }],
  [
    'flint',
    'Flint',
    'ingredient',
    'mass',
    {
      hazards: [{ hazard: 'silica', statement: 'H372' }],
      reorderPoint: '18000',
      packSize: '25000',
    },
  ],
  ['cobalt', 'Cobalt', 'ingredient', 'mass', { hazards: [{ hazard: 'cobalt' }] }],
  ['ash-white', 'Ash white', 'glaze', 'mass', {}],
  ['clear', 'Clear', 'glaze', 'mass', {}],
  ['mug-box', 'Mug box', 'packaging', 'count', {}],
  ['half-shelf', 'Half shelf', 'kiln_furniture', 'count', {}],
] as const

/**
 * In both studios: powders on the shelf, a recipe, nine kilograms of 'ash-white' mixed into 'bucket-3', and
 * twenty mugs 'mugs' and six plates 'plates' in bisque.
 */
export async function glazePottery({ ask, does }: Pottery): Promise<void> {
  for (const studio of [STUDIO, NEIGHBOUR]) {
    for (const [materialId, name, kind, keptBy, more] of MATERIALS) {
      const body = { materialId, name, kind, keptBy, ...more }
      expect((await ask('POST', '/v1/materials', { studio, body })).status).toBe(201)
    }
    const materials = [
      { materialId: 'feldspar', mass: kg('50'), price: '100.00' },
      { materialId: 'flint', mass: kg('20'), price: '20.00' },
      { materialId: 'mug-box', pieces: 60, price: '30.00' },
      { materialId: 'half-shelf', pieces: 4, price: '80.00' },
    ]
    await does('receive-materials', { materials, ...EARLY }, { studio })
    const parts = [
      { ingredientId: 'feldspar', parts: '70' },
      { ingredientId: 'flint', parts: '30' },
    ]
    const recipe = await ask('POST', '/v1/materials/ash-white/recipes', { studio, body: { parts } })
    expect(recipe.status).toBe(201)
    const glaze = { glazeId: 'ash-white', vesselId: 'bucket-3' }
    const water = { waterVolume: { value: '9', unit: 'l' } }
    await does('mix-glaze', { ...glaze, dryGrams: '9000', ...water, ...EARLY }, { studio })
    await ask('PATCH', '/v1/forms/mug', { studio, body: { glazeGramsPerPiece: '38' } })
    const clays = [{ bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }]
    await does('receive-delivery', { clays, ...EARLY }, { studio })
    await does('open-bag', { lotId: 'd1', bags: 4, newLotId: 'o1', ...EARLY }, { studio })
    for (const [runId, formId, balls, ball] of [
      ['mugs', 'mug', 20, '0.400'],
      ['plates', 'plate', 6, '1.600'],
    ] as const) {
      const from = [{ lotId: 'o1', balls, ballMass: kg(ball) }]
      await does('throw', { formId, runId, from, label: runId, ...EARLY }, { studio })
      await does('bisque', { runs: [{ runId, pieces: balls }], ...EARLY }, { studio })
    }
  }
}
