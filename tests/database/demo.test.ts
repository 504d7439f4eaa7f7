import { expect, test } from 'vitest'
import { connect } from '../../db/connection.ts'
import { isDemoBrokenOff, loadDemo } from '../../db/demo.ts'
import { reconcile } from '../../db/reports/reconcile.ts'
import { turningOverview } from '../../db/reports/turning.ts'
import { ENTRY_KINDS } from '../../shared/entry-kind.ts'
import { freshDatabase } from '../support/postgres.ts'
import { countedIds } from '../support/studio.ts'

test.each(['2026-11-25T12:00:00Z', '2028-02-29T23:30:00Z'])(
  'the demo, told on %s, does every act, is told to its end, and its books agree',
  { timeout: 240_000 },
  async (today) => {
    const database = await freshDatabase()
    const { db, sql, close } = connect(database.url)
    const services = { db, now: () => new Date(today), newId: countedIds() }
    const { studioId } = await loadDemo(services)
    const kinds = await sql<{ kind: string }[]>`select distinct kind from entry`
    expect(kinds.map(({ kind }) => kind).sort()).toEqual([...ENTRY_KINDS].sort())
    expect(await isDemoBrokenOff(services, studioId)).toBe(false)
    expect((await reconcile(db)).faults).toEqual([])
    const { forms } = await turningOverview(db, { studioId })
    const signals = forms.filter(({ isSignal }) => isSignal)
    expect(signals).toMatchObject([{ formId: 'dinner-plate', lately: 'thinner' }])
    await close()
    await database.close()
  },
)
