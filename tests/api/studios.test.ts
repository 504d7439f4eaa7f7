import { afterAll, beforeAll, expect, test } from 'vitest'
import { openPottery, problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [] })
})
afterAll(() => pottery.close())

const NEW = { studioId: 'wrenfold-yard', name: 'Wrenfold', currency: 'JPY', timeZone: 'Asia/Tokyo' }
const post = (body: unknown) => pottery.ask('POST', '/v1/studios', { body, studio: null })

test('before there is a studio, it says how to enter one', async () => {
  const answer = await pottery.ask('GET', '/v1/bodies', { studio: null })
  expect(problemIn(answer)).toEqual(problem(400, 'studio_must_be_named'))
  expect(answer.body.detail).toContain('POST /v1/studios')
})

test('enters a studio, with the jurisdiction other where none is said', async () => {
  const answer = await post(NEW)
  expect(answer.status).toBe(201)
  expect(answer.headers.get('location')).toBe('/v1/studios/wrenfold-yard')
  expect(answer.body).toMatchObject({ ...NEW, jurisdiction: 'other' })
  const read = await pottery.ask('GET', '/v1/studios/wrenfold-yard', { studio: null })
  expect(read.body).toEqual(answer.body)
})

test('the only studio need not be named', async () => {
  const answer = await pottery.ask('GET', '/v1/bodies', { studio: null })
  expect(answer.status).toBe(200)
})

test.each([
  ['currency', 'XAU'],
  ['currency', 'jpy'],
  ['timeZone', 'Mars/Olympus'],
  ['timeZone', '+09:00'],
  ['jurisdiction', 'FR'],
  ['studioId', 'River Side'],
  ['name', ''],
  ['name', 'x'.repeat(121)],
])('refuses the %s "%s"', async (field, value) => {
  const answer = await post({ ...NEW, [field]: value })
  expect(problemIn(answer)).toMatchObject(problem(422, 'fields_must_be_right', [`#/${field}`]))
})

test('refuses an id that is taken', async () => {
  expect(problemIn(await post(NEW))).toEqual(problem(409, 'name_must_be_new', ['#/studioId']))
})

test('changes name and jurisdiction; money and clock stay', async () => {
  const change = (body: unknown) =>
    pottery.ask('PATCH', '/v1/studios/wrenfold-yard', { body, studio: null })
  const answer = await change({ name: 'Wrenfold Pots', jurisdiction: 'AU' })
  expect(answer.body).toMatchObject({ name: 'Wrenfold Pots', jurisdiction: 'AU' })
  const refused = await change({ currency: 'AUD' })
  expect(problemIn(refused)).toEqual(problem(422, 'fields_must_be_right', ['#/currency']))
})

test('makers are not compared unless the studio asks for it, and no longer once it has thought better', async () => {
  const change = (comparesMakers: unknown) =>
    pottery.ask('PATCH', '/v1/studios/wrenfold-yard', { body: { comparesMakers }, studio: null })
  const read = await pottery.ask('GET', '/v1/studios/wrenfold-yard', { studio: null })
  expect(read.body['comparesMakers']).toBe(false)
  expect((await change(true)).body['comparesMakers']).toBe(true)
  const renamed = await pottery.ask('PATCH', '/v1/studios/wrenfold-yard', {
    body: { name: 'Wrenfold' },
    studio: null,
  })
  expect(renamed.body).toMatchObject({ name: 'Wrenfold', comparesMakers: true })
  expect((await change(false)).body['comparesMakers']).toBe(false)
  expect(problemIn(await change('yes'))).toEqual(
    problem(422, 'fields_must_be_right', ['#/comparesMakers']),
  )
})

test('seconds cost like firsts, and no hour has a figure, until the studio says otherwise', async () => {
  const change = (body: unknown) =>
    pottery.ask('PATCH', '/v1/studios/wrenfold-yard', { body, studio: null })
  const read = await pottery.ask('GET', '/v1/studios/wrenfold-yard', { studio: null })
  expect(read.body).toMatchObject({
    ...{ secondsCostRule: 'like_firsts', secondsPriceFraction: '0.5', hourlyFigure: null },
  })
  const costing = { secondsCostRule: 'by_price', secondsPriceFraction: '0.6', hourlyFigure: '18.5' }
  expect((await change(costing)).body).toMatchObject(costing)
  expect((await change({ hourlyFigure: null })).body).toMatchObject({
    ...{ ...costing, hourlyFigure: null },
  })
  for (const [field, value] of [
    ['secondsCostRule', 'by_weight'],
    ['secondsPriceFraction', '0'],
    ['secondsPriceFraction', '1.1'],
    ['hourlyFigure', '-1'],
  ] as const) {
    expect(problemIn(await change({ [field]: value }))).toEqual(
      problem(422, 'fields_must_be_right', [`#/${field}`]),
    )
  }
})

test('masses, days and words are metric, day first and British until the studio says otherwise', async () => {
  const read = await pottery.ask('GET', '/v1/studios/wrenfold-yard', { studio: null })
  const usual = { massUnits: 'metric', dateOrder: 'day_month_year', tradeWords: 'UK' }
  expect(read.body).toMatchObject(usual)
  const change = (body: unknown) =>
    pottery.ask('PATCH', '/v1/studios/wrenfold-yard', { body, studio: null })
  const others = {
    massUnits: 'pounds_ounces',
    dateOrder: 'month_day_year',
    tradeWords: 'US',
  }
  expect((await change(others)).body).toMatchObject(others)
  expect((await change({ dateOrder: 'year_month_day' })).body).toMatchObject({
    ...others,
    dateOrder: 'year_month_day',
  })
  expect((await change(usual)).body).toMatchObject(usual)
})

test.each([
  ['massUnits', 'stone'],
  ['dateOrder', 'month_year_day'],
  ['tradeWords', 'AU'],
])('refuses the %s "%s", new or changed', async (field, value) => {
  const entered = await post({ ...NEW, studioId: 'elsewhere', [field]: value })
  const changed = await pottery.ask('PATCH', '/v1/studios/wrenfold-yard', {
    body: { [field]: value },
    studio: null,
  })
  for (const answer of [entered, changed]) {
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [`#/${field}`]))
  }
})

test('of several studios one must be named, and those are listed page by page', async () => {
  await post({ ...NEW, studioId: 'hill-top' })
  const answer = await pottery.ask('GET', '/v1/bodies', { studio: null })
  expect(problemIn(answer)).toEqual(problem(400, 'studio_must_be_named'))
  expect(answer.body.detail).toContain('Studio-Id')
  const first = await pottery.ask('GET', '/v1/studios?limit=1', { studio: null })
  expect(first.body['items']).toMatchObject([{ studioId: 'hill-top' }])
  const cursor = String(first.body['nextCursor'])
  const second = await pottery.ask('GET', `/v1/studios?limit=1&cursor=${cursor}`, { studio: null })
  expect(second.body['items']).toMatchObject([{ studioId: 'wrenfold-yard' }])
  expect(second.body['nextCursor']).toBeNull()
})

test('a studio that there is not is not there', async () => {
  const answer = await pottery.ask('GET', '/v1/studios/nowhere', { studio: null })
  expect(problemIn(answer)).toEqual(problem(404, 'studio_not_found'))
})

test('a studio may say its units, its dates and its words as it is entered', async () => {
  const ways = { massUnits: 'pounds_ounces', dateOrder: 'month_day_year', tradeWords: 'US' }
  const entered = await post({ ...NEW, studioId: 'kiln-road', ...ways })
  expect(entered.body).toMatchObject(ways)
})

test('a studio may ask for the comparison as it is entered', async () => {
  const asked = await post({ ...NEW, studioId: 'far-end', comparesMakers: true })
  expect(asked.body['comparesMakers']).toBe(true)
})
