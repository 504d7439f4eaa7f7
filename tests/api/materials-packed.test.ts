import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { openPottery, problem, problemIn, type Pottery } from './pottery.ts'
import { clearShelf, lineAt, madeBy, onShelf, receives, refusedAct } from './shelf-told.ts'
import { fillShelf } from './shelf.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await fillShelf(pottery)
})
afterAll(() => pottery.close())

describe('what was there before the books', () => {
  test('comes onto the shelf, and a glaze into its bucket, with what it cost', async () => {
    await clearShelf(pottery, 'flint', 'mug-box')
    const answer = await pottery.does('open-books', {
      items: [],
      materials: [
        { materialId: 'flint', reading: { net: kg('5.0') }, cost: '6.00' },
        { materialId: 'mug-box', pieces: 9, cost: '7.20' },
        {
          ...{ materialId: 'clear', vesselId: 'bucket-2', reading: { net: kg('2.0') } },
          ...{ water: { content: '0.55', basis: 'wet' }, cost: '4.00' },
        },
      ],
    })
    expect(lineAt(answer, 'materials', 'flint')).toMatchObject({ materialGrams: '4900', cost: '6' })
    expect(lineAt(answer, 'materials', 'mug-box')).toMatchObject({ pieces: '9', cost: '7.2' })
    expect(lineAt(answer, 'glaze_bucket')).toMatchObject({
      ...{ materialGrams: '900', waterGrams: '1100', cost: '4' },
    })
    expect(lineAt(answer, 'before', 'flint')).toMatchObject({ materialGrams: '-4900', cost: '-6' })
    expect(madeBy(answer)['holdingIds']).toHaveLength(3)
  })

  test('is refused at the field that is wrong', async () => {
    const dry = { mass: g('900'), waterMass: g('1100') }
    const water = { content: '0.5', basis: 'wet' }
    const rows = [
      [{ materialId: 'nothing', pieces: 1 }, 404, 'material_not_found', '/materialId'],
      [
        ...([{ materialId: 'flint', vesselId: 'bucket-3', mass: kg('1') }, 422] as const),
        ...(['material_must_be_of_the_kind', '/materialId'] as const),
      ],
      [{ materialId: 'clear', vesselId: 'none', ...dry }, 404, 'vessel_not_found', '/vesselId'],
      [
        { materialId: 'mug-box', mass: kg('1') },
        422,
        'material_must_be_told_as_it_is_kept',
        '/mass',
      ],
      [
        ...([
          { materialId: 'clear', vesselId: 'bucket-3', reading: { net: kg('2') } },
          422,
        ] as const),
        ...(['fields_must_be_right', '/water'] as const),
      ],
      [
        ...([{ materialId: 'clear', vesselId: 'bucket-3', ...dry, water }, 422] as const),
        ...(['fields_must_be_right', '/water'] as const),
      ],
      [{ materialId: 'flint', ...dry }, 422, 'fields_must_be_right', '/waterMass'],
    ] as const
    for (const [material, status, code, field] of rows) {
      const answer = await refusedAct(pottery, 'open-books', { items: [], materials: [material] })
      expect(problemIn(answer)).toEqual(problem(status, code, [`#/materials/0${field}`]))
    }
    const nothing = await refusedAct(pottery, 'open-books', { items: [] })
    expect(problemIn(nothing)).toEqual(problem(422, 'fields_must_be_right', ['#/items']))
  })

  test('no glaze comes into a bucket of clay', async () => {
    const scrap = { what: 'scrap', bodyId: 'buff', vesselId: 'bucket-3', reading: { net: kg('2') } }
    const materials = [{ materialId: 'clear', vesselId: 'bucket-3', mass: g('900') }]
    const answer = await refusedAct(pottery, 'open-books', { items: [scrap], materials })
    expect(problemIn(answer)).toEqual(
      problem(422, 'bodies_must_not_mix_unless_declared', ['#/materials/0/vesselId']),
    )
  })
})

describe('what a pot goes out of the door in', () => {
  beforeEach(async () => {
    await clearShelf(pottery, 'mug-box', 'paper')
    await receives(pottery, [
      { materialId: 'mug-box', pieces: 20, price: '15.00' },
      { materialId: 'paper', mass: g('1000'), price: '5.00' },
    ])
    await pottery.does('open-books', {
      items: [
        { what: 'pots', bodyId: 'buff', formId: 'mug', at: 'finished', grade: 'first', pieces: 20 },
      ],
    })
    const packing = [
      { materialId: 'mug-box', perPiece: '0.5' },
      { materialId: 'paper', perPiece: '12.5' },
    ]
    await pottery.ask('PATCH', '/v1/forms/mug', { body: { packing } })
  })

  const sale = (more: object) => ({
    ...{ formId: 'mug', grade: 'first', pieces: 3, priceEach: '18.00', channel: 'fair', ...more },
  })

  test('as usual takes the form’s packing, and a box that is begun is a box', async () => {
    const answer = await pottery.does('sell', sale({ packing: 'as_usual' }))
    expect(madeBy(answer)['packedIn']).toEqual(['mug-box', 'paper'])
    expect(lineAt(answer, 'customer', 'mug-box')).toMatchObject({ pieces: '2', cost: '1.5' })
    const paper = { materialGrams: '37.5', cost: '0.1875' }
    expect(lineAt(answer, 'customer', 'paper')).toMatchObject(paper)
    expect((await onShelf(pottery, 'paper')).costLayers).toEqual({ packaging: '4.8125' })
  })

  test('is what is said, or nothing where nothing is', async () => {
    const packing = [
      { materialId: 'mug-box', pieces: 1 },
      { materialId: 'paper', mass: g('40') },
    ]
    const answer = await pottery.does('sell', sale({ packing }))
    expect(lineAt(answer, 'customer', 'mug-box')).toMatchObject({ pieces: '1', cost: '0.75' })
    expect(lineAt(answer, 'customer', 'paper')).toMatchObject({ materialGrams: '40', cost: '0.2' })
    const bare = await pottery.does('sell', sale({}))
    expect(madeBy(bare)).not.toHaveProperty('packedIn')
    expect(lineAt(bare, 'materials')).toBeUndefined()
  })

  test('as usual is refused of a form that has no packing', async () => {
    await pottery.ask('PATCH', '/v1/forms/mug', { body: { packing: [] } })
    const answer = await refusedAct(pottery, 'sell', sale({ packing: 'as_usual' }))
    expect(problemIn(answer)).toEqual(
      problem(422, 'material_must_be_told_as_it_is_kept', ['#/packing']),
    )
    expect(answer.body.detail).toContain('Give the form its packing, or name the boxes')
  })

  test('comes back when the sale is taken back', async () => {
    const { entry } = await pottery.does('sell', sale({ packing: 'as_usual' }))
    const { entryId } = entry as { entryId: string }
    const answer = await pottery.ask('POST', '/v1/acts/correct', { body: { entryId } })
    expect(answer.status).toBe(201)
    expect(await onShelf(pottery, 'mug-box')).toMatchObject({ pieces: '20', cost: '15' })
    expect(await onShelf(pottery, 'paper')).toMatchObject({ materialGrams: '1000', cost: '5' })
  })

  test('is refused where there is not enough of it, by its name', async () => {
    const at = (field: string) => [`#/packing${field}`]
    const rows = [
      [[{ materialId: 'mug-box', pieces: 21 }], 409, 'pieces_must_be_enough', '/0/pieces'],
      [[{ materialId: 'paper', mass: kg('1.1') }], 409, 'material_must_be_enough', '/0/mass'],
      [
        [{ materialId: 'flint', mass: g('1') }],
        422,
        'material_must_be_of_the_kind',
        '/0/materialId',
      ],
      [[{ materialId: 'nothing', pieces: 1 }], 404, 'material_not_found', '/0/materialId'],
      [
        ...([[{ materialId: 'mug-box', mass: g('1') }], 422] as const),
        ...(['material_must_be_told_as_it_is_kept', '/0/mass'] as const),
      ],
    ] as const
    for (const [packing, status, code, field] of rows) {
      const answer = await refusedAct(pottery, 'sell', sale({ packing }))
      expect(problemIn(answer)).toEqual(problem(status, code, at(field)))
      expect(answer.body.detail).toContain(packing[0].materialId)
    }
    await pottery.does('count-material', { materialId: 'mug-box', pieces: 1 })
    const usual = await refusedAct(pottery, 'sell', sale({ packing: 'as_usual' }))
    expect(problemIn(usual)).toEqual(problem(409, 'pieces_must_be_enough', at('')))
    expect(usual.body.detail).toContain("'mug-box'")
  })
})
