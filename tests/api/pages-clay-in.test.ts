import { afterAll, beforeAll, expect, test } from 'vitest'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'
import { bothWays, opened, pressed } from './pressed.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterAll(() => pottery.close())

const kg = (value: string) => ({ value, unit: 'kg' })

const BAGS = {
  bodyId: 'buff',
  bags: '20',
  bagMass: '12,5',
  bagMassUnit: 'kg',
  howKnown: 'label',
  price: '214',
  label: 'Buff, June',
  freight: '38,50',
}

test('a delivery by its page is the delivery of the API', async () => {
  const said = {
    clays: [{ bodyId: 'buff', label: 'Buff, June', bags: 20, bagMass: kg('12.5'), price: '214' }],
    freight: '38.50',
  }
  const { byApi, byPage } = await bothWays(pottery, { act: 'receive-delivery', said }, () =>
    pressed(pottery, '/books/delivery', BAGS),
  )
  expect(byPage).toEqual(byApi)
})

test('several clays come in one delivery, weighed or by their label, and lots get a name of their own', async () => {
  const said = {
    clays: [
      {
        bodyId: 'buff',
        label: 'Buff stoneware, 15 Jun 2026',
        bags: 2,
        reading: { net: kg('24.90') },
        water: { content: '0.205', basis: 'wet', standing: 'stated' },
        price: '20',
      },
      { bodyId: 'white', label: 'White, batch 7', bags: 1, bagMass: kg('10'), price: '19.90' },
    ],
  }
  const { byApi, byPage } = await bothWays(pottery, { act: 'receive-delivery', said }, () =>
    pressed(pottery, '/books/delivery', {
      ...{ bodyId: 'buff', bags: '2', bagMass: '24.90', howKnown: 'scale', water: '20,5' },
      ...{ price: '20', bodyId2: 'white', bags2: '1', bagMass2: '10', howKnown2: 'label' },
      ...{ price2: '19.90', label2: 'White, batch 7' },
    }),
  )
  expect(byPage).toEqual(byApi)
})

test('what is missing is said at its field, and what was typed stays', async () => {
  const { status, text } = await pressed(pottery, '/books/delivery', {
    ...{ bodyId: 'buff', bags: '2.5', bagMass: '12.5', price: '' },
    ...{ bodyId2: 'white', bags2: '3', price2: '19.905', bagMass2: 'a lot' },
  })
  expect(status).toBe(422)
  for (const field of ['bags', 'price', 'bagMass2']) expect(text).toContain(`href="#${field}"`)
  for (const value of ['2.5', '3', '19.905', 'a lot']) expect(text).toContain(`value="${value}"`)
  expect(text).toMatch(/value="white" checked/)
  const finer = await pressed(pottery, '/books/delivery', { ...BAGS, price: '19.905' })
  expect(finer.status).toBe(422)
  expect(finer.text).toContain('href="#price"')
})

test('a bag of 125 kg is asked about, and is recorded where it is right', async () => {
  const entries = await pottery.entries()
  const heavy = { ...BAGS, bagMass: '125', label: 'Heavy' }
  const asked = await pressed(pottery, '/books/delivery', heavy)
  expect(asked.status).toBe(200)
  expect(asked.text).toContain('That is heavy for one bag')
  expect(asked.text).toContain('name="asked" value="yes"')
  expect(asked.text).toContain('value="125"')
  expect(await pottery.entries()).toBe(entries)
  const again = await pressed(pottery, '/books/delivery', { ...heavy, asked: 'yes' })
  expect(again.status).toBe(303)
  expect(await pottery.entries()).toBe(entries + 1)
  const preview = await pressed(pottery, '/books/delivery', { ...heavy, preview: 'true' })
  expect(preview.text).toContain('That is heavy for one bag')
})

test('bags are opened onto the bench, weighed or not', async () => {
  await pottery.does('receive-delivery', {
    clays: [{ bodyId: 'buff', lotId: 'open-me', bags: 4, bagMass: kg('12.5'), price: '40' }],
  })
  const page = await opened(pottery, '/books/open-bag')
  expect(page.text).toContain('value="open-me"')
  const said = { lotId: 'open-me', bags: 2, reading: { net: kg('24.8') }, label: 'Monday' }
  const weighed = await bothWays(pottery, { act: 'open-bag', said }, () =>
    pressed(pottery, '/books/open-bag', {
      ...{ lotId: 'open-me', bags: '2', weighed: '24.8', weighedUnit: 'kg', label: 'Monday' },
    }),
  )
  expect(weighed.byPage).toEqual(weighed.byApi)
  const { body } = await pottery.ask('GET', '/v1/lots')
  const lots = body['items'] as { lotId: string; kind: string }[]
  const intoLotId = lots.find(({ kind }) => kind === 'opened')?.lotId ?? ''
  const joined = await bothWays(
    pottery,
    { act: 'open-bag', said: { lotId: 'open-me', bags: 1, intoLotId } },
    () => pressed(pottery, '/books/open-bag', { lotId: 'open-me', bags: '1', intoLotId }),
  )
  expect(joined.byPage).toEqual(joined.byApi)
  const byItself = await pressed(pottery, '/books/open-bag', { lotId: 'open-me', bags: '1' })
  const named = (await pottery.ask('GET', '/v1/lots')).body['items'] as { label: string }[]
  expect(byItself.status).toBe(303)
  expect(named.map(({ label }) => label)).toContain('Buff stoneware, opened 15 Jun 2026')
  const many = await pressed(pottery, '/books/open-bag', { lotId: 'open-me', bags: '9' })
  expect(many.status).toBe(409)
  expect(many.text).toContain('href="#bags"')
})

const READING = { gross: '6.2', grossUnit: 'kg' }

test.each([
  {
    kind: 'bags',
    fields: { bodyId: 'buff', bags: '6', bagMass: '12.5', cost: '66', label: 'Old bags' },
    item: {
      what: 'bags',
      bodyId: 'buff',
      bags: 6,
      bagMass: kg('12.5'),
      cost: '66',
      label: 'Old bags',
    },
  },
  {
    kind: 'clay',
    fields: { bodyId: 'white', ...READING, water: '21' },
    item: {
      what: 'clay',
      bodyId: 'white',
      reading: { net: kg('6.2') },
      water: { content: '0.21', basis: 'wet', standing: 'stated' },
    },
  },
  {
    kind: 'scrap',
    fields: { bodyId: 'buff', vesselId: 'bucket-1', state: 'slops', ...READING },
    item: {
      what: 'scrap',
      bodyId: 'buff',
      vesselId: 'bucket-1',
      state: 'slops',
      reading: { gross: kg('6.2'), inVesselId: 'bucket-1' },
    },
  },
  {
    kind: 'basin',
    fields: {
      bodyId: 'buff',
      vesselId: 'basin-1',
      ...READING,
      grossTare: '500',
      grossTareUnit: 'g',
    },
    item: {
      what: 'basin',
      bodyId: 'buff',
      vesselId: 'basin-1',
      reading: { gross: kg('6.2'), tare: { value: '500', unit: 'g' } },
    },
  },
  {
    kind: 'load',
    fields: { bodyId: 'buff', batId: 'bat-a', ...READING },
    item: { what: 'load', bodyId: 'buff', batId: 'bat-a', reading: { net: kg('6.2') } },
  },
  {
    kind: 'pots',
    fields: { bodyId: 'buff', formId: 'mug', at: 'first', pieces: '14' },
    item: {
      what: 'pots',
      bodyId: 'buff',
      formId: 'mug',
      at: 'finished',
      grade: 'first',
      pieces: 14,
    },
  },
])('what is here of $kind is entered as the API does it', async ({ kind, fields, item }) => {
  const path = `/books/opening/${kind}`
  expect((await opened(pottery, path)).status).toBe(200)
  const { byApi, byPage } = await bothWays(
    pottery,
    { act: 'open-books', said: { items: [item] } },
    () => pressed(pottery, path, fields as unknown as Record<string, string>),
  )
  expect(byPage).toEqual(byApi)
})

test('a fault of what is here stands at its field', async () => {
  const taken = await pressed(pottery, '/books/opening/load', {
    ...{ bodyId: 'buff', batId: 'bat-a', ...READING },
  })
  expect(taken.status).toBe(409)
  expect(taken.text).toContain('href="#batId"')
  const light = await pressed(pottery, '/books/opening/scrap', {
    ...{ bodyId: 'buff', vesselId: 'bucket-2', gross: '100', grossUnit: 'g' },
  })
  expect(light.status).toBeGreaterThanOrEqual(409)
  expect(light.text).toContain('href="#gross')
  expect(light.text).toContain('value="100"')
})
