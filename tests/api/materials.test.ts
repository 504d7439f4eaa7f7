import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { Decimal } from '../../shared/decimal.ts'
import { g, kg } from '../support/studio.ts'
import { openPottery, problem, problemIn, type Body, type Pottery } from './pottery.ts'
import { fillShelf } from './shelf.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await fillShelf(pottery)
})
afterAll(() => pottery.close())

interface Line {
  readonly place: string
  readonly materialId: string | null
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
}
interface Held extends Line {
  readonly holdingId: string
  readonly costLayers: Readonly<Record<string, string>>
}

const linesOf = (answer: Body) => (answer['entry'] as { lines: Line[] }).lines
const lineAt = (answer: Body, place: string, materialId?: string) =>
  linesOf(answer).find(
    (line) => line.place === place && (materialId === undefined || line.materialId === materialId),
  )
const madeBy = (answer: Body) => answer['made'] as Readonly<Record<string, unknown>>
const said = (answer: Body) => JSON.stringify(answer['cautions'])

async function onShelf(materialId: string): Promise<Held> {
  const { body } = await pottery.ask(
    'GET',
    `/v1/holdings?place=materials&materialId=${materialId}&nonEmpty=false`,
  )
  const [held] = body['items'] as Held[]
  if (held === undefined) throw new Error(`${materialId} was never on the shelf`)
  return held
}

/** Empties a shelf, so that each test begins at nothing. */
async function clear(...materialIds: string[]): Promise<void> {
  for (const materialId of materialIds) {
    await pottery.does('count-material', { materialId, nothingLeft: true })
  }
}

const receives = (materials: readonly object[], freight?: string) =>
  pottery.does('receive-materials', { materials, ...(freight === undefined ? {} : { freight }) })

async function refused(act: string, body: object) {
  const before = await pottery.entries()
  const answer = await pottery.ask('POST', `/v1/acts/${act}`, { body })
  expect(await pottery.entries()).toBe(before)
  return answer
}

describe('a delivery of materials', () => {
  beforeEach(() => clear('flint', 'whiting', 'manganese', 'mug-box', 'paper'))

  test('weighed things share the freight by mass, to the last unit', async () => {
    const answer = await receives(
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
    expect((await onShelf('flint')).costLayers).toEqual({ glaze: '14.333334' })
  })

  test('where something is counted, all share it by price', async () => {
    const answer = await receives(
      [
        { materialId: 'mug-box', packs: 2, price: '30.00' },
        { materialId: 'flint', packs: 1, price: '10.00' },
      ],
      '8.00',
    )
    expect(madeBy(answer)).toMatchObject({ freightSharedBy: 'price' })
    expect(lineAt(answer, 'materials', 'mug-box')).toMatchObject({ pieces: '40', cost: '36' })
    expect(lineAt(answer, 'materials', 'flint')).toMatchObject({ pieces: '0', cost: '12' })
    expect((await onShelf('mug-box')).costLayers).toEqual({ packaging: '36' })
  })

  test('a powder is as dry as it is known to come, or as is said', async () => {
    const usual = await receives([{ materialId: 'flint', packs: 2, price: '56.00' }])
    const grams = { materialGrams: '49000', waterGrams: '1000' }
    expect(lineAt(usual, 'materials')).toMatchObject(grams)
    expect(madeBy(usual)).not.toHaveProperty('freightSharedBy')
    const water = { content: '0.1', basis: 'wet' }
    const wet = await receives([{ materialId: 'whiting', mass: kg('2'), water, price: '2.00' }])
    expect(lineAt(wet, 'materials')).toMatchObject({ materialGrams: '1800', waterGrams: '200' })
  })

  test('a label is as unsure as a clay’s, a reading as its scale', async () => {
    const unsure = async (how: object) => {
      const answer = await receives([{ materialId: 'whiting', price: '4.00', ...how }])
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
    expect(said(preview.body)).toContain('H373')
    expect(said(preview.body)).not.toContain('Dry powder gives off dust')
    const count = await pottery.ask('POST', '/v1/acts/count-material?preview=true', {
      body: { materialId: 'flint', reading: { net: kg('3') } },
    })
    expect(said(count.body)).toContain('Dry powder gives off dust')
  })

  test('is refused at the field that is wrong', async () => {
    const one = (material: object) =>
      refused('receive-materials', { materials: [{ price: '1.00', ...material }] })
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
    const twice = await refused('receive-materials', {
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
  beforeEach(() => clear('half-shelf', 'propane'))

  test.each(AVERAGES)('$name, of what is counted ($source)', async ({ steps, left }) => {
    const materialId = 'half-shelf'
    for (const { bought, used } of steps) {
      if (bought !== undefined) {
        await receives([{ materialId, pieces: bought[0], price: bought[1] }])
      }
      if (used === undefined) continue
      const answer = await pottery.does('use-material', {
        ...{ materialId, pieces: used[0], why: 'into_kiln' },
      })
      expect(lineAt(answer, 'wear')?.cost).toBe(used[1])
    }
    const { cost, costLayers } = await onShelf(materialId)
    expect([cost, costLayers]).toEqual([left, { wear: left }])
  })

  test.each(AVERAGES)('$name, of what is weighed ($source)', async ({ steps, left }) => {
    const materialId = 'propane'
    for (const { bought, used } of steps) {
      const mass = (units: number) => g(String(units))
      if (bought !== undefined) {
        await receives([{ materialId, mass: mass(bought[0]), price: bought[1] }])
      }
      if (used === undefined) continue
      const answer = await pottery.does('use-material', {
        ...{ materialId, reading: { net: mass(used[0]) }, why: 'tested' },
      })
      expect(lineAt(answer, 'waste')?.cost).toBe(used[1])
    }
    const { cost, costLayers } = await onShelf(materialId)
    expect([cost, costLayers]).toEqual([left, { fire: left }])
  })
})

describe('a count of the shelf', () => {
  beforeEach(async () => {
    await clear('flint', 'mug-box')
    await receives([
      { materialId: 'flint', mass: kg('10'), price: '9.80' },
      { materialId: 'mug-box', pieces: 20, price: '15.00' },
    ])
  })

  test('finds boxes missing, and boxes more, each at what one costs', async () => {
    const less = await pottery.does('count-material', { materialId: 'mug-box', pieces: 18 })
    expect(lineAt(less, 'unexplained')).toMatchObject({ pieces: '2', cost: '1.5' })
    const more = await pottery.does('count-material', { materialId: 'mug-box', pieces: 21 })
    expect(lineAt(more, 'unexplained')).toMatchObject({ pieces: '-3', cost: '-2.25' })
    expect(await onShelf('mug-box')).toMatchObject({
      ...{ pieces: '21', cost: '15.75', costLayers: { packaging: '15.75' } },
    })
  })

  test('weighs a powder: its dry part counts, and says how far it is from the books', async () => {
    const answer = await pottery.does('count-material', {
      holdingId: (await onShelf('flint')).holdingId,
      reading: { net: kg('9.00') },
    })
    expect(lineAt(answer, 'unexplained')).toMatchObject({ materialGrams: '980', cost: '0.98' })
    expect(answer['differences']).toMatchObject([{ dryGrams: '-980' }])
    expect(JSON.stringify(answer['differences'])).toContain('980 g of it, dry, less than the books')
    expect(await onShelf('flint')).toMatchObject({ materialGrams: '8820', waterGrams: '180' })
    const more = await pottery.does('count-material', {
      ...{ materialId: 'flint', reading: { net: kg('10.00') } },
      water: { content: '0', basis: 'wet' },
    })
    expect(lineAt(more, 'unexplained')).toMatchObject({ materialGrams: '-1180', cost: '-1.18' })
    expect(await onShelf('flint')).toMatchObject({ waterGrams: '0', cost: '10' })
  })

  test('finds nothing left, and then something that the books know no cost of', async () => {
    const none = await pottery.does('count-material', { materialId: 'flint', nothingLeft: true })
    expect(lineAt(none, 'unexplained')).toMatchObject({ materialGrams: '9800', cost: '9.8' })
    expect(await onShelf('flint')).toMatchObject({ materialGrams: '0', waterGrams: '0', cost: '0' })
    await pottery.does('count-material', { materialId: 'mug-box', pieces: 0 })
    await pottery.does('count-material', { materialId: 'mug-box', pieces: 4 })
    expect(await onShelf('mug-box')).toMatchObject({ pieces: '4', cost: '0' })
  })

  test('is refused at the field that is wrong', async () => {
    await pottery.does('open-books', {
      items: [{ what: 'clay', bodyId: 'buff', lotId: 'o1', reading: { net: kg('5') } }],
      materials: [
        ...[{ materialId: 'clear', vesselId: 'bucket-1', mass: g('900'), waterMass: g('1100') }],
      ],
    })
    const clay = await pottery.holdingAt('bench')
    const bucket = await pottery.holdingAt('glaze_bucket')
    const reading = { net: kg('1') }
    const rows = [
      [{ materialId: 'nothing', pieces: 1 }, 404, 'material_not_found', '/materialId'],
      [{ holdingId: 'nothing', pieces: 1 }, 404, 'holding_not_found', '/holdingId'],
      [{ holdingId: clay, reading }, 422, 'material_must_be_of_the_kind', '/holdingId'],
      [{ holdingId: bucket, reading }, 422, 'material_must_be_of_the_kind', '/holdingId'],
      [
        ...([{ materialId: 'flint', pieces: 1 }, 422] as const),
        ...(['material_must_be_told_as_it_is_kept', '/pieces'] as const),
      ],
      [
        ...([{ materialId: 'mug-box', reading }, 422] as const),
        ...(['material_must_be_told_as_it_is_kept', '/reading'] as const),
      ],
      [{ materialId: 'flint', holdingId: clay, reading }, 422, 'fields_must_be_right', ''],
      [{ materialId: 'flint' }, 422, 'fields_must_be_right', ''],
    ] as const
    for (const [body, status, code, field] of rows) {
      const answer = await refused('count-material', body)
      expect(problemIn(answer)).toEqual(problem(status, code, [`#${field}`]))
    }
    const sent = await refused('count-material', { holdingId: bucket, reading })
    expect(sent.body.detail).toContain('read-glaze')
  })

  test('of clay takes no material, and says which act does', async () => {
    const { holdingId } = await onShelf('flint')
    for (const [act, body] of [
      ['count', { holdingId, reading: { net: kg('1') } }],
      ['discard', { holdingId, reason: 'spilled' }],
    ] as const) {
      const answer = await refused(act, body)
      expect(problemIn(answer)).toEqual(
        problem(422, 'material_must_be_of_the_kind', ['#/holdingId']),
      )
      expect(answer.body.detail).toContain('count-material')
    }
  })
})

describe('what leaves the shelf for no pot', () => {
  beforeEach(async () => {
    await clear('flint', 'half-shelf')
    await receives([
      { materialId: 'flint', mass: kg('10'), price: '9.80' },
      { materialId: 'half-shelf', pieces: 6, price: '90.00' },
    ])
  })

  test.each([
    ['into_kiln', 'wear'],
    ['spoiled', 'waste'],
    ['thrown_away', 'waste'],
    ['given_away', 'customer'],
  ])('%s goes to %s with its cost', async (why, place) => {
    const answer = await pottery.does('use-material', { materialId: 'half-shelf', pieces: 2, why })
    expect(lineAt(answer, place)).toMatchObject({ pieces: '2', cost: '30' })
    expect(await onShelf('half-shelf')).toMatchObject({ pieces: '4', cost: '60' })
  })

  test('a powder goes as wet as it lies, and is dusty', async () => {
    const answer = await pottery.does('use-material', {
      ...{ materialId: 'flint', mass: g('500'), why: 'spoiled' },
    })
    expect(lineAt(answer, 'waste')).toMatchObject({ materialGrams: '490', waterGrams: '10' })
    expect(said(answer)).toContain('Dry powder gives off dust')
    const rest = await pottery.does('use-material', {
      ...{ materialId: 'flint', whatIsLeft: true, why: 'thrown_away' },
    })
    expect(lineAt(rest, 'waste')).toMatchObject({ materialGrams: '9310', cost: '9.31' })
  })

  test('is refused at the field that is wrong', async () => {
    const why = 'spoiled'
    const rows = [
      [{ materialId: 'nothing', pieces: 1, why }, 404, 'material_not_found', '/materialId'],
      [{ materialId: 'half-shelf', pieces: 7, why }, 409, 'pieces_must_be_enough', '/pieces'],
      [{ materialId: 'flint', mass: kg('11'), why }, 409, 'material_must_be_enough', '/mass'],
      [
        ...([{ materialId: 'whiting', reading: { net: kg('99') }, why }, 409] as const),
        ...(['material_must_be_enough', '/reading'] as const),
      ],
      [
        ...([{ materialId: 'flint', mass: kg('1'), why: 'into_kiln' }, 422] as const),
        ...(['material_must_be_of_the_kind', '/materialId'] as const),
      ],
      [
        ...([{ materialId: 'flint', pieces: 1, why }, 422] as const),
        ...(['material_must_be_told_as_it_is_kept', '/pieces'] as const),
      ],
      [{ materialId: 'flint', mass: kg('1'), why: 'eaten' }, 422, 'fields_must_be_right', '/why'],
    ] as const
    for (const [body, status, code, field] of rows) {
      const answer = await refused('use-material', body)
      expect(problemIn(answer)).toEqual(problem(status, code, [`#${field}`]))
    }
  })
})

describe('what was there before the books', () => {
  test('comes onto the shelf, and a glaze into its bucket, with what it cost', async () => {
    await clear('flint', 'mug-box')
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
      const answer = await refused('open-books', { items: [], materials: [material] })
      expect(problemIn(answer)).toEqual(problem(status, code, [`#/materials/0${field}`]))
    }
    const nothing = await refused('open-books', { items: [] })
    expect(problemIn(nothing)).toEqual(problem(422, 'fields_must_be_right', ['#/items']))
  })

  test('no glaze comes into a bucket of clay', async () => {
    const scrap = { what: 'scrap', bodyId: 'buff', vesselId: 'bucket-3', reading: { net: kg('2') } }
    const materials = [{ materialId: 'clear', vesselId: 'bucket-3', mass: g('900') }]
    const answer = await refused('open-books', { items: [scrap], materials })
    expect(problemIn(answer)).toEqual(
      problem(422, 'bodies_must_not_mix_unless_declared', ['#/materials/0/vesselId']),
    )
  })
})

describe('what a pot goes out of the door in', () => {
  beforeEach(async () => {
    await clear('mug-box', 'paper')
    await receives([
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
    expect((await onShelf('paper')).costLayers).toEqual({ packaging: '4.8125' })
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

  test('comes back when the sale is taken back', async () => {
    const { entry } = await pottery.does('sell', sale({ packing: 'as_usual' }))
    const { entryId } = entry as { entryId: string }
    const answer = await pottery.ask('POST', '/v1/acts/correct', { body: { entryId } })
    expect(answer.status).toBe(201)
    expect(await onShelf('mug-box')).toMatchObject({ pieces: '20', cost: '15' })
    expect(await onShelf('paper')).toMatchObject({ materialGrams: '1000', cost: '5' })
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
      const answer = await refused('sell', sale({ packing }))
      expect(problemIn(answer)).toEqual(problem(status, code, at(field)))
      expect(answer.body.detail).toContain(packing[0].materialId)
    }
    await pottery.does('count-material', { materialId: 'mug-box', pieces: 1 })
    const usual = await refused('sell', sale({ packing: 'as_usual' }))
    expect(problemIn(usual)).toEqual(problem(409, 'pieces_must_be_enough', at('')))
    expect(usual.body.detail).toContain("'mug-box'")
  })
})
