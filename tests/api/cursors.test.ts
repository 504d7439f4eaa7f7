import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { kiln } from '../../db/schema.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'

let app: ReportApp

beforeAll(async () => {
  app = await openReportApp()
  const { services, studioId } = app.studio
  await services.db.insert(kiln).values(
    ['bisque-kiln', 'glaze-kiln'].map((kilnId) => ({
      ...{ studioId, kilnId, name: kilnId, changedAt: services.now() },
    })),
  )
})
afterAll(() => app.close())

const wrapped = (key: string) => Buffer.from(key).toString('base64url')

const BY_TIME = ['entries', 'runs', 'sales']
const BY_ID = [
  'lots',
  'holdings',
  'vessels',
  'bodies',
  'forms',
  'scales',
  'bats',
  'kilns',
  'studios',
]

const BROKEN = [
  'zzz',
  'AAAA',
  '_____w',
  // Cut short, and with a letter too many.
  wrapped('2026-05-01T10:00:00.000000Z|id-000001').slice(0, -4),
  `${wrapped('bucket-1')}A`,
  wrapped('2026-99-99T00:00:00.000000Z|x'),
  wrapped('2026-02-30T00:00:00.000000Z|x'),
  wrapped('0000-01-01T00:00:00.000000Z|x'),
  wrapped('2026-05-01T24:00:00.000000Z|x'),
  wrapped('2026-05-01T10:00:00.000000Z|'),
  wrapped('Ärger'),
]

async function expectRefused(address: string): Promise<void> {
  const answer = await app.ask(address)
  expect([address, answer.status]).toEqual([address, 422])
  const { type, errors } = (await answer.json()) as { type: string; errors: object[] }
  expect([type, errors]).toEqual([
    '/problems/fields_must_be_right',
    [{ parameter: 'cursor', detail: 'It must be a cursor as an earlier page gave it.' }],
  ])
}

describe('a cursor that no page gave', () => {
  test.each([...BY_TIME, ...BY_ID])('is refused by the list of %s', async (list) => {
    for (const cursor of BROKEN) await expectRefused(`/v1/${list}?cursor=${cursor}`)
  })

  test('is refused by the lines of a holding', async () => {
    const { items } = await app.json('/v1/holdings')
    for (const cursor of BROKEN) await expectRefused(`${items[0].links.self}?cursor=${cursor}`)
  })

  test('is refused where a list of another order gave it', async () => {
    for (const list of BY_TIME) await expectRefused(`/v1/${list}?cursor=${wrapped('bucket-1')}`)
    const moment = wrapped('2026-05-01T10:00:00.000000Z|id-000001')
    for (const list of BY_ID) await expectRefused(`/v1/${list}?cursor=${moment}`)
  })
})

describe('a cursor that a page gave', () => {
  test.each([...BY_TIME, ...BY_ID].filter((list) => list !== 'runs' && list !== 'scales'))(
    'leads on in the list of %s',
    async (list) => {
      const { items, nextCursor } = await app.json(`/v1/${list}?limit=1`)
      const next = await app.json(`/v1/${list}?limit=1&cursor=${String(nextCursor)}`)
      expect(next.items).toHaveLength(1)
      expect(next.items).not.toEqual(items)
    },
  )
})
