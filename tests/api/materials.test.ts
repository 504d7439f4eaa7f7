import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
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

describe('a count of the shelf', () => {
  beforeEach(async () => {
    await clearShelf(pottery, 'flint', 'mug-box')
    await receives(pottery, [
      { materialId: 'flint', mass: kg('10'), price: '9.80' },
      { materialId: 'mug-box', pieces: 20, price: '15.00' },
    ])
  })

  test('finds boxes missing, and boxes more, each at what one costs', async () => {
    const less = await pottery.does('count-material', { materialId: 'mug-box', pieces: 18 })
    expect(lineAt(less, 'unexplained')).toMatchObject({ pieces: '2', cost: '1.5' })
    expect(madeBy(less)['words']).toEqual(['2 fewer than the books said.'])
    const more = await pottery.does('count-material', { materialId: 'mug-box', pieces: 21 })
    expect(madeBy(more)['words']).toEqual(['3 more than the books said.'])
    const same = await pottery.does('count-material', { materialId: 'mug-box', pieces: 21 })
    expect(madeBy(same)).not.toHaveProperty('words')
    expect(lineAt(more, 'unexplained')).toMatchObject({ pieces: '-3', cost: '-2.25' })
    expect(await onShelf(pottery, 'mug-box')).toMatchObject({
      ...{ pieces: '21', cost: '15.75', costLayers: { packaging: '15.75' } },
    })
  })

  test('weighs a powder: its dry part counts, and says how far it is from the books', async () => {
    const answer = await pottery.does('count-material', {
      holdingId: (await onShelf(pottery, 'flint')).holdingId,
      reading: { net: kg('9.00') },
    })
    expect(lineAt(answer, 'unexplained')).toMatchObject({ materialGrams: '980', cost: '0.98' })
    expect(answer['differences']).toMatchObject([{ dryGrams: '-980' }])
    expect(JSON.stringify(answer['differences'])).toContain('980 g of it, dry, less than the books')
    expect(await onShelf(pottery, 'flint')).toMatchObject({
      materialGrams: '8820',
      waterGrams: '180',
    })
    const more = await pottery.does('count-material', {
      ...{ materialId: 'flint', reading: { net: kg('10.00') } },
      water: { content: '0', basis: 'wet' },
    })
    expect(lineAt(more, 'unexplained')).toMatchObject({ materialGrams: '-1180', cost: '-1.18' })
    expect(await onShelf(pottery, 'flint')).toMatchObject({ waterGrams: '0', cost: '10' })
  })

  test('finds nothing left, and then something that the books know no cost of', async () => {
    const none = await pottery.does('count-material', { materialId: 'flint', nothingLeft: true })
    expect(lineAt(none, 'unexplained')).toMatchObject({ materialGrams: '9800', cost: '9.8' })
    expect(await onShelf(pottery, 'flint')).toMatchObject({
      materialGrams: '0',
      waterGrams: '0',
      cost: '0',
    })
    await pottery.does('count-material', { materialId: 'mug-box', pieces: 0 })
    const found = await pottery.does('count-material', { materialId: 'mug-box', pieces: 4 })
    expect(madeBy(found)['words']).toEqual([
      '4 more than the books said. The books had none here to go by, so what was found has no cost. If it was bought, enter its delivery instead.',
    ])
    expect(await onShelf(pottery, 'mug-box')).toMatchObject({ pieces: '4', cost: '0' })
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
      const answer = await refusedAct(pottery, 'count-material', body)
      expect(problemIn(answer)).toEqual(problem(status, code, [`#${field}`]))
    }
    const sent = await refusedAct(pottery, 'count-material', { holdingId: bucket, reading })
    expect(sent.body.detail).toContain('read-glaze')
  })

  test('of clay takes no material, and says which act does', async () => {
    const { holdingId } = await onShelf(pottery, 'flint')
    for (const [act, body] of [
      ['count', { holdingId, reading: { net: kg('1') } }],
      ['discard', { holdingId, reason: 'spilled' }],
    ] as const) {
      const answer = await refusedAct(pottery, act, body)
      expect(problemIn(answer)).toEqual(
        problem(422, 'material_must_be_of_the_kind', ['#/holdingId']),
      )
      expect(answer.body.detail).toContain('count-material')
    }
  })
})

describe('what leaves the shelf for no pot', () => {
  beforeEach(async () => {
    await clearShelf(pottery, 'flint', 'half-shelf')
    await receives(pottery, [
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
    expect(await onShelf(pottery, 'half-shelf')).toMatchObject({ pieces: '4', cost: '60' })
  })

  test('a powder goes as wet as it lies, and is dusty', async () => {
    const answer = await pottery.does('use-material', {
      ...{ materialId: 'flint', mass: g('500'), why: 'spoiled' },
    })
    expect(lineAt(answer, 'waste')).toMatchObject({ materialGrams: '490', waterGrams: '10' })
    expect(cautionsIn(answer)).toContain('Dry powder gives off dust')
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
      const answer = await refusedAct(pottery, 'use-material', body)
      expect(problemIn(answer)).toEqual(problem(status, code, [`#${field}`]))
    }
  })
})
