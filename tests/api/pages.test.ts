import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterAll(() => pottery.close())

const PAGES = [
  '/',
  '/weigh',
  '/weigh/vessel/bucket-1',
  '/begin',
  '/begin/next',
  '/books/studio',
  '/v1',
  '/problems',
  '/problems/clay_must_be_enough',
]
const LOADED = /^\/assets\/(slakebook|icon|manifest)\.(css|js|svg|webmanifest)(\?v=[\w-]+)?$/

describe.each(PAGES)('the page %s', (path) => {
  test('is whole without its script, and asks nothing of anybody else', async () => {
    const { status, contentType, text, headers } = await pottery.ask('GET', path, { studio: null })
    expect(status).toBe(200)
    expect(contentType).toContain('text/html')
    expect(text).toMatch(/^<!doctype html><html lang="en-GB"/)
    expect(text).not.toMatch(/ style=| on[a-z]+="|<script(?! type="module" src=)/)
    const loaded = [...text.matchAll(/<(?:link|script)[^>]* (?:href|src)="([^"]*)"/g)]
    expect(loaded).toHaveLength(4)
    for (const [, address] of loaded) expect(address).toMatch(LOADED)
    const policy = headers.get('content-security-policy') ?? ''
    expect(policy).toContain("default-src 'none'")
    expect(policy).toContain("form-action 'self'")
    expect(policy).not.toContain('unsafe')
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
  })
})

test('what is not there answers a person with a page and a program with a problem', async () => {
  for (const path of ['/weigh/vessel/no-such', '/nowhere']) {
    const forPerson = await pottery.ask('GET', path, { headers: { accept: 'text/html' } })
    expect([forPerson.status, forPerson.contentType]).toEqual([404, 'text/html; charset=UTF-8'])
    expect(forPerson.text).toContain('href="/"')
    const forProgram = await pottery.ask('GET', path)
    expect(forProgram.status).toBe(404)
    expect(forProgram.contentType).toBe('application/problem+json')
  }
})

test('what is too large answers a person with a page and a program with a problem', async () => {
  const before = await pottery.entries()
  const sent = (path: string, accept: string) =>
    pottery.ask('POST', path, {
      raw: `note=${'x'.repeat(256 * 1024)}`,
      headers: {
        'Content-Type': 'application/x-www-form-urlencoded',
        Origin: 'http://localhost',
        accept,
      },
    })
  const forPerson = await sent('/weigh/vessel/bucket-1', 'text/html')
  expect([forPerson.status, forPerson.contentType]).toEqual([413, 'text/html; charset=UTF-8'])
  expect(forPerson.text).toContain('Nothing of it was recorded')
  expect(forPerson.text).toContain('href="/"')
  const forScript = await sent('/weigh/vessel/bucket-1', 'application/json')
  expect([forScript.status, forScript.contentType]).toEqual([413, 'application/problem+json'])
  expect(await pottery.entries()).toBe(before)
})

test('a form that another site sends is not taken', async () => {
  const before = await pottery.entries()
  const { status } = await pottery.ask('POST', '/weigh/vessel/bucket-1', {
    raw: 'gross=2&key=elsewhere',
    headers: { 'Content-Type': 'application/x-www-form-urlencoded', Origin: 'http://else.where' },
  })
  expect(status).toBe(403)
  expect(await pottery.entries()).toBe(before)
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
