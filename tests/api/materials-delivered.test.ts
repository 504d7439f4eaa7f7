import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { Decimal } from '../../shared/decimal.ts'
import { g, kg } from '../support/studio.ts'
import { openPottery, problem, problemIn, type Pottery } from './pottery.ts'
import {
  cautionsIn,
  clearShelf,
  lineAt,
  madeBy,
  onShelf,
  receives,
  refusedAct,
} from './shelf-told.ts'
import { fillShelf } from './shelf.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await fillShelf(pottery)
})
afterAll(() => pottery.close())

describe('a delivery of materials', () => {
  beforeEach(() => clearShelf(pottery, 'flint', 'whiting', 'manganese', 'mug-box', 'paper'))

  test('weighed things share the freight by mass, to the last unit', async () => {
    const answer = await receives(
      pottery,
      [
        { materialId: 'flint', mass: kg('10'), price: '11.00' },
        { materialId: 'whiting', mass: kg('10'), price: '4.00' },
        { materialId: 'manganese', reading: { net: kg('10.00') }, price: '90.00' },
      ],
      '10.00',
    )
    expect(madeBy(answer)).toMatchObject({
      materialIds: ['flint', 'whiting', 'manganese'],
      freightSharedBy: 'mass',
    })
    const costs = ['flint', 'whiting', 'manganese'].map(
      (id) => lineAt(answer, 'materials', id)?.cost,
    )
    expect(costs).toEqual(['14.333334', '7.333333', '93.333333'])
    expect(Decimal.sum(...costs.map((cost) => cost ?? '0')).toFixed()).toBe('115')
    expect((await onShelf(pottery, 'flint')).costLayers).toEqual({ glaze: '14.333334' })
  })

  test('where something is counted, all share it by price', async () => {
    const answer = await receives(
      pottery,
      [
        { materialId: 'mug-box', packs: 2, price: '30.00' },
        { materialId: 'flint', packs: 1, price: '10.00' },
      ],
      '8.00',
    )
    expect(madeBy(answer)).toMatchObject({ freightSharedBy: 'price' })
    expect(lineAt(answer, 'materials', 'mug-box')).toMatchObject({ pieces: '40', cost: '36' })
    expect(lineAt(answer, 'materials', 'flint')).toMatchObject({ pieces: '0', cost: '12' })
    expect((await onShelf(pottery, 'mug-box')).costLayers).toEqual({ packaging: '36' })
  })

  test('a powder is as dry as it is known to come, or as is said', async () => {
    const usual = await receives(pottery, [{ materialId: 'flint', packs: 2, price: '56.00' }])
    const grams = { materialGrams: '49000', waterGrams: '1000' }
    expect(lineAt(usual, 'materials')).toMatchObject(grams)
    expect(madeBy(usual)).not.toHaveProperty('freightSharedBy')
    const water = { content: '0.1', basis: 'wet' }
    const wet = await receives(pottery, [
      { materialId: 'whiting', mass: kg('2'), water, price: '2.00' },
    ])
    expect(lineAt(wet, 'materials')).toMatchObject({ materialGrams: '1800', waterGrams: '200' })
  })

  test('a label is as unsure as a clay’s, a reading as its scale', async () => {
    const unsure = async (how: object) => {
      const answer = await receives(pottery, [{ materialId: 'whiting', price: '4.00', ...how }])
      const { estimates } = answer['entry'] as {
        estimates: { standardUncertaintyGrams: string }[]
      }
      return Number(estimates[0]?.standardUncertaintyGrams)
    }
    // One per cent to either side is 100 g; over the root of three it is one standard deviation.
    expect(await unsure({ mass: kg('10') })).toBeCloseTo(57.735, 3)
    expect(await unsure({ reading: { net: g('10000'), scaleId: 'bench' } })).toBeCloseTo(1.443, 3)
  })

  test('what stands on the data sheet is said before the press, and a sealed bag is no dry work', async () => {
    const body = {
      materials: [
        { materialId: 'manganese', mass: kg('1'), price: '9.00' },
        { materialId: 'flint', packs: 1, price: '28.00' },
      ],
    }
    const preview = await pottery.ask('POST', '/v1/acts/receive-materials?preview=true', { body })
    expect(cautionsIn(preview.body)).toContain('H373')
    expect(cautionsIn(preview.body)).not.toContain('Dry powder gives off dust')
    const count = await pottery.ask('POST', '/v1/acts/count-material?preview=true', {
      body: { materialId: 'flint', reading: { net: kg('3') } },
    })
    expect(cautionsIn(count.body)).toContain('Dry powder gives off dust')
  })

  test('a powder that is weighed is dry work, beside one that stays in its bag', async () => {
    const cautions = async (...materials: object[]) => {
      const body = { materials: materials.map((one) => ({ price: '9.00', ...one })) }
      const answer = await pottery.ask('POST', '/v1/acts/receive-materials?preview=true', { body })
      return cautionsIn(answer.body)
    }
    const weighed = await cautions(
      { materialId: 'flint', reading: { net: kg('3') } },
      { materialId: 'manganese', mass: kg('1') },
    )
    expect(weighed).toContain('Flint (99.5 %) holds silica, as stated. Dry powder gives off dust')
    expect(weighed).toContain('H373')
    const bagged = await cautions(
      { materialId: 'flint', mass: kg('3') },
      { materialId: 'manganese', reading: { net: kg('1') } },
    )
    expect(bagged).not.toContain('Dry powder gives off dust')
  })

  test('a silica fraction above nothing counts as stated silica', async () => {
    const powder = { kind: 'ingredient', keptBy: 'mass' }
    const named = [
      { materialId: 'quartz-sand', name: 'Quartz sand', crystallineSilicaFraction: '0.98' },
      { materialId: 'bone-ash', name: 'Bone ash', crystallineSilicaFraction: '0' },
    ]
    for (const one of named) {
      const body = { ...powder, ...one }
      expect((await pottery.ask('POST', '/v1/materials', { body })).status).toBe(201)
    }
    const materials = named.map(({ materialId }) => {
      return { materialId, reading: { net: kg('1') }, price: '1.00' }
    })
    const body = { materials }
    const answer = await pottery.ask('POST', '/v1/acts/receive-materials?preview=true', { body })
    expect(cautionsIn(answer.body)).toContain('Quartz sand holds silica, as stated.')
    expect(cautionsIn(answer.body)).not.toContain('Bone ash')
  })

  test('is refused at the field that is wrong', async () => {
    const one = (material: object) =>
      refusedAct(pottery, 'receive-materials', { materials: [{ price: '1.00', ...material }] })
    const rows = [
      [{ materialId: 'nothing', pieces: 1 }, 404, 'material_not_found', 'materialId'],
      [{ materialId: 'flint', pieces: 3 }, 422, 'material_must_be_told_as_it_is_kept', 'pieces'],
      [
        ...([{ materialId: 'mug-box', mass: kg('3') }, 422] as const),
        ...(['material_must_be_told_as_it_is_kept', 'mass'] as const),
      ],
      [{ materialId: 'whiting', packs: 1 }, 422, 'material_must_be_told_as_it_is_kept', 'packs'],
      [{ materialId: 'flint', packs: 1, mass: kg('3') }, 422, 'fields_must_be_right', 'packs'],
      [
        { materialId: 'flint', mass: kg('3'), price: '1.001' },
        422,
        'fields_must_be_right',
        'price',
      ],
    ] as const
    for (const [material, status, code, field] of rows) {
      expect(problemIn(await one(material))).toEqual(
        problem(status, code, [`#/materials/0/${field}`]),
      )
    }
    const unsaid = await one({ materialId: 'flint' })
    expect(problemIn(unsaid)).toEqual(problem(422, 'fields_must_be_right', ['#/materials/0']))
    const twice = await refusedAct(pottery, 'receive-materials', {
      materials: [
        { materialId: 'flint', packs: 1, price: '1.00' },
        { materialId: 'flint', packs: 2, price: '2.00' },
      ],
    })
    expect(problemIn(twice)).toEqual(problem(422, 'fields_must_be_right', ['#/materials']))
  })
})

interface Step {
  readonly bought?: readonly [units: number, price: string]
  readonly used?: readonly [units: number, cost: string]
}
const AVERAGES: readonly { name: string; steps: readonly Step[]; left: string; source: string }[] =
  [
    {
      name: 'averages that never end',
      steps: [
        { bought: [3, '450'] },
        { bought: [8, '1360'] },
        { used: [5, '822.727273'] },
        { bought: [6, '1110'] },
        { used: [3, '524.318182'] },
        { used: [4, '699.090909'] },
      ],
      left: '873.863636',
      source: 'transtutors.com, anyone-125203, from the three that its first sale leaves (seen)',
    },
    {
      name: 'averages of 54, 57.60 and 59.80',
      steps: [
        { bought: [100, '5000'] },
        { bought: [400, '22000'] },
        { used: [420, '22680'] },
        { bought: [120, '7200'] },
        { bought: [200, '12400'] },
        { used: [160, '9568'] },
      ],
      left: '14352',
      source: 'Wild, Fundamental Accounting Principles, coursehero 31006839 (from memory)',
    },
    {
      name: 'averages of 4.30 and 4.45',
      steps: [
        { bought: [2000, '8000'] },
        { bought: [6000, '26400'] },
        { used: [4000, '17200'] },
        { bought: [2000, '9500'] },
      ],
      left: '26700',
      source: 'Kieso, Intermediate Accounting, ch. 8 (from memory)',
    },
  ]

describe('the moving average over price steps', () => {
  beforeEach(() => clearShelf(pottery, 'half-shelf', 'propane'))

  test.each(AVERAGES)('$name, of what is counted ($source)', async ({ steps, left }) => {
    const materialId = 'half-shelf'
    for (const { bought, used } of steps) {
      if (bought !== undefined) {
        await receives(pottery, [{ materialId, pieces: bought[0], price: bought[1] }])
      }
      if (used === undefined) continue
      const answer = await pottery.does('use-material', {
        ...{ materialId, pieces: used[0], why: 'into_kiln' },
      })
      expect(lineAt(answer, 'wear')?.cost).toBe(used[1])
    }
    const { cost, costLayers } = await onShelf(pottery, materialId)
    expect([cost, costLayers]).toEqual([left, { wear: left }])
  })

  test.each(AVERAGES)('$name, of what is weighed ($source)', async ({ steps, left }) => {
    const materialId = 'propane'
    for (const { bought, used } of steps) {
      const mass = (units: number) => g(String(units))
      if (bought !== undefined) {
        await receives(pottery, [{ materialId, mass: mass(bought[0]), price: bought[1] }])
      }
      if (used === undefined) continue
      const answer = await pottery.does('use-material', {
        ...{ materialId, reading: { net: mass(used[0]) }, why: 'tested' },
      })
      expect(lineAt(answer, 'waste')?.cost).toBe(used[1])
    }
    const { cost, costLayers } = await onShelf(pottery, materialId)
    expect([cost, costLayers]).toEqual([left, { fire: left }])
  })
})
