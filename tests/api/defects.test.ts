import { sql } from 'drizzle-orm'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { describeCause } from '../../api/cause.ts'
import { connect } from '../../db/connection.ts'
import { freshDatabase } from '../support/postgres.ts'
import { TEST_NOW } from '../support/studio.ts'
import { pageAt } from './page-acts.ts'
import { openPottery, problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
let isBroken = false
/** How often the clock is still read before it fails, once. */
let readings = 0
beforeAll(async () => {
  pottery = await openPottery({
    now: () => {
      if (isBroken && readings-- === 0) throw new Error('the clock fell off the wall')
      return TEST_NOW
    },
  })
})
afterAll(() => pottery.close())

test('a defect answers with the request’s id and with no word of what broke', async () => {
  const before = await pottery.entries()
  isBroken = true
  const answer = await pottery.ask('POST', '/v1/acts/close-month', { body: { month: '2026-05' } })
  isBroken = false
  expect(problemIn(answer)).toEqual(problem(500, 'program_must_not_fail'))
  expect(answer.text).not.toContain('clock')
  expect(await pottery.entries()).toBe(before)
  const [line] = pottery.logged
  expect(line?.facts?.['requestId']).toBe(answer.body.instance)
  expect(line?.facts?.['cause']).toContain('the clock fell off the wall')
})

test('a page says it to a person, without the words of programs', async () => {
  isBroken = true
  readings = 1
  const { status, text } = await pageAt(pottery, '/wheel')
  isBroken = false
  expect(status).toBe(500)
  expect(text).toContain('Press once more. If it happens again, write it on paper')
  expect(text).not.toMatch(/Idempotency|request id|the log/i)
})

test('a database that is not there is said to be so, and what was sent may be sent again', async () => {
  const lone = await openPottery()
  await lone.close()
  const answer = await lone.ask('GET', '/v1/reports/stock')
  expect(problemIn(answer)).toEqual(problem(503, 'ledger_must_be_reached'))
  const page = await lone.ask('GET', '/wheel', { headers: { accept: 'text/html' } })
  expect(page.status).toBe(503)
  expect(page.text).toContain('press once more')
})

test('the log of a failed query holds its text, and nothing that was sent with it', async () => {
  const database = await freshDatabase()
  const { db, close } = connect(database.url)
  const failed = await db
    .execute(sql`select ${'a secret name'}::numeric`)
    .then(() => undefined)
    .catch((error: unknown) => error)
  await close()
  await database.close()
  const described = describeCause(failed)
  expect(described).toContain('failed query: select $1::numeric')
  expect(described).toContain('code=22P02')
  expect(described).not.toContain('a secret name')
})
