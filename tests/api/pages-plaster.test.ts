import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { kg } from '../support/studio.ts'
import { chosen, get as getPage, post, type Fields } from './page-forms.ts'
import { openPlaster, type PlasterPottery } from './plaster-pottery.ts'
import type { Answered, Body, Pottery } from './pottery.ts'

const cookie = 'studio=mill-lane'
let plaster: PlasterPottery
let pottery: Pottery
beforeEach(async () => {
  plaster = await openPlaster()
  pottery = plaster.pottery
})
afterEach(() => pottery.close())

const get = (path: string) => getPage(pottery, path, cookie)
const press = (path: string, fields: Fields, headers: Record<string, string> = {}) =>
  post(pottery, path, { fields, headers: { Cookie: cookie, ...headers } })

/** What an entry came to, without its name and its moment of writing. */
function tale({ entry }: Body) {
  const { said, lines, weighings, estimates } = entry as Record<string, Record<string, unknown>[]>
  const anywhere = (rows: Record<string, unknown>[] | undefined) =>
    rows?.map(({ holdingId: _holding, lotId: _lot, ...rest }) => rest)
  return {
    said,
    lines: anywhere(lines),
    weighings: anywhere(weighings)?.map(({ weighedAt: _at, ...rest }) => rest),
    estimates: anywhere(estimates),
  }
}

/** The entry that a page's press led to. */
async function entryOf({ headers }: Answered): Promise<Body> {
  const did = new URL(headers.get('location') ?? '', 'http://localhost').searchParams.get('did')
  const { body } = await pottery.ask('GET', `/v1/entries/${String(did)}`)
  return { entry: body }
}

interface Pressed {
  readonly path: string
  readonly fields: Fields
  readonly act: string
  readonly said: object
  readonly next: string
}

/** A press records what the API's act would have recorded, which is asked just before. */
async function expectSame({ path, fields, act, said, next }: Pressed) {
  const tried = await pottery.ask('POST', `/v1/acts/${act}?preview=true`, { body: said })
  expect([tried.status, tried.text]).toEqual([200, tried.text])
  const before = await pottery.entries()
  const answer = await press(path, fields)
  expect([answer.status, answer.text]).toEqual([303, ''])
  expect(answer.headers.get('location')).toMatch(new RegExp(`^${next}\\?did=`))
  expect(await pottery.entries()).toBe(before + 1)
  const done = await entryOf(answer)
  expect(tale(done)).toEqual(tale(tried.body))
  const landed = await get(answer.headers.get('location') ?? '')
  return { landed, done }
}

const onTwoBats: Fields = [
  ['key', 'pour-1'],
  ['basinVesselId', 'basin-1'],
  ['bats-offered', 'bat-a'],
  ['bats-offered', 'b'],
  ['bats', 'b'],
  ['bats-b', '6,00'],
  ['bats-bUnit', 'kg'],
  ['thick-b', '36'],
  ['bats-offered', 'c'],
  ['bats-c', '12.80'],
  ['bats-cUnit', 'kg'],
  ['bats-cTare', '7.30'],
  ['bats-cTareUnit', 'kg'],
]

async function scrapInBucket(state: string, kilograms: string) {
  await pottery.does('weigh-scrap', {
    vesselId: 'bucket-1',
    bodyId: 'buff',
    state,
    reading: { net: kg(kilograms) },
  })
}

describe('each page', () => {
  test.each(['', '/pour', '/slake', '/decant', '/slurry', '/rewet', '/wedge'])(
    '/plaster%s is read without a script, with one heading and labels on all fields',
    async (path) => {
      await scrapInBucket('turnings', '3.00')
      await pottery.does('receive-delivery', {
        clays: [{ bodyId: 'buff', lotId: 'd1', bags: 4, bagMass: kg('12.5'), price: '60.00' }],
      })
      await pottery.does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o1', label: 'Opened' })
      expectReadable(await get(`/plaster${path}`))
    },
  )

  test.each(['', '/lift', '/move'])('a slab has its page%s', async (path) => {
    await plaster.pour('l')
    const found = await get(`/plaster/l${path}`)
    expectReadable(found)
    expect(found.text).toContain('Bat b')
  })

  test('a slab that never was is told as a page', async () => {
    const { status, text } = await get('/plaster/nothing-such')
    expect(status).toBe(404)
    expect(text).toContain('<h1>')
  })
})

function expectReadable({ status, text }: Answered) {
  expect(status).toBe(200)
  expect(text.match(/<h1>/g)).toHaveLength(1)
  expect(text).not.toMatch(/ style=|\[object|undefined|NaN/)
  const ids = [...text.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id)
  expect(ids).toEqual([...new Set(ids)])
  const fors = [...text.matchAll(/<label for="([^"]*)"/g)].map(([, id]) => id)
  for (const id of fors) expect(ids).toContain(id)
}

describe('the board', () => {
  test('tells each slab in words, the most urgent first, and what empty bats hold', async () => {
    await plaster.passSomeWeeks()
    plaster.clock('08:00')
    await plaster.pour('wet', 'bat-a')
    await plaster.pour('l', 'b')
    await plaster.weigh('l', '4.86')
    const { text } = await get('/plaster')
    expect(text.indexOf('Ready to lift')).toBeGreaterThan(0)
    expect(text.indexOf('Ready to lift')).toBeLessThan(text.indexOf('Drying'))
    expect(text).toMatch(/<dt>Water now<\/dt><dd>22\.\d %<small>/)
    expect(text).toContain('href="/weigh/bat/b"')
    expect(text).toContain('href="/plaster/l/lift"')
    expect(text).toMatch(/Bat c<\/strong>.*nothing lay on it yet/)
    expect(text).toContain('Learnt from 4 slabs')
  })

  test('a slab weighed with its bat says what that tells, and what not', async () => {
    plaster.clock('11:20')
    await plaster.pour('l')
    plaster.clock('18:00')
    const both = { lotId: 'l', reading: { net: kg('12.92') }, withPlaster: true }
    await pottery.does('weigh-on-plaster', both)
    const { text } = await get('/plaster')
    expect(text).toContain('Ask the scale')
    expect(text).toContain('<strong>Weighed with its bat.</strong> 180 g went into the air.')
    expect(text).not.toContain('35.2 %')
    const { text: own } = await get('/plaster/l')
    expect(own).toMatch(/12\.92 kg.*180 g/)
    await plaster.weigh('l', '5.05')
    const { text: after } = await get('/plaster')
    expect(after).not.toContain('Weighed with its bat.')
    expect(after).toContain('The bat is tired')
    expect(after).toMatch(/class="button advised"[^>]*href="\/plaster\/l\/move"/)
    const { text: page } = await get('/plaster/l')
    expect(page).toContain('Into the plaster')
    expect(page).toMatch(/href="\/books\/trail\/entry\/[^"]+">today 18:00/)
  })

  test('a slab that has left its bat says so, and where its clay went', async () => {
    await plaster.pour('l')
    await pottery.does('lift', { lotId: 'l', reading: { net: kg('4.87') } })
    const { text } = await get('/plaster/l')
    expect(text).toContain('It lies on this bat no more.')
    expect(text).toContain('href="/books/trail/lot/l"')
    expect(text).not.toContain('href="/plaster/l/lift"')
  })
})

describe('a press records what the act would', () => {
  test('pour, onto several bats in one go, net or with the bat', async () => {
    const { landed } = await expectSame({
      path: '/plaster/pour',
      fields: onTwoBats,
      act: 'pour',
      said: {
        basinVesselId: 'basin-1',
        loads: [
          { batId: 'b', reading: { net: kg('6.00') }, thicknessMillimetres: '36' },
          { batId: 'c', reading: { gross: kg('12.80'), tare: kg('7.30') } },
        ],
      },
      next: '/plaster',
    })
    expect(landed.text).toContain('Poured on plaster: 11.50 kg net')
    expect(landed.text).toContain('Slab on Bat c'.slice('Slab on '.length))
  })

  test('slake', async () => {
    await scrapInBucket('turnings', '3.00')
    await expectSame({
      path: '/plaster/slake',
      fields: { fromVesselId: 'bucket-1', basinVesselId: 'basin-1', water: '2.5', waterUnit: 'kg' },
      act: 'slake',
      said: {
        fromVesselId: 'bucket-1',
        basinVesselId: 'basin-1',
        water: { net: kg('2.5') },
      },
      next: '/plaster',
    })
  })

  test('slake of a part', async () => {
    await scrapInBucket('turnings', '3.00')
    await expectSame({
      path: '/plaster/slake',
      fields: { fromVesselId: 'bucket-1', basinVesselId: 'basin-1', scrap: '800', scrapUnit: 'g' },
      act: 'slake',
      said: {
        fromVesselId: 'bucket-1',
        basinVesselId: 'basin-1',
        scrap: { net: { value: '800', unit: 'g' } },
      },
      next: '/plaster',
    })
  })

  test('decant', async () => {
    await expectSame({
      path: '/plaster/decant',
      fields: {
        ...{ basinVesselId: 'basin-1', gross: '3.4', grossUnit: 'kg' },
        ...{ grossTare: '0.4', grossTareUnit: 'kg', clarity: 'cloudy', intoVesselId: 'bucket-2' },
      },
      act: 'decant',
      said: {
        basinVesselId: 'basin-1',
        reading: { gross: kg('3.4'), tare: kg('0.4') },
        clarity: 'cloudy',
        intoVesselId: 'bucket-2',
      },
      next: '/plaster',
    })
  })

  test('read a slurry, by its jug, and with the whole basin', async () => {
    const fields = {
      ...{ basinVesselId: 'basin-1', volume: '1000', volumeUnit: 'ml' },
      ...{ slurry: '1630', slurryUnit: 'g' },
    }
    const said = {
      basinVesselId: 'basin-1',
      slurry: { net: { value: '1630', unit: 'g' } },
      volume: { value: '1000', unit: 'ml' },
    }
    const { landed } = await expectSame({
      path: '/plaster/slurry',
      fields,
      act: 'read-slurry',
      said,
      next: '/plaster/pour',
    })
    expect(landed.text).toContain('<h1>Pour on plaster</h1>')
    await expectSame({
      path: '/plaster/slurry',
      fields: { ...fields, whole: '398.4', wholeUnit: 'kg', wholeWithBasin: 'yes', celsius: '18' },
      act: 'read-slurry',
      said: { ...said, celsius: '18', whole: { gross: kg('398.4'), inVesselId: 'basin-1' } },
      next: '/plaster/pour',
    })
  })

  test('lift, with the bat and the scrapings, onto a heap of its own or another', async () => {
    await plaster.pour('l', 'b')
    await plaster.pour('m', 'c')
    await expectSame({
      path: '/plaster/l/lift',
      fields: {
        ...{ gross: '4.87', grossUnit: 'kg', bat: '7.9', batUnit: 'kg', intoLotId: '' },
        ...{ scrapings: '40', scrapingsUnit: 'g', label: 'Reclaimed in May' },
      },
      act: 'lift',
      said: {
        lotId: 'l',
        reading: { net: kg('4.87') },
        bat: { net: kg('7.9') },
        scrapings: { reading: { net: { value: '40', unit: 'g' } } },
        label: 'Reclaimed in May',
      },
      next: '/plaster',
    })
    const { body } = await pottery.ask('GET', '/v1/lots?kind=reclaimed')
    const [heap] = body['items'] as { lotId: string }[]
    await expectSame({
      path: '/plaster/m/lift',
      fields: { intoLotId: heap?.lotId ?? '', label: 'not said where it joins' },
      act: 'lift',
      said: { lotId: 'm', intoLotId: heap?.lotId },
      next: '/plaster',
    })
  })

  test('move', async () => {
    await plaster.pour('l')
    const fields = { batId: 'c', gross: '5.05', grossUnit: 'kg', bat: '7.87', batUnit: 'kg' }
    await expectSame({
      path: '/plaster/l/move',
      fields,
      act: 'move-load',
      said: { lotId: 'l', batId: 'c', reading: { net: kg('5.05') }, bat: { net: kg('7.87') } },
      next: '/plaster',
    })
  })

  test('wet hard clay, and wedge', async () => {
    await pottery.does('receive-delivery', {
      clays: [{ bodyId: 'buff', lotId: 'd1', bags: 4, bagMass: kg('12.5'), price: '60.00' }],
    })
    await pottery.does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o1' })
    await pottery.does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o2' })
    await scrapInBucket('off_cuts', '1.20')
    await expectSame({
      path: '/plaster/rewet',
      fields: { clay: 'store/d1', water: '450', waterUnit: 'g' },
      act: 'rewet',
      said: { lotId: 'd1', place: 'store', water: { value: '450', unit: 'g' } },
      next: '/plaster',
    })
    const fields: Fields = [
      ...[
        ['lots-offered', 'o1'],
        ['lots', 'o1'],
        ['lots-offered', 'o2'],
      ],
      ...[
        ['lots', 'o2'],
        ['lots-o2', '3.5'],
        ['lots-o2Unit', 'kg'],
        ['vessels', 'bucket-1'],
      ],
      ...[
        ['gross', '17.4'],
        ['grossUnit', 'kg'],
        ['water', '200'],
        ['waterUnit', 'g'],
      ],
      ...[
        ['powderName', 'grog, fine'],
        ['powder', '250'],
        ['powderUnit', 'g'],
      ],
      ...[
        ['powderPrice', '1.40'],
        ['label', 'Wedged with grog'],
        ['seen', 'yes'],
      ],
    ] as [string, string][]
    await expectSame({
      path: '/plaster/wedge',
      fields,
      act: 'wedge',
      said: {
        from: [
          { lotId: 'o1', whatIsLeft: true },
          { lotId: 'o2', reading: { net: kg('3.5') } },
        ],
        fromVesselIds: ['bucket-1'],
        additions: [
          { name: 'grog, fine', reading: { net: { value: '250', unit: 'g' } }, price: '1.40' },
        ],
        water: { value: '200', unit: 'g' },
        reading: { net: kg('17.4') },
        label: 'Wedged with grog',
      },
      next: '/wheel/throw',
    })
  })
})

describe('what is wrong comes back with what was typed', () => {
  test('a bat that was tapped and has no mass, at its own field', async () => {
    const { status, text } = await press('/plaster/pour', [
      ['basinVesselId', 'basin-1'],
      ...(['bat-a', 'b', 'c'].map((id) => ['bats-offered', id]) as [string, string][]),
      ['bats', 'b'],
      ['bats', 'c'],
      ['bats-c', '5.5'],
      ['bats-cUnit', 'kg'],
    ])
    expect(status).toBe(422)
    expect(text).toContain('<a href="#bats-b">')
    expect(text).toContain('id="bats-b-fault"')
    expect(text).toMatch(/name="bats-c" value="5.5"/)
    expect(chosen(text, 'bats', 'c')).toBe(true)
    expect(chosen(text, 'bats', 'bat-a')).toBe(false)
    expect(await pottery.entries()).toBe(1)
  })

  test('no bat at all', async () => {
    const { status, text } = await press('/plaster/pour', [
      ['basinVesselId', 'basin-1'],
      ['bats-offered', 'b'],
    ])
    expect(status).toBe(422)
    expect(text).toContain('<a href="#bats">')
    expect(chosen(text, 'bats', 'b')).toBe(false)
  })

  test('more than the basin has is refused at the mass of the bat', async () => {
    const { status, text } = await press('/plaster/pour', [
      ['basinVesselId', 'basin-1'],
      ['bats-offered', 'b'],
      ['bats', 'b'],
      ['bats-b', '900'],
      ['bats-bUnit', 'kg'],
    ])
    expect(status).toBe(409)
    expect(text).toContain('<a href="#bats-b">')
    expect(text).toMatch(/name="bats-b" value="900"/)
  })

  test('two clays that would meet ask what they become', async () => {
    const bucket = { vesselId: 'bucket-2', bodyId: 'white', state: 'slops' }
    await pottery.does('weigh-scrap', { ...bucket, reading: { net: kg('2.0') } })
    const fields = { fromVesselId: 'bucket-2', basinVesselId: 'basin-1', water: '1.5' }
    const { status, text } = await press('/plaster/slake', fields)
    expect(status).toBe(409)
    expect(chosen(text, 'fromVesselId', 'bucket-2')).toBe(true)
    expect(text).toMatch(/<details class="more" open="">\s*<summary>Two clays meet/)
    expect(text).toMatch(/name="water" value="1.5"/)
    const again = await press('/plaster/slake', { ...fields, blendBodyId: 'pepper' })
    expect(again.status).toBe(303)
  })

  test('a slab below its dry clay is refused at the scale', async () => {
    await plaster.pour('l')
    const { status, text } = await press('/plaster/l/lift', { gross: '0.9', grossUnit: 'kg' })
    expect(status).toBe(422)
    expect(text).toContain('<a href="#gross">')
    expect(text).toMatch(/name="gross" value="0.9"/)
  })

  test('a jug lighter than water is refused at the jug', async () => {
    const { status, text } = await press('/plaster/slurry', {
      ...{ basinVesselId: 'basin-1', volume: '1000', volumeUnit: 'ml' },
      ...{ slurry: '900', slurryUnit: 'g' },
    })
    expect(status).toBe(422)
    expect(text).toContain('<a href="#slurry">')
  })
})

describe('dust', () => {
  test('dry scrap has its caution before the press, and is slaked by that press', async () => {
    await scrapInBucket('air_dry', '3.00')
    const { text } = await get('/plaster/slake')
    expect(text).toContain('aria-label="Dust"')
    expect(text).toContain('name="seen" value="yes"')
  })

  test('what was dry and not shown yet is shown first, and recorded by the second press', async () => {
    await scrapInBucket('air_dry', '3.00')
    const fields = { key: 'slake-1', fromVesselId: 'bucket-1', basinVesselId: 'basin-1' }
    const before = await pottery.entries()
    const { status, text } = await press('/plaster/slake', fields)
    expect([status, await pottery.entries()]).toEqual([200, before])
    expect(text).toContain('Nothing is recorded yet.')
    expect(text).toContain('name="key" value="slake-1"')
    const again = await press('/plaster/slake', { ...fields, seen: 'yes' })
    expect([again.status, await pottery.entries()]).toEqual([303, before + 1])
  })
})

describe('two presses of one form', () => {
  test.each<[string, Fields]>([
    ['/plaster/pour', onTwoBats],
    ['/plaster/l/lift', { key: 'lift-1', gross: '4.87', grossUnit: 'kg', intoLotId: '' }],
    ['/plaster/l/move', { key: 'move-1', batId: 'bat-b', gross: '5.05', grossUnit: 'kg' }],
  ])('%s is one entry', async (path, fields) => {
    await plaster.pour('l', 'bat-a')
    const before = await pottery.entries()
    const first = await press(path, fields)
    const second = await press(path, fields)
    expect([first.status, second.status]).toEqual([303, 303])
    expect(second.headers.get('location')).toBe(first.headers.get('location'))
    expect(await pottery.entries()).toBe(before + 1)
    const kept = await press(path, fields, { Accept: 'application/json' })
    expect([kept.status, kept.headers.get('idempotency-replayed')]).toEqual([201, 'true'])
  })
})

describe('where something is missing', () => {
  test('the page says what to do and where', async () => {
    const { text: slake } = await get('/plaster/slake')
    expect(slake).toContain('By the books no bucket has scrap in it.')
    expect(slake).not.toContain('<form')
    for (const batId of ['bat-a', 'bat-b', 'b', 'c']) await plaster.pour(`on-${batId}`, batId)
    const { text: pour } = await get('/plaster/pour')
    expect(pour).toContain('Every bat carries a slab.')
    expect(pour).toContain('href="/books/things/bats"')
    const neighbour = (path: string) => getPage(pottery, path, 'studio=quay-side')
    expect((await neighbour('/plaster/pour')).text).toContain('no basin has clay in it')
    expect((await neighbour('/plaster/wedge')).text).toContain('no clay is on the bench')
    expect((await neighbour('/plaster/rewet')).text).toContain('no clay is on the bench')
    expect((await neighbour('/plaster')).text).toContain('Nothing lies on plaster.')
  })
})
