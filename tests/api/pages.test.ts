import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openPottery, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

const PAGES = ['/', '/v1', '/problems', '/problems/clay_must_be_enough']

describe.each(PAGES)('the page %s', (path) => {
  test('is read without a script, and asks nothing of anybody else', async () => {
    const { status, contentType, text, headers } = await pottery.ask('GET', path, { studio: null })
    expect(status).toBe(200)
    expect(contentType).toContain('text/html')
    expect(text).toMatch(/^<!doctype html><html lang="en">/)
    expect(text).not.toMatch(/<script|style=|src=|onclick/)
    expect(text.match(/<link[^>]*>/g)).toEqual([
      '<link rel="stylesheet" href="/assets/pages.css"/>',
    ])
    expect(headers.get('content-security-policy')).toContain("default-src 'none'")
    expect(text.match(/<h1>/g)).toHaveLength(1)
  })
})

test('the stylesheet asks nothing of anybody else', async () => {
  const { status, contentType, text } = await pottery.ask('GET', '/assets/pages.css')
  expect(status).toBe(200)
  expect(contentType).toContain('text/css')
  expect(text).not.toMatch(/url\(|@import/)
})

test('the page of the API shows every route, with a command to paste', async () => {
  const { body } = await pottery.ask('GET', '/v1/openapi.json', { studio: null })
  const { text } = await pottery.ask('GET', '/v1', { studio: null })
  expect(body['openapi']).toBe('3.1.0')
  const paths = body['paths'] as Record<string, Record<string, unknown>>
  for (const [path, operations] of Object.entries(paths)) {
    for (const method of Object.keys(operations)) {
      expect(text).toContain(`${method.toUpperCase()} ${path}`)
    }
  }
  expect(text).toContain('/v1/acts/receive-delivery')
  expect(text).toContain('bagMass')
  expect(text).not.toContain('undefined')
  expect(text).not.toContain('[object')
})

test('the silica limits come with source, and the law comes first', async () => {
  const { body } = await pottery.ask('GET', '/v1/silica-limits', { studio: null })
  expect(body['deferTo']).toContain('Local law and licensed practice come first')
  const limits = body['limits'] as { document: string; asOf: string; standing: string }[]
  expect(limits.length).toBeGreaterThan(5)
  expect(limits.every((limit) => limit.document && limit.asOf && limit.standing)).toBe(true)
  expect(body['houseFigure']).toMatchObject({ waterContentWetBasis: '0.05' })
  // 29 CFR 1910.1000(d)(1)(ii): two hours at 150, two at 75, four at 50 make 81.25.
  expect(body['eightHourMean']).toMatchObject({ example: { mean: '81.25' } })
})
