import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { kg } from '../support/studio.ts'
import { get as getPage } from './page-forms.ts'
import { openPlasterPages, type PlasterPages } from './plaster-pages.ts'
import type { Answered } from './pottery.ts'

let get: PlasterPages['get']
let plaster: PlasterPages['plaster']
let pottery: PlasterPages['pottery']
let scrapInBucket: PlasterPages['scrapInBucket']
beforeEach(async () => {
  ;({ get, plaster, pottery, scrapInBucket } = await openPlasterPages())
})
afterEach(() => pottery.close())

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
  expect(text.match(/<h1[ >]/g)).toHaveLength(1)
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
    await plaster.pour('l', 'b')
    plaster.pass(8.5)
    await plaster.pour('wet', 'bat-a')
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

describe('where something is missing', () => {
  test('the page says what to do and where', async () => {
    const { text: slake } = await get('/plaster/slake')
    expect(slake).toContain('By the books no bucket has scrap in it.')
    expect(slake).not.toContain('class="press"')
    for (const batId of ['bat-a', 'bat-b', 'b', 'c']) await plaster.pour(`on-${batId}`, batId)
    const { text: pour } = await get('/plaster/pour')
    expect(pour).toContain('Every bat carries a slab.')
    expect(pour).toContain('href="/books/things/bats/new?then=%2Fplaster%2Fpour"')
    const neighbour = (path: string) => getPage(pottery, path, 'studio=quay-side')
    expect((await neighbour('/plaster/pour')).text).toContain('no basin has clay in it')
    expect((await neighbour('/plaster/wedge')).text).toContain('no clay is on the bench')
    expect((await neighbour('/plaster/rewet')).text).toContain('no clay is on the bench')
    expect((await neighbour('/plaster')).text).toContain('Nothing lies on plaster.')
  })
})
