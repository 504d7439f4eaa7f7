import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { ALL_ACTS } from '../../api/acts/all-acts.ts'
import type { ApiDescription } from '../../api/openapi.ts'
import { firstHour } from '../../api/pages/first-hour.ts'
import { openPottery, type Pottery } from './pottery.ts'

let pottery: Pottery
let description: ApiDescription
beforeAll(async () => {
  pottery = await openPottery({ studios: [] })
  const { body } = await pottery.ask('GET', '/v1/openapi.json', { studio: null })
  description = body as unknown as ApiDescription
})
afterAll(() => pottery.close())

describe('the first hour', () => {
  test('is answered with success on an empty ledger, step by step in its order', async () => {
    const steps = firstHour(description, '2026-06')
    expect(steps.length).toBeGreaterThan(14)
    for (const { method, path, body } of steps) {
      const answer = await pottery.ask(method, path, { studio: null, body })
      expect(answer.status, `${path}: ${answer.text}`).toBe(method === 'GET' ? 200 : 201)
    }
  })

  test('leads from the studio to sold pots, reclaimed clay and the report of the month', () => {
    const paths = firstHour(description, '2026-06').map((step) => step.path)
    expect(paths[0]).toBe('/v1/studios')
    expect(paths).toContain('/v1/acts/sell')
    expect(paths).toContain('/v1/acts/lift')
    expect(paths.at(-1)).toContain('/v1/reports/month?month=2026-06')
  })

  test.each(ALL_ACTS.map((act) => [act.name, act] as const))(
    'has made what the example of %s names',
    async (name, act) => {
      const answer = await pottery.ask('POST', `/v1/acts/${name}?preview=true`, {
        studio: null,
        body: act.example,
      })
      const isOfMadeId = JSON.stringify(act.example).includes('0199c1de-0000-7000-8000')
      if (isOfMadeId) expect(answer.body.type).toBe('/problems/holding_not_found')
      else expect(answer.status, answer.text).not.toBe(404)
    },
  )

  test('stands on the page as a numbered list, and goes to where the page was asked', async () => {
    const { text } = await pottery.ask('GET', '/v1', { headers: { host: 'wheel.local:8080' } })
    const list = /<h2 id="first-hour">.*?<ol>(.*?)<\/ol>/s.exec(text)?.[1] ?? ''
    expect(list.match(/<li>/g)).toHaveLength(firstHour(description, '2026-06').length)
    expect(list.match(/http:\/\/wheel\.local:8080\/v1\//g)?.length).toBeGreaterThan(14)
  })
})

describe('the address in the examples', () => {
  test.each(['localhost:4180', '192.168.1.7', '[::1]:4180', 'studio-box.lan:80'])(
    'is the one by which the page was asked: %s',
    async (host) => {
      const { text } = await pottery.ask('GET', '/v1', { headers: { host } })
      expect(text).toContain(`http://${host}/v1/acts/throw`)
      expect(text).not.toContain('127.0.0.1:4180')
    },
  )

  test.each(["a'; rm -rf ~; '", 'two words', 'a/b', 'a:port', '<b>', '-x', 'a@b'])(
    'is the usual one where the header is no host: %s',
    async (host) => {
      const { text } = await pottery.ask('GET', '/v1', { headers: { host } })
      expect(text).toContain('http://127.0.0.1:4180/v1/acts/throw')
      expect(text).not.toContain(`http://${host}`)
    },
  )
})
