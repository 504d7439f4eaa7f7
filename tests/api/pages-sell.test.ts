import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { faultsIn, pageAt, pressed, sameAs, send, valueIn } from './page-acts.ts'
import { chosen, post } from './page-forms.ts'
import { NEIGHBOUR, openPottery, STUDIO, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  const mugs = { what: 'pots', bodyId: 'buff', formId: 'mug', at: 'finished' }
  for (const studio of [STUDIO, NEIGHBOUR]) {
    const items = [
      { ...mugs, runId: 'old-mugs', grade: 'first', pieces: 12, cost: '6.00' },
      { ...mugs, runId: 'odd-mugs', grade: 'second', pieces: 3, cost: '1.50' },
    ]
    await pottery.does('open-books', { items }, { studio })
    const priced = await pottery.ask('PATCH', '/v1/forms/mug', { studio, body: { price: '19.00' } })
    expect(priced.status).toBe(200)
  }
})
afterAll(() => pottery.close())

const FIRSTS = '/books/sell/mug/first'
const SALE = { pieces: '2', priceEach: '19,50', channel: 'Quay shop' }

describe('selling', () => {
  test('begins with the shelf, by form and grade', async () => {
    const { text } = await pageAt(pottery, '/books/sell')
    expect(text).toContain(`href="${FIRSTS}"`)
    expect(text).toContain('href="/books/sell/mug/second"')
    expect(text).toContain('£19.00 each')
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
    const first = await pageAt(pottery, FIRSTS)
    expect([valueIn(first.text, 'pieces'), valueIn(first.text, 'priceEach')]).toEqual([
      '1',
      '19.00',
    ])
    expect(first.text).toContain('12 on the shelf')
    const second = await pageAt(pottery, '/books/sell/mug/second')
    expect(valueIn(second.text, 'priceEach')).toBeUndefined()
    expect((await pageAt(pottery, '/books/sell/teapot/first')).status).toBe(404)
    expect((await pageAt(pottery, '/books/sell/mug/third')).status).toBe(404)
  })

  test('records what the API records; where and for how much stand ready the next time', async () => {
    const { entry, to } = await pressed(pottery, FIRSTS, { ...SALE, key: 'sale-1' })
    expect(to).toBe('/books/sell')
    const said = {
      ...{ formId: 'mug', grade: 'first', pieces: 2 },
      ...{ priceEach: '19.50', channel: 'Quay shop' },
    }
    await sameAs(pottery, entry, { act: 'sell', said })
    const { text } = await pageAt(pottery, FIRSTS)
    expect(valueIn(text, 'priceEach')).toBe('19.50')
    expect(chosen(text, 'channelBefore', 'Quay shop')).toBe(true)
    const touched = await pressed(pottery, FIRSTS, {
      ...{ pieces: '1', priceEach: '18', channelBefore: 'Quay shop' },
    })
    expect(touched.entry.said).toMatchObject({ channel: 'Quay shop', priceEach: '18' })
    await sameAs(pottery, touched.entry, { act: 'sell', said: touched.entry.said })
  })

  test('a double press is one sale', async () => {
    const once = { ...SALE, pieces: '1', key: 'sale-2' }
    const first = await pressed(pottery, FIRSTS, once)
    const again = await pressed(pottery, FIRSTS, once)
    expect(again.entryId).toBe(first.entryId)
    await pottery.does('sell', first.entry.said, { studio: NEIGHBOUR })
  })

  test.each([
    [{ pieces: '' }, 'How many?', 'pieces'],
    [{ pieces: '40' }, '40 were to leave it', 'pieces'],
    [{ priceEach: '' }, 'What was paid for each?', 'priceEach'],
    [{ priceEach: '1.234' }, '', 'priceEach'],
    [{ priceEach: 'dear' }, '', 'priceEach'],
    [{ channel: '' }, 'Where?', 'channel'],
  ])('with %j nothing is sold', async (wrong, words, field) => {
    const before = await pottery.entries()
    const answer = await send(pottery, FIRSTS, { ...SALE, note: 'for Wednesday', ...wrong })
    expect([409, 422]).toContain(answer.status)
    const faults = faultsIn(answer).join()
    expect(faults).toContain(`href="#${field}"`)
    expect(faults).toContain(words)
    expect(valueIn(answer.text, 'note')).toBe('for Wednesday')
    expect(await pottery.entries()).toBe(before)
  })

  test.each([
    ['give-away', 'wedding gift'],
    ['keep', 'kitchen'],
    ['break-in-shop', ''],
  ])('%s takes pots off the shelf without money', async (act, reason) => {
    expect((await pageAt(pottery, FIRSTS)).text).toContain(`href="${FIRSTS}/${act}"`)
    const { entry } = await pressed(pottery, `${FIRSTS}/${act}`, { pieces: '1', reason })
    const said = { formId: 'mug', grade: 'first', pieces: 1, ...(reason === '' ? {} : { reason }) }
    await sameAs(pottery, entry, { act, said })
  })

  test('the last ones of a grade sold, by a double press, their page still answers', async () => {
    const all = { ...SALE, pieces: '3', key: 'sale-3' }
    const first = await pressed(pottery, '/books/sell/mug/second', all)
    const again = await pressed(pottery, '/books/sell/mug/second', all)
    expect(again.entryId).toBe(first.entryId)
    const { status, text } = await pageAt(pottery, '/books/sell/mug/second')
    expect(status).toBe(200)
    expect(text).toContain('0 on the shelf')
  })

  test('no other site may send these forms', async () => {
    const answer = await post(pottery, FIRSTS, {
      fields: SALE,
      headers: { Origin: 'http://elsewhere.example', Cookie: `studio=${STUDIO}` },
    })
    expect(answer.status).toBe(403)
  })
})
