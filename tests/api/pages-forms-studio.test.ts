import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openBags } from './page-acts.ts'
import { get, post } from './page-forms.ts'
import { kg } from '../support/studio.ts'
import { NEIGHBOUR, openPottery, STUDIO, type Pottery } from './pottery.ts'

const HERE = `studio=${STUDIO}`
const THERE = `studio=${NEIGHBOUR}`
const KINDS = ['bodies', 'forms', 'vessels', 'scales', 'bats']
const THINGS = ['bodies/buff', 'forms/mug', 'vessels/bucket-1', 'scales/bench', 'bats/bat-a']

let pottery: Pottery
let entryId: string
let kilnLoadId: string
beforeAll(async () => {
  pottery = await openPottery()
  await openBags(pottery)
  const from = [{ lotId: 'o1', balls: 20, ballMass: kg('0.400') }]
  const thrown = await pottery.does('throw', { formId: 'mug', runId: 'mugs', from })
  entryId = (thrown['entry'] as { entryId: string }).entryId
  kilnLoadId = 'first-load'
  const fields = { key: kilnLoadId, all: 'mugs' }
  await post(pottery, '/kiln/load/bisque', { fields, headers: { Cookie: HERE } })
})
afterAll(() => pottery.close())

/** The addresses that the forms which write are sent to. */
function sentTo(html: string): string[] {
  const forms = [...html.matchAll(/<form[^>]*>/g)].map(([tag]) => tag)
  return forms
    .filter((tag) => tag.includes('method="post"'))
    .map((tag) => / action="([^"]*)"/.exec(tag)?.[1] ?? '')
}

describe('a form that writes names the studio whose page it stands on', () => {
  test.each([
    ...KINDS.map((kind) => `/books/things/${kind}/new`),
    ...THINGS.map((thing) => `/books/things/${thing}`),
    '/books/studio',
    '/books/sales/import',
    '/books/delivery',
    '/books/opening/pots',
    '/weigh/vessel/bucket-1',
    '/weigh/run/mugs',
    '/wheel/run/mugs/turn',
    '/wheel/run/mugs/join',
    '/wheel/run/mugs/lose',
    '/wheel/throw/mug',
    '/kiln/load/bisque',
    '/kiln/load/glaze',
  ])('%s', async (path) => {
    const { status, text } = await get(pottery, path, HERE)
    expect(status).toBe(200)
    expectNamed(text)
  })

  test('of an entry, and of what was just recorded', async () => {
    const path = `/books/trail/entry/${entryId}`
    expectNamed((await get(pottery, path, HERE)).text)
    expectNamed((await get(pottery, `/wheel?did=${entryId}`, HERE)).text)
  })

  test('of a load that is in the kiln', async () => {
    const { text } = await get(pottery, '/kiln', HERE)
    const [, loadPath = ''] = /href="(\/kiln\/change\/[^"]+)"/.exec(text) ?? []
    const page = await get(pottery, loadPath, HERE)
    expect(sentTo(page.text).join()).toContain(`/kiln/take-out/${kilnLoadId}`)
    expectNamed(page.text)
  })

  function expectNamed(html: string) {
    const addresses = sentTo(html)
    expect(addresses).not.toEqual([])
    for (const address of addresses) expect(address).toMatch(new RegExp(`\\?studio=${STUDIO}$`))
  }
})

test('what was typed goes to its studio when another one was chosen meanwhile', async () => {
  const { text } = await get(pottery, '/books/things/vessels/new', HERE)
  const fields = { name: 'Pail', kind: 'bucket', tareGrams: '500', tareGramsUnit: 'g' }
  const [action = ''] = sentTo(text)
  const { status } = await post(pottery, action, { fields, headers: { Cookie: THERE } })
  expect(status).toBe(303)
  const at = async (studio: string) =>
    (await pottery.ask('GET', '/v1/vessels/pail', { studio })).status
  expect([await at(STUDIO), await at(NEIGHBOUR)]).toEqual([200, 404])
})
