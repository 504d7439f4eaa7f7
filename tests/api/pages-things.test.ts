import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'
import { opened, pressed } from './pressed.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterAll(() => pottery.close())

const read = async (path: string) => (await pottery.ask('GET', `/v1/${path}`)).body

describe.each([
  {
    path: 'bodies',
    typed: {
      ...{ name: 'Crème fine, n° 2', lossOnIgnitionFraction: '7,5', isBlend: 'no' },
      ...{ 'water-as_delivered': '20.5', 'unsure-as_delivered': '1', 'water-wedged': '21' },
      ...{ grainGramsPerMillilitre: '2.62', crystallineSilicaFraction: '28' },
      ...{ readyWaterContentWetBasis: '22', firingShrinkageFractionOfDry: '7' },
    },
    id: 'creme-fine-n-2',
    kept: {
      name: 'Crème fine, n° 2',
      lossOnIgnitionFraction: '0.075',
      isBlend: false,
      grainGramsPerMillilitre: '2.62',
      crystallineSilicaFraction: '0.28',
      readyWaterContentWetBasis: '0.22',
      firingShrinkageFractionOfDry: '0.07',
      tooDryWaterContentWetBasis: null,
      moisture: {
        as_delivered: { waterContentWetBasis: '0.205', standardUncertainty: '0.005102' },
        wedged: { waterContentWetBasis: '0.21', standardUncertainty: '0.015' },
      },
    },
    change: { lossOnIgnitionFraction: '7.72' },
    changed: { lossOnIgnitionFraction: '0.0772', grainGramsPerMillilitre: '2.62' },
    history: 'Lost in the first fire: 7.72 % (was 7.5 %)',
    wrong: { lossOnIgnitionFraction: '90' },
    words: 'Between 0 and 50 per cent.',
  },
  {
    path: 'forms',
    typed: {
      name: 'Large bowl',
      ballGrams: '1,8',
      ballGramsUnit: 'kg',
      price: '62',
      turnedOffFraction: '18',
    },
    id: 'large-bowl',
    kept: { name: 'Large bowl', ballGrams: '1800', price: '62', turnedOffFraction: '0.18' },
    change: { price: '' },
    changed: { price: null, ballGrams: '1800' },
    history: 'What a first sells for: nothing (was £62.00)',
    wrong: { turnedOffFraction: '100' },
    words: 'Between 0 and 100 per cent, without 100 itself.',
  },
  {
    path: 'vessels',
    typed: { name: 'Turnings, white lid', kind: 'bucket', tareGrams: '610', tareGramsUnit: 'g' },
    id: 'turnings-white-lid',
    kept: { name: 'Turnings, white lid', kind: 'bucket', tareGrams: '610' },
    change: { tareGrams: '0.595', tareGramsUnit: 'kg' },
    changed: { tareGrams: '595' },
    history: 'Weighs empty: 595 g (was 610 g)',
    wrong: { tareGrams: '' },
    words: 'This is still empty.',
  },
  {
    path: 'scales',
    typed: {
      ...{ name: 'Floor scale', divisionGrams: '20', divisionGramsUnit: 'g' },
      ...{ capacityGrams: '60', capacityGramsUnit: 'kg' },
    },
    id: 'floor-scale',
    kept: { name: 'Floor scale', divisionGrams: '20', capacityGrams: '60000' },
    change: { name: 'Scale on the floor' },
    changed: { name: 'Scale on the floor', divisionGrams: '20' },
    history: 'What you call it: Scale on the floor (was Floor scale)',
    wrong: { divisionGrams: 'small' },
    words: 'This is not a number.',
  },
  {
    path: 'bats',
    typed: { name: 'Bat 3', dryGrams: '7.2', dryGramsUnit: 'kg', thicknessMillimetres: '50' },
    id: 'bat-3',
    kept: { name: 'Bat 3', dryGrams: '7200', thicknessMillimetres: '50', lengthMillimetres: null },
    change: { dryGrams: '7.15' },
    changed: { dryGrams: '7150' },
    history: 'Weighs dry: 7.15 kg (was 7.20 kg)',
    wrong: { thicknessMillimetres: '-4' },
    words: 'Above 0, and at most 10 metres.',
  },
  {
    path: 'kilns',
    typed: {
      ...{ name: 'Top loader', pricePerKilowattHour: '0,28', ratedKilowatts: '9' },
      ...{ volumeLitres: '190', wearPerFiring: '2.4', shareBy: 'mass', usableFraction: '55' },
    },
    id: 'top-loader',
    kept: {
      ...{ name: 'Top loader', pricePerKilowattHour: '0.28', ratedKilowatts: '9' },
      ...{ volumeLitres: '190', wearPerFiring: '2.4', shareBy: 'mass', usableFraction: '0.55' },
    },
    change: { pricePerKilowattHour: '0.31' },
    changed: { pricePerKilowattHour: '0.31', shareBy: 'mass' },
    history: 'What a kilowatt-hour costs: 0.31 a kWh (was 0.28 a kWh)',
    wrong: { volumeLitres: '0' },
    words: 'Above 0.',
  },
])('a thing among the $path', (kind) => {
  const { path, id } = kind
  const list = `/books/things/${path}`
  const typed = kind.typed as unknown as Record<string, string>

  test('what is wrong comes back at its field, with all that was typed', async () => {
    const wrong = { ...typed, ...(kind.wrong as unknown as Record<string, string>) }
    const { status, text } = await pressed(pottery, `${list}/new`, wrong)
    expect(status).toBe(422)
    const [field = ''] = Object.keys(kind.wrong)
    expect(text).toContain(`href="#${field}"`)
    expect(text).toContain(kind.words)
    expect(text).toContain(`value="${typed['name'] ?? ''}"`)
    expect((await opened(pottery, `${list}/${id}`)).status).toBe(404)
  })

  test('is entered under a short name of its own', async () => {
    expect((await opened(pottery, `${list}/new`)).status).toBe(200)
    const { status, headers } = await pressed(pottery, `${list}/new`, typed)
    expect([status, headers.get('location')]).toEqual([303, `${list}?entered=${id}`])
    expect(await read(`${path}/${id}`)).toMatchObject(kind.kept)
    const { text } = await opened(pottery, `${list}?entered=${id}`)
    expect(text).toContain('Entered:')
    expect(text).toContain(`href="${list}/${id}"`)
  })

  test('a name that is taken is said to be', async () => {
    const { status, text } = await pressed(pottery, `${list}/new`, typed)
    expect(status).toBe(409)
    expect(text).toContain(`is taken already`)
    expect(text).toContain('href="#name"')
    expect(text).toMatch(/value="/)
  })

  test('what is typed anew changes, the rest stays, and the history says so', async () => {
    const filled = fieldsOf((await opened(pottery, `${list}/${id}`)).text)
    const change = kind.change as unknown as Record<string, string>
    const { status } = await pressed(pottery, `${list}/${id}`, { ...filled, ...change })
    expect(status).toBe(303)
    expect(await read(`${path}/${id}`)).toMatchObject(kind.changed)
    const { text } = await opened(pottery, `${list}/${id}?kept=yes`)
    expect(text).toContain(kind.history)
    expect(text).toContain('Kept.')
  })

  test('nothing typed anew is no change', async () => {
    const { items } = (await read(`${path}/${id}/history`)) as { items?: unknown[] }
    const filled = fieldsOf((await opened(pottery, `${list}/${id}`)).text)
    expect((await pressed(pottery, `${list}/${id}`, filled)).status).toBe(303)
    const after = (await read(`${path}/${id}/history`)) as { items?: unknown[] }
    expect(after.items).toHaveLength(items?.length ?? 0)
  })

  test('what somebody else changed meanwhile is not written over unseen', async () => {
    const filled = fieldsOf((await opened(pottery, `${list}/${id}`)).text)
    const stale = { ...filled, was: '2020-01-01T00:00:00.000Z', name: 'Mine' }
    const { status, text } = await pressed(pottery, `${list}/${id}`, stale)
    expect(status).toBe(409)
    expect(text).toContain('Changed meanwhile')
    expect(text).toContain('value="Mine"')
  })
})

/** What a form is filled with, as a browser would send it. */
function fieldsOf(page: string): Record<string, string> {
  const form = page.slice(page.indexOf('<form'), page.indexOf('</form>'))
  const inputs = [...form.matchAll(/<input([^>]*)>/g)].map(([, inside = '']) => inside)
  const attribute = (inside: string, name: string) =>
    new RegExp(`\\b${name}="([^"]*)"`).exec(inside)?.[1] ?? ''
  const sent = inputs.filter((inside) => !/type="radio"/.test(inside) || inside.includes('checked'))
  return Object.fromEntries(
    sent.map((inside) => [attribute(inside, 'name'), unescaped(attribute(inside, 'value'))]),
  )
}

function unescaped(text: string): string {
  return text.replaceAll('&#39;', "'").replaceAll('&quot;', '"').replaceAll('&amp;', '&')
}

test('two names that make one short name get two', async () => {
  const one = { name: 'Élan', kind: 'tin', tareGrams: '50', tareGramsUnit: 'g' }
  await pressed(pottery, '/books/things/vessels/new', one)
  const other = await pressed(pottery, '/books/things/vessels/new', { ...one, name: 'Elan!' })
  expect(other.headers.get('location')).toBe('/books/things/vessels?entered=elan-2')
  const word = await pressed(pottery, '/books/things/vessels/new', { ...one, name: 'New' })
  expect(word.headers.get('location')).toBe('/books/things/vessels?entered=new-2')
  const clay = await pressed(pottery, '/books/things/vessels/new', { ...one, name: '粘土' })
  expect(clay.headers.get('location')).toBe('/books/things/vessels?entered=vessel')
})

test('who was on the way to another page goes on to it, but to none of another house', async () => {
  const form = { name: 'Goblet' }
  const on = await pressed(pottery, '/books/things/forms/new', {
    ...form,
    then: '/books/opening/pots',
  })
  expect(on.headers.get('location')).toBe('/books/opening/pots?formId=goblet')
  for (const then of [
    'https://elsewhere.invalid/',
    '//elsewhere.invalid',
    '/\\elsewhere.invalid',
  ]) {
    const stays = await pressed(pottery, '/books/things/forms/new', { name: `To ${then}`, then })
    expect(stays.headers.get('location')).toMatch(/^\/books\/things\/forms\?entered=/)
  }
})

test('the page of a clay says what its water rests on', async () => {
  const { text } = await opened(pottery, '/books/things/bodies/buff')
  expect(text).toContain('Assumed: nobody has tested it here.')
  expect(text).toContain('21.0 %')
  expect(text).toContain('href="/books/dry-test?bodyId=buff"')
})

test('in a studio of pounds a mass is typed in pounds and ounces, and stays when it is not touched', async () => {
  await pottery.ask('PATCH', `/v1/studios/${STUDIO}`, { body: { massUnits: 'pounds_ounces' } })
  const typed = { name: 'Pail', kind: 'bucket', tareGramsPounds: '1', tareGramsOunces: '5.5' }
  await pressed(pottery, '/books/things/vessels/new', typed)
  const { tareGrams } = (await read('vessels/pail')) as { tareGrams?: string }
  expect(tareGrams).toBe('609.514747')
  const filled = fieldsOf((await opened(pottery, '/books/things/vessels/pail')).text)
  expect(filled).toMatchObject({ tareGramsPounds: '1', tareGramsOunces: '5.5' })
  await pressed(pottery, '/books/things/vessels/pail', { ...filled, name: 'Big pail' })
  expect(await read('vessels/pail')).toMatchObject({ name: 'Big pail', tareGrams: '609.514747' })
  const faulty = await pressed(pottery, '/books/things/vessels/pail', {
    ...filled,
    tareGramsOunces: '17',
  })
  expect(faulty.text).toContain('Sixteen ounces are a pound')
  expect(faulty.text).toContain('value="17"')
})
