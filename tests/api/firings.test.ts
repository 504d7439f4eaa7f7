import { and, eq } from 'drizzle-orm'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { firing, holding } from '../../db/schema.ts'
import { coat, gasOnShelf, openKilnPottery, pots, type KilnPottery } from './kiln-pottery.ts'

let pottery: KilnPottery
beforeAll(async () => {
  pottery = await openKilnPottery()
  await gasOnShelf(pottery)
})
afterAll(() => pottery.close())

const meter = { before: '20418', after: '20512' }
const at = (place: string, runId: string) => pottery.studio.holds({ place, runId })
const layersAt = async (place: string, runId: string) => {
  const [row] = await pottery.studio.services.db
    .select()
    .from(holding)
    .where(and(eq(holding.place, place), eq(holding.runId, runId)))
  return row?.costLayers
}

describe('a firing that is told', () => {
  test('94 kWh by the meter at 0.28 are 26.32, which the jugs bear, and 2.40 of wear', async () => {
    await pots(pottery, {
      ...{
        runId: 'jugs',
        pieces: 14,
        kilograms: '9.80',
        cost: '7.00',
        at: 'bisque',
        formId: 'jug',
      },
    })
    const entry = await pottery.does('glaze-fire', {
      runs: [{ runId: 'jugs' }],
      firing: { kilnId: 'electric', meter },
    })
    expect((await at('glazed', 'jugs')).cost).toBe('35.72')
    expect(await layersAt('glazed', 'jugs')).toEqual({ fire: '26.32', wear: '2.4' })
    expect(entry.firing).toMatchObject({
      ...{ kilnId: 'electric', kind: 'glaze', how: 'meter', standing: 'measured' },
      ...{ kilowattHours: '94', candlingKilowattHours: '0', pricePerKilowattHour: '0.28' },
      ...{ energyCost: '26.32', candlingCost: '0', wearCost: '2.4', sharedBy: 'shelf_space' },
      shares: [{ runId: 'jugs', pieces: 14, weight: '28', energyCost: '26.32', wearCost: '2.4' }],
    })
    const paid = entry.lines.filter(({ place }) => place === 'utility' || place === 'wear')
    expect(paid.map(({ place, cost, costLayers }) => [place, cost, costLayers])).toEqual([
      ['utility', '-26.32', { fire: '-26.32' }],
      ['wear', '-2.4', { wear: '-2.4' }],
    ])
    // A rectangle of one kilowatt-hour at each reading and one per cent of the meter, of 26.32.
    const relative = Math.sqrt((1 / 94) ** 2 / 6 + 0.01 ** 2)
    expect(Number(paid[0]?.costUncertainty)).toBeCloseTo(26.32 * relative, 4)
  })

  test('58 kWh are shared by mass: the plates, two fifths of 41.0 kg, bear 6.496 of 16.24', async () => {
    await pots(pottery, {
      runId: 'plates',
      pieces: 18,
      kilograms: '16.40',
      cost: '0',
      formId: 'plate',
    })
    await pots(pottery, { runId: 'mugs', pieces: 60, kilograms: '24.60', cost: '0' })
    const { firing: fired } = await pottery.does('bisque', {
      runs: [{ runId: 'plates' }, { runId: 'mugs' }],
      firing: { kilnId: 'electric', kilowattHours: '58', shareBy: 'mass' },
    })
    expect(fired.shares).toEqual([
      { runId: 'mugs', pieces: 60, weight: '24600', energyCost: '9.744', wearCost: '1.44' },
      { runId: 'plates', pieces: 18, weight: '16400', energyCost: '6.496', wearCost: '0.96' },
    ])
    expect((await at('bisque', 'plates')).cost).toBe('7.456')
  })

  test('shares make up the whole to the last unit', async () => {
    for (const runId of ['one', 'two', 'three']) {
      await pots(pottery, { runId, pieces: 1, kilograms: '0.40', cost: '0' })
    }
    const { firing: fired } = await pottery.does('bisque', {
      runs: [{ runId: 'one' }, { runId: 'two' }, { runId: 'three' }],
      firing: {
        ...{ kilnId: 'bare', kilowattHours: '10', pricePerKilowattHour: '0.10', shareBy: 'count' },
      },
    })
    const costs = fired.shares.map((share) => String(share['energyCost'])).sort()
    expect(costs).toEqual(['0.333333', '0.333333', '0.333334'])
  })

  test('says how full the kiln was: by the sizes of the forms, or as somebody saw', async () => {
    await pots(pottery, { runId: 'few', pieces: 20, kilograms: '4.00', cost: '0', formId: 'jug' })
    const fire = async (pieces: number, said: object) => {
      const entry = await pottery.does('bisque', {
        runs: [{ runId: 'few', pieces }],
        firing: { kilnId: 'electric', kilowattHours: '30', ...said },
      })
      return entry.firing
    }
    // Ten jugs take 20 l of the 60 l that pots can have.
    expect(await fire(10, {})).toMatchObject({ fullFraction: '0.333333', fullHow: 'shelf_space' })
    expect(await fire(10, { fullFraction: '0.5' })).toMatchObject({
      ...{ fullFraction: '0.5', fullHow: 'said' },
    })
  })

  test('goes by weight where a size is not known, and says of which', async () => {
    await pots(pottery, { runId: 'unsized', pieces: 4, kilograms: '1.60', cost: '0' })
    const { firing: fired } = await pottery.does('bisque', {
      runs: [{ runId: 'unsized' }],
      firing: { kilnId: 'electric', kilowattHours: '30' },
    })
    expect(fired).toMatchObject({ sharedBy: 'mass', fullFraction: null, fullHow: null })
    expect(fired['sharedByWords']).toContain('nobody has said the sizes of: Mug')
  })

  test('tells candling apart: 4 of 58 kWh are 1.12 of 16.24', async () => {
    await pots(pottery, { runId: 'candled', pieces: 4, kilograms: '1.60', cost: '0' })
    const { firing: fired } = await pottery.does('bisque', {
      runs: [{ runId: 'candled' }],
      firing: { kilnId: 'electric', kilowattHours: '54', candling: { kilowattHours: '4' } },
    })
    expect(fired).toMatchObject({
      ...{ kilowattHours: '58', candlingKilowattHours: '4' },
      ...{ energyCost: '16.24', candlingCost: '1.12' },
    })
  })

  test('weighs the gas off the shelf at what it cost: 2.5 of 10 kg are 7.50 of 30.00', async () => {
    await pots(pottery, { runId: 'gassed', pieces: 4, kilograms: '1.60', cost: '2.00' })
    const fuel = {
      before: { net: { value: '27.50', unit: 'kg' } },
      after: { net: { value: '25.00', unit: 'kg' } },
    }
    const entry = await pottery.does('bisque', {
      runs: [{ runId: 'gassed' }],
      firing: { kilnId: 'gas', fuel },
    })
    expect(entry.firing).toMatchObject({
      ...{ how: 'fuel', kilowattHours: null, fuelMaterialId: 'propane', fuelGrams: '2500' },
      ...{ energyCost: '7.5', wearCost: '0' },
    })
    expect(await layersAt('bisque', 'gassed')).toEqual({ fire: '7.5' })
    expect((await at('bisque', 'gassed')).cost).toBe('9.5')
    const moved = (place: string) =>
      entry.lines
        .filter((line) => line.place === place && line.materialGrams !== '0')
        .map((line) => [line.materialGrams, line.cost])
    expect(moved('materials')).toEqual([['-2500', '-7.5']])
    expect(moved('fire')).toEqual([['2500', '0']])
  })

  test('taken back, gives the pots and the shelf their money back', async () => {
    const [gassed] = await pottery.studio.services.db
      .select()
      .from(firing)
      .where(eq(firing.how, 'fuel'))
    await pottery.does('correct', { entryId: gassed?.entryId })
    expect((await at('greenware', 'gassed')).cost).toBe('2')
    expect(await layersAt('bisque', 'gassed')).toEqual({})
    const { cost } = await pottery.studio.holds({ place: 'materials' })
    expect(Number(cost)).toBe(30)
  })
})

test('a kiln that fires empty charges no pot', async () => {
  const entry = await pottery.does('fire-empty', {
    ...{ kilnId: 'electric', why: 'new_elements', kilowattHours: '12' },
  })
  expect(entry.firing).toMatchObject({ kind: 'empty', energyCost: '3.36', shares: [] })
  const moved = entry.lines.map(({ place, cost, costLayers }) => [place, cost, costLayers])
  expect(moved.sort()).toEqual([
    ['idle', '5.76', { fire: '3.36', wear: '2.4' }],
    ['utility', '-3.36', { fire: '-3.36' }],
    ['wear', '-2.4', { wear: '-2.4' }],
  ])
})

const emptied = async (why: string, how: object) =>
  pottery.does('fire-empty', { kilnId: 'electric', why, ...how })

test.each([
  ['candling', '0'],
  ['standby', '0'],
  ['new_elements', '2.4'],
  ['test', '2.4'],
  ['other', '2.4'],
])('a kiln that is empty for %s is charged %s of wear', async (why, wearCost) => {
  const entry = await emptied(why, { kilowattHours: '12' })
  expect(entry.firing).toMatchObject({ energyCost: '3.36', wearCost, shares: [] })
  const wear = entry.lines.filter(({ place }) => place === 'wear').map(({ cost }) => cost)
  expect(wear).toEqual(wearCost === '0' ? [] : ['-2.4'])
})

test('hours of an empty kiln go by candling where it is held low, and by a bisque where it fires', async () => {
  const kilowattHours = async (why: string) => {
    const { firing: fired } = await emptied(why, { hours: '10' })
    return Number(fired?.kilowattHours)
  }
  const low = await kilowattHours('standby')
  expect(low).toBeGreaterThan(0)
  expect(await kilowattHours('candling')).toBe(low)
  // 0.50 of the hours is ten thirds of 0.15 of them.
  expect(await kilowattHours('test')).toBeCloseTo((low * 10) / 3, 6)
  // Nothing is usual of a kiln with nothing in it.
  const { status, body } = await pottery.ask('POST', '/v1/acts/fire-empty', {
    ...{ kilnId: 'electric', why: 'test' },
  })
  expect([status, body.errors?.[0]?.pointer]).toEqual([422, '#/kilowattHours'])
})

test('the coat of glaze loses what its recipe says, and its cost stays', async () => {
  await pots(pottery, { runId: 'coated', pieces: 4, kilograms: '1.60', cost: '0', at: 'bisque' })
  await coat(pottery, {
    ...{ runId: 'coated', pieces: 4, dryGrams: '100', lossOnIgnitionFraction: '0.09' },
  })
  const entry = await pottery.does('glaze-fire', { runs: [{ runId: 'coated' }] })
  const gained = (place: string) => entry.lines.find((line) => line.place === place)
  expect(gained('glazed')).toMatchObject({ materialGrams: '91', costLayers: { glaze: '1.5' } })
  expect(gained('fire')).toMatchObject({ materialGrams: '9' })
})

test('a kiln burns a fuel and nothing else', async () => {
  const { status, body } = await pottery.ask('PATCH', '/v1/kilns/bare', {
    fuelMaterialId: 'celadon',
  })
  expect([status, body.type, body.errors?.[0]?.pointer]).toEqual([
    ...[422, '/problems/material_must_be_of_the_kind', '#/fuelMaterialId'],
  ])
})
