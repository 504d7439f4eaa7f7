import jsqr from 'jsqr'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { DEMO_BATS, DEMO_VESSELS } from '../../db/demo/catalogue.ts'
import { openPottery, type Pottery } from './pottery.ts'

const HOST = 'http://studio-box.example:4201'
const PIXELS = 4

/** The package is of the older kind, whose types say less than what is imported. */
const decode = jsqr as unknown as typeof jsqr.default

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [] })
  const studio = { currency: 'GBP', timeZone: 'Europe/London', jurisdiction: 'GB' }
  await pottery.ask('POST', '/v1/studios', {
    studio: null,
    body: { ...studio, studioId: 'demo', name: 'Demo' },
  })
  for (const body of DEMO_VESSELS) await enter('vessels', body)
  for (const body of DEMO_BATS) await enter('bats', body)
})
afterAll(() => pottery.close())

async function enter(things: string, body: unknown): Promise<void> {
  const { status, text } = await pottery.ask('POST', `/v1/${things}`, { studio: 'demo', body })
  if (status !== 201) throw new Error(text)
}

const page = (query = '', host = HOST) =>
  pottery.ask('GET', `${host}/books/labels${query}`, { studio: null })

interface Drawn {
  readonly which: string
  readonly drawing: string
  readonly text: string
}

function labelsIn(html: string): Drawn[] {
  return [...html.matchAll(/<li class="label" data-which="([^"]+)">([\s\S]*?)<\/li>/g)].map(
    ([, which = '', text = '']) => ({
      which,
      drawing: /<svg[\s\S]*?<\/svg>/.exec(text)?.[0] ?? '',
      text,
    }),
  )
}

/** What a reader finds in a drawing: white ground, black strips, each square some pixels wide. */
function readByCamera(drawing: string): string | undefined {
  const side = Number(/viewBox="0 0 (\d+) \d+"/.exec(drawing)?.[1]) * PIXELS
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255)
  for (const [, x, y, length] of drawing.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let down = 0; down < PIXELS; down += 1) {
      const row = (Number(y) * PIXELS + down) * side
      for (let across = 0; across < Number(length) * PIXELS; across += 1) {
        pixels.fill(
          0,
          (row + Number(x) * PIXELS + across) * 4,
          (row + Number(x) * PIXELS + across) * 4 + 3,
        )
      }
    }
  }
  return decode(pixels, side, side)?.data
}

describe('labels', () => {
  test('each vessel and bat has one, and a camera reads the way to its page from it', async () => {
    const { status, text } = await page()
    expect(status).toBe(200)
    const found = labelsIn(text)
    expect(found).toHaveLength(DEMO_VESSELS.length + DEMO_BATS.length)
    const read = found.map(({ which, drawing }) => [which, readByCamera(drawing)])
    const expected = [
      ...DEMO_VESSELS.map(({ vesselId }) => [
        `vessel ${vesselId}`,
        `${HOST}/weigh/vessel/${vesselId}`,
      ]),
      ...DEMO_BATS.map(({ batId }) => [`bat ${batId}`, `${HOST}/weigh/bat/${batId}`]),
    ]
    expect(read.sort()).toEqual(expected.sort())
  })

  test('the way leads somewhere', async () => {
    const { text } = await page('?which=vessel+blue-pail')
    const [only] = labelsIn(text)
    const { pathname } = new URL(readByCamera(only?.drawing ?? '') ?? '')
    expect((await pottery.ask('GET', pathname, { studio: null })).status).toBe(200)
  })

  test('a reader still reads it when a tenth of it is under clay', async () => {
    const [first] = labelsIn((await page()).text)
    const drawing = first?.drawing ?? ''
    const side = Number(/viewBox="0 0 (\d+)/.exec(drawing)?.[1])
    const spot = (y: number) => y > side * 0.45 && y < side * 0.55
    const smeared = drawing.replace(/M(\d+) (\d+)h\d+v1h-\d+z/g, (strip, x: string, y: string) =>
      spot(Number(y)) && Number(x) > side * 0.4 && Number(x) < side * 0.8 ? '' : strip,
    )
    expect(smeared).not.toBe(drawing)
    expect(readByCamera(smeared)).toContain('/weigh/vessel/')
  })

  test('some can be chosen, in three sizes, on as many sheets as they need', async () => {
    const { text } = await page('?size=large&which=vessel+blue-pail&which=bat+bat-by-the-door')
    expect(labelsIn(text).map(({ which }) => which)).toEqual([
      'vessel blue-pail',
      'bat bat-by-the-door',
    ])
    expect(text.match(/class="label-sheet large"/g)).toHaveLength(1)
    expect((await page('?size=large')).text.match(/class="label-sheet large"/g)).toHaveLength(5)
    expect((await page('?size=small')).text.match(/class="label-sheet small"/g)).toHaveLength(1)
  })

  test('each says what the thing weighs empty or dry, and since when that is known', async () => {
    await pottery.ask('PATCH', '/v1/vessels/blue-pail', {
      studio: 'demo',
      body: { name: 'Blue pail' },
    })
    const { text } = await page()
    const [pail] = labelsIn(text).filter(({ which }) => which === 'vessel blue-pail')
    expect(pail?.text).toContain('Blue pail')
    expect(pail?.text).toContain('Empty 460 g</span><span>15 Jun 2026')
    expect(text).toContain('Dry 7.100 kg</span><span>15 Jun 2026')
  })

  test('where the host is this machine only, it says so', async () => {
    for (const host of ['http://localhost:4201', 'http://127.0.0.1:4201', 'http://[::1]:4201']) {
      expect((await page('', host)).text).toContain('A phone cannot reach these.')
    }
    expect((await page()).text).not.toContain('A phone cannot reach these.')
  })

  test('with several studios the label names its own', async () => {
    const studio = { currency: 'GBP', timeZone: 'Europe/London', jurisdiction: 'GB' }
    await pottery.ask('POST', '/v1/studios', {
      studio: null,
      body: { ...studio, studioId: 'other', name: 'Other' },
    })
    const { text } = await pottery.ask('GET', `${HOST}/books/labels`, {
      studio: null,
      headers: {
        Cookie:
          (await pottery.ask('GET', '/books/labels?studio=demo', { studio: null })).headers
            .get('set-cookie')
            ?.split(';')[0] ?? '',
      },
    })
    const [first] = labelsIn(text)
    expect(readByCamera(first?.drawing ?? '')).toContain('?studio=demo')
  })
})
