import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { kg } from '../support/studio.ts'
import { glazePottery } from './glaze-pages.ts'
import { faultsIn, pageAt, pressed, sameAs, send, valueIn } from './page-acts.ts'
import { chosen, settingsOf } from './page-forms.ts'
import { NEIGHBOUR, openPottery, STUDIO, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await glazePottery(pottery)
})
afterAll(() => pottery.close())

describe('what is on the shelf', () => {
  test('is listed kind by kind, with what is to be ordered', async () => {
    const { text } = await pageAt(pottery, '/books/materials')
    expect(text).toContain('href="/books/materials/flint"')
    expect(text).toContain('time to order')
    expect(text).toContain('60 pieces')
    expect(text.match(/time to order/g)).toHaveLength(1)
    const flint = await pageAt(pottery, '/books/materials/flint')
    expect(flint.text).toContain('17.30 kg')
    expect((await pageAt(pottery, '/books/materials/none-such')).status).toBe(404)
  })

  test('is reached from the books and from the catalogue', async () => {
    const contents = await pageAt(pottery, '/books')
    for (const page of ['/books/materials', '/books/materials-in', '/glaze']) {
      expect(contents.text).toContain(`href="${page}"`)
    }
  })
})

describe('a delivery', () => {
  const IN = '/books/materials-in'

  test('tells what is missing, at its field, row by row', async () => {
    const bare = await send(pottery, IN, { materialId: 'flint', price: '20', key: 'k' })
    expect([bare.status, faultsIn(bare).join()]).toEqual([
      422,
      expect.stringContaining('href="#mass"'),
    ])
    const second = await send(pottery, IN, {
      ...{ materialId: 'flint', packs: '1', price: '20', key: 'k' },
      ...{ materialId2: 'mug-box', pieces2: '40', price2: 'cheap' },
    })
    expect(second.status).toBe(422)
    expect(faultsIn(second).join()).toContain('href="#price2"')
    const box = await send(pottery, IN, {
      ...{ materialId: 'mug-box', mass: '4', price: '20', key: 'k' },
    })
    expect([box.status, faultsIn(box).join()]).toEqual([
      422,
      expect.stringContaining('href="#mass"'),
    ])
  })

  test('cautions before it records what harms', async () => {
    const before = await pottery.entries()
    const fields = { materialId: 'cobalt', mass: '1', price: '60.00', key: 'c1' }
    const first = await send(pottery, IN, fields)
    expect(first.status).toBe(200)
    expect(first.text).toContain('Nothing is recorded yet')
    expect(first.text).toContain('Cobalt holds cobalt')
    expect(await pottery.entries()).toBe(before)
  })

  test('is recorded as the API records it, with price and freight', async () => {
    const { entry, entryId, to } = await pressed(pottery, IN, {
      ...{ materialId: 'flint', packs: '1', price: '20,00', freight: '5' },
      ...{ materialId2: 'mug-box', pieces2: '40', price2: '18' },
      ...{ materialId3: 'feldspar', mass3: '24.8', mass3Unit: 'kg', howKnown3: 'scale' },
      ...{ price3: '50', label3: 'Batch 9' },
    })
    expect(to).toBe('/books/materials')
    await sameAs(pottery, entry, {
      act: 'receive-materials',
      said: {
        materials: [
          { materialId: 'flint', packs: 1, price: '20.00' },
          { materialId: 'mug-box', pieces: 40, price: '18' },
          { materialId: 'feldspar', reading: { net: kg('24.8') }, price: '50', label: 'Batch 9' },
        ],
        freight: '5',
      },
    })
    const { text } = await pageAt(pottery, `/books/materials?did=${entryId}`)
    expect(text).toMatch(/Materials delivered: .*25\.00 kg of Flint/)
  })
})

describe('counting and using', () => {
  test('a powder is weighed, and its hazards stand there at once', async () => {
    const at = '/books/materials/flint/count'
    const page = await pageAt(pottery, at)
    expect(page.text).toContain('Flint (H372) holds silica, as stated.')
    const none = await send(pottery, at, { key: 'k' })
    expect(faultsIn(none).join()).toContain('href="#gross"')
    const { entry } = await pressed(pottery, at, { gross: '41.5', grossTare: '0.5' })
    await sameAs(pottery, entry, {
      act: 'count-material',
      said: { materialId: 'flint', reading: { gross: kg('41.5'), tare: kg('0.5') } },
    })
  })

  test('boxes are counted, and may be gone', async () => {
    const at = '/books/materials/mug-box/count'
    const { entry, entryId } = await pressed(pottery, at, { pieces: '97' })
    await sameAs(pottery, entry, {
      act: 'count-material',
      said: { materialId: 'mug-box', pieces: 97 },
    })
    const { text } = await pageAt(pottery, `/books/materials/mug-box?did=${entryId}`)
    expect(text).toContain('Material counted: Mug box, 3 less than by the books.')
    const gone = await pressed(pottery, '/books/materials/feldspar/count', { nothingLeft: 'yes' })
    await sameAs(pottery, gone.entry, {
      act: 'count-material',
      said: { materialId: 'feldspar', nothingLeft: true },
    })
  })

  test('a shelf goes into the kiln, and a powder does not', async () => {
    const at = '/books/materials/half-shelf/use'
    const page = await pageAt(pottery, at)
    expect(chosen(page.text, 'why', 'into_kiln')).toBe(true)
    const many = await send(pottery, at, { why: 'into_kiln', pieces: '9', key: 'k' })
    expect([many.status, faultsIn(many).join()]).toEqual([
      409,
      expect.stringContaining('href="#pieces"'),
    ])
    const { entry } = await pressed(pottery, at, { why: 'into_kiln', pieces: '2' })
    await sameAs(pottery, entry, {
      act: 'use-material',
      said: { materialId: 'half-shelf', pieces: 2, why: 'into_kiln' },
    })
    const powder = await pageAt(pottery, '/books/materials/flint/use')
    expect(powder.text).not.toContain('into_kiln')
    const spoiled = await pressed(pottery, '/books/materials/flint/use', {
      ...{ why: 'spoiled', taken: '500', takenUnit: 'g' },
    })
    await sameAs(pottery, spoiled.entry, {
      act: 'use-material',
      said: { materialId: 'flint', why: 'spoiled', reading: { net: { value: '500', unit: 'g' } } },
    })
  })
})

describe('opening balances', () => {
  test('of a powder and of boxes', async () => {
    expect((await pageAt(pottery, '/books/opening')).text).toContain('/books/opening/material')
    const at = '/books/opening/material'
    const none = await send(pottery, at, { materialId: 'feldspar', key: 'k' })
    expect(none.status).toBe(422)
    const { entry } = await pressed(pottery, at, {
      ...{ materialId: 'feldspar', mass: '12', cost: '13.40' },
    })
    await sameAs(pottery, entry, {
      act: 'open-books',
      said: { items: [], materials: [{ materialId: 'feldspar', mass: kg('12'), cost: '13.40' }] },
    })
  })

  test('of a glaze in its bucket', async () => {
    const at = '/books/opening/glaze'
    const dry = await send(pottery, at, {
      ...{ materialId: 'clear', vesselId: 'bucket-2', gross: '8', key: 'k' },
    })
    expect([dry.status, faultsIn(dry).join()]).toEqual([
      422,
      expect.stringContaining('href="#water"'),
    ])
    const { entry } = await pressed(pottery, at, {
      ...{ materialId: 'clear', vesselId: 'bucket-2', gross: '8.4', water: '48', cost: '9' },
    })
    const reading = { gross: kg('8.4'), inVesselId: 'bucket-2' }
    const water = { content: '0.48', basis: 'wet', standing: 'stated' }
    await sameAs(pottery, entry, {
      act: 'open-books',
      said: {
        items: [],
        materials: [{ materialId: 'clear', vesselId: 'bucket-2', reading, water, cost: '9' }],
      },
    })
    expect((await pageAt(pottery, '/glaze')).text).toContain('Clear')
  })
})

describe('packing what is sold', () => {
  test('as usual for the form, or in boxes that are counted', async () => {
    const at = '/books/sell/mug/first'
    const old = {
      what: 'pots',
      runId: 'old-mugs',
      bodyId: 'buff',
      formId: 'mug',
      at: 'finished',
      grade: 'first',
    }
    for (const studio of [STUDIO, NEIGHBOUR]) {
      await pottery.does('open-books', { items: [{ ...old, pieces: 9, cost: '9' }] }, { studio })
    }
    const sale = { priceEach: '19.50', channel: 'Quay shop' }
    const said = { formId: 'mug', grade: 'first', ...sale }
    const plain = await pageAt(pottery, at)
    expect(chosen(plain.text, 'packing', '')).toBe(true)
    const none = await send(pottery, at, { pieces: '1', ...sale, packing: 'boxes', key: 'k' })
    expect(faultsIn(none).join()).toContain('href="#packing"')
    const boxed = await pressed(pottery, at, {
      ...{ pieces: '2', ...sale, packing: 'boxes', 'box-mug-box': '2' },
    })
    await sameAs(pottery, boxed.entry, {
      act: 'sell',
      said: { ...said, pieces: 2, packing: [{ materialId: 'mug-box', pieces: 2 }] },
    })
    const body = { packing: [{ materialId: 'mug-box', perPiece: '0.5' }] }
    for (const studio of [STUDIO, NEIGHBOUR]) {
      expect((await pottery.ask('PATCH', '/v1/forms/mug', { studio, body })).status).toBe(200)
    }
    const usual = await pageAt(pottery, at)
    expect(chosen(usual.text, 'packing', 'as_usual')).toBe(true)
    expect(usual.text).toContain('each in 0.5 Mug box')
    const { entry } = await pressed(pottery, at, { pieces: '3', ...sale, packing: 'as_usual' })
    await sameAs(pottery, entry, { act: 'sell', said: { ...said, pieces: 3, packing: 'as_usual' } })
  })
})

describe('the studio', () => {
  test('says what seconds cost, and what an hour of its own is to be worth', async () => {
    const { text } = await pageAt(pottery, '/books/studio')
    expect(chosen(text, 'secondsCostRule', 'like_firsts')).toBe(true)
    expect(text).toContain('A second carries the same cost as a first')
    expect(text).toContain('Never part of a cost')
    const settings = await settingsOf(pottery, STUDIO)
    const odd = { secondsCostRule: 'by_price', secondsPriceFraction: '160', hourlyFigure: '18' }
    const many = await send(pottery, '/books/studio', { ...settings, ...odd })
    expect(faultsIn(many).join()).toContain('href="#secondsPriceFraction"')
    const said = { ...settings, ...odd, secondsPriceFraction: '60' }
    expect((await send(pottery, '/books/studio', said)).status).toBe(303)
    const { body } = await pottery.ask('GET', `/v1/studios/${STUDIO}`, { studio: null })
    expect(body).toMatchObject({
      ...{ secondsCostRule: 'by_price', secondsPriceFraction: '0.6', hourlyFigure: '18' },
    })
    const again = await pageAt(pottery, '/books/studio')
    expect([
      valueIn(again.text, 'secondsPriceFraction'),
      valueIn(again.text, 'hourlyFigure'),
    ]).toEqual(['60', '18'])
    expect((await send(pottery, '/books/studio', settings)).status).toBe(303)
    const kept = await pottery.ask('GET', `/v1/studios/${STUDIO}`, { studio: null })
    expect(kept.body).toMatchObject({ secondsCostRule: 'by_price', hourlyFigure: '18' })
  })
})
