import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { openPottery, type Body, type Pottery } from './pottery.ts'

/** One run of ten cups from the bag to the parcel; every figure below was worked out by hand. */
let pottery: Pottery
let cost: Record<string, unknown>
beforeAll(async () => {
  pottery = await openPottery()
  await enter('/v1/bodies', { bodyId: 'plain', name: 'Plain', lossOnIgnitionFraction: '0.08' })
  const cup = { formId: 'cup', name: 'Cup', glazeGramsPerPiece: '20' }
  await enter('/v1/materials', BOX)
  await enter('/v1/materials', FLINT)
  await enter('/v1/materials', { ...GLAZE, lossOnIgnitionFraction: '0' })
  await enter('/v1/forms', { ...cup, packing: [{ materialId: 'cup-box', perPiece: '1' }] })
  await enter('/v1/vessels', { vesselId: 'scraps', name: 'Scraps', kind: 'bucket', tareGrams: '0' })
  await enter('/v1/vessels', { vesselId: 'dip', name: 'Dip', kind: 'bucket', tareGrams: '0' })
  await enter('/v1/kilns', KILN)
  for (const [act, said] of WHAT_HAPPENED) await pottery.does(act, said)
  const { body } = await pottery.ask('GET', '/v1/reports/piece-cost?formId=cup')
  cost = (body['forms'] as Record<string, unknown>[])[0] ?? {}
})
afterAll(() => pottery.close())

async function enter(path: string, body: object): Promise<void> {
  const { status, text } = await pottery.ask('POST', path, { body })
  if (status !== 201) throw new Error(text)
}

const BOX = { materialId: 'cup-box', name: 'Cup box', kind: 'packaging', keptBy: 'count' }
const FLINT = { materialId: 'fine-flint', name: 'Fine flint', kind: 'ingredient', keptBy: 'mass' }
const GLAZE = { materialId: 'plain-glaze', name: 'Plain glaze', kind: 'glaze', keptBy: 'mass' }
const KILN = {
  ...{ kilnId: 'small', name: 'Small', shareBy: 'count' },
  ...{ pricePerKilowattHour: '0.25', wearPerFiring: '1.00' },
}

const dryFifth = { content: '0.20', basis: 'wet', standing: 'measured' }
const cups = { runId: 'cups' }
const fired = (before: string, after: string) => ({ kilnId: 'small', meter: { before, after } })

const WHAT_HAPPENED: readonly (readonly [act: string, said: object])[] = [
  // 12.5 kg at 20 % water: 10 kg dry for 15.00 and 5.00 of freight, so 2.00 a dry kilogram.
  [
    'receive-delivery',
    {
      clays: [
        {
          ...{ bodyId: 'plain', lotId: 'bag', bags: 1, price: '15.00' },
          ...{ bagMass: kg('12.5'), water: dryFifth },
        },
      ],
      freight: '5.00',
    },
  ],
  ['open-bag', { lotId: 'bag', bags: 1, newLotId: 'open' }],
  // Ten balls of 500 g: 4 kg dry, 8.00.
  [
    'throw',
    {
      ...{ formId: 'cup', runId: 'cups', pieces: 10 },
      from: [{ lotId: 'open', balls: 10, ballMass: g('500') }],
    },
  ],
  // 500 g of turnings at 20 % water: 0.4 kg dry, 0.80 back to the bucket. Left: 3.6 kg, 7.20.
  ['turn', { runId: 'cups', vesselId: 'scraps', turnings: { net: g('500') }, water: dryFifth }],
  // 40 kWh at 0.25 and 1.00 of wear: 10.00 and 1.00.
  ['bisque', { runs: [cups], firing: fired('100', '140') }],
  // A kilogram of flint for 1.00 in a bucket; ten cups take 20 g each: 0.20.
  [
    'receive-materials',
    { materials: [{ materialId: 'fine-flint', mass: kg('1'), price: '1.00' }] },
  ],
  [
    'mix-glaze',
    {
      ...{ glazeId: 'plain-glaze', vesselId: 'dip', water: kg('1') },
      ingredients: [{ ingredientId: 'fine-flint', reading: { net: kg('1.000') } }],
    },
  ],
  ['glaze', { glazeId: 'plain-glaze', vesselId: 'dip', runs: [cups], usual: true }],
  // 60 kWh and wear: 15.00 and 1.00.
  ['glaze-fire', { runs: [cups], firing: fired('140', '200') }],
  // One of ten is lost, which is usual: the nine bear its cost.
  ['grade', { runId: 'cups', firsts: 8, seconds: 1, wasters: 1 }],
  // Ten boxes for 5.00.
  ['receive-materials', { materials: [{ materialId: 'cup-box', pieces: 10, price: '5.00' }] }],
  [
    'sell',
    {
      ...{ formId: 'cup', grade: 'first', pieces: 4, priceEach: '12.00', channel: 'fair' },
      packing: 'as_usual',
    },
  ],
]

interface Line {
  readonly place: string
  readonly pieces: string
  readonly cost: string
  readonly costLayers: Readonly<Record<string, string>>
}

const linesOf = (entry: Body) => entry['lines'] as unknown as Line[]

describe('the cost of a sold cup', () => {
  // Nine cups carry 7.20 clay, 0.20 glaze, 25.00 fire, 2.00 wear: 34.40. Four of them: 15.288889.
  test('is 4.322222: its share of 34.40 by nine, and a box', () => {
    expect(cost['soldPieces']).toBe('4')
    expect(cost['soldCost']).toBe('17.288889')
    expect(cost['costPerSoldPiece']).toBe('4.322222')
  })

  test('layer by layer: clay 0.80, glaze 0.02, fire 2.78, wear 0.22, box 0.50', () => {
    expect(cost['costByLayer']).toEqual({
      clay: '0.8',
      glaze: '0.022222',
      fire: '2.777778',
      wear: '0.222222',
      packaging: '0.5',
    })
  })

  test('step by step: what the cups took on, and what the lost one left', () => {
    const steps = (cost['steps'] as { step: string; costPerPiece: string }[])
      .filter(({ costPerPiece }) => Number(costPerPiece) !== 0)
      .map(({ step, costPerPiece }) => [step, Number(costPerPiece).toFixed(4)])
    expect(Object.fromEntries(steps)).toMatchObject({
      clay_at_bag_price: '0.6000',
      freight: '0.2000',
      turned_off_back: '-0.0800',
      glaze: '0.0200',
      firing_energy: '2.5000',
      kiln_wear: '0.2000',
      lost_after_bisque: '0.0800',
      packaging: '0.5000',
    })
  })

  test('can be found again from the trail: the lines of its sale to the customer', async () => {
    const { body } = await pottery.ask('GET', String(cost['trail']))
    const [listed, ...others] = body['items'] as { entryId: string }[]
    expect(others).toEqual([])
    const { body: sale } = await pottery.ask('GET', `/v1/entries/${listed?.entryId ?? ''}`)
    const went = linesOf(sale).filter(({ place }) => place === 'customer')
    expect(went.map(({ cost: money, costLayers }) => [money, costLayers])).toEqual(
      expect.arrayContaining([
        ['2', { packaging: '2' }],
        ['15.288889', { glaze: '0.088889', fire: '11.111111', wear: '0.888889' }],
      ]),
    )
  })

  test('and the rest of the money is in stock: 53.00 came in, 17.29 was sold', async () => {
    const { body } = await pottery.ask('GET', '/v1/reports/stock-value')
    const total = body['total'] as { money: Record<string, string> }
    // 20.00 clay, 1.00 flint, 5.00 boxes, 25.00 electricity, 2.00 wear, less the sold 17.288889.
    expect(total.money['total']).toBe('35.711111')
  })
})
