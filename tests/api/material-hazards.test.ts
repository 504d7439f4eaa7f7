import { afterAll, beforeAll, expect, test } from 'vitest'
import { HAZARD_CODES } from '../../shared/material-hazards.ts'
import { openPottery, type Pottery } from './pottery.ts'

interface Item {
  readonly hazard: string
  readonly limits: readonly {
    readonly jurisdiction: string
    readonly authority: string
    readonly document: string
    readonly asOf: string
    readonly standing: string
  }[]
  readonly leftOut: readonly string[]
}

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

async function itemsOf(query = ''): Promise<readonly Item[]> {
  const { status, body } = await pottery.ask('GET', `/v1/material-hazards${query}`, {
    studio: null,
  })
  expect(status).toBe(200)
  expect(body['deferTo']).toContain('local law and licensed practice come first')
  return body['items'] as Item[]
}

test('every hazard comes with its limits, each with source and date, of all places', async () => {
  const items = await itemsOf()
  expect(items.map(({ hazard }) => hazard)).toEqual(HAZARD_CODES)
  const limits = items.flatMap((item) => item.limits)
  expect(new Set(limits.map(({ jurisdiction }) => jurisdiction))).toEqual(
    new Set(['GB', 'US', 'EU', 'AU']),
  )
  expect(limits.every((one) => one.authority && one.document && one.asOf && one.standing)).toBe(
    true,
  )
  expect(await itemsOf('?jurisdiction=other')).toEqual(items)
})

test('of one place, only its own; what is left out sends to the list', async () => {
  const items = await itemsOf('?jurisdiction=GB')
  const limits = items.flatMap((item) => item.limits)
  expect(limits.length).toBeGreaterThan(8)
  expect(limits.every(({ jurisdiction }) => jurisdiction === 'GB')).toBe(true)
  const lithium = items.find(({ hazard }) => hazard === 'lithium')
  expect(lithium?.limits).toEqual([])
  expect(lithium?.leftOut.join(' ')).toContain("see the authority's list")
})

test('what is published of glazes and food judges no glaze', async () => {
  const { body } = await pottery.ask('GET', '/v1/material-hazards', { studio: null })
  const { words } = body['foodContact'] as { words: string[] }
  expect(words.join(' ')).toContain('for a laboratory and local law')
})

test('another place, or another question, is refused', async () => {
  for (const query of ['?jurisdiction=XX', '?colour=blue']) {
    const { status } = await pottery.ask('GET', `/v1/material-hazards${query}`, { studio: null })
    expect(status).toBe(422)
  }
})
