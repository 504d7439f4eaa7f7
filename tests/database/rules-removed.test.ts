import type postgres from 'postgres'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { nameOf, openGround } from './by-hand.ts'
import type { Ground } from './by-hand.ts'
import { removalOf } from './broken-rule.ts'
import type { BrokenRule } from './broken-rule.ts'
import { BROKEN_RULES } from './broken-rules.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

class TakenBack extends Error {}

/** What the database says to the breach with the rule and then without it; nothing of it stays. */
async function saysTo(broken: BrokenRule): Promise<{ withRule: string; without: string }> {
  const said = { withRule: '', without: '' }
  const experiment = ground.owner.begin(async (sql) => {
    await sql.unsafe(`${broken.given ?? ''}; set constraints all immediate;`)
    await sql.unsafe('set constraints all deferred')
    said.withRule = await attempt(sql, broken.breaks)
    await sql.unsafe(removalOf(broken))
    said.without = await attempt(sql, broken.breaks)
    throw new TakenBack()
  })
  await experiment.catch((error: unknown) => {
    if (!(error instanceof TakenBack)) throw error
  })
  return said
}

/** Deferred rules are made to speak at once, as they would at COMMIT. */
async function attempt(sql: postgres.TransactionSql, statements: string): Promise<string> {
  try {
    await sql.savepoint(async (inner) => {
      await inner.unsafe(`${statements}; set constraints all immediate`)
    })
    return 'went through'
  } catch (error) {
    return nameOf(error)
  }
}

describe('each rule is what refuses its breach: with it refused, without it not', () => {
  const cases = BROKEN_RULES.map((broken, at) => ({ ...broken, at: at + 1 }))

  test.each(cases)('$rule on $table (row $at)', async (broken) => {
    expect(await saysTo(broken)).toEqual({ withRule: broken.rule, without: 'went through' })
  })
})

describe('the table of broken rules leaves out', () => {
  const covered = (object: BrokenRule['object']) =>
    BROKEN_RULES.filter((broken) => broken.object === object).map(
      ({ rule, name = rule, table }) => `${name} on ${table}`,
    )

  test('no trigger of the schema', async () => {
    const triggers = await ground.owner`
      select t.tgname || ' on ' || c.relname as name
        from pg_trigger t join pg_class c on c.oid = t.tgrelid
       where not t.tgisinternal and c.relnamespace = 'public'::regnamespace`
    expect(triggers.length).toBeGreaterThan(50)
    expect(new Set(covered('trigger'))).toEqual(new Set(triggers.map((row) => String(row.name))))
  })

  test('no check and no unique rule of the schema', async () => {
    const rules = await ground.owner`
      select k.conname || ' on ' || c.relname as name
        from pg_constraint k join pg_class c on c.oid = k.conrelid
       where k.contype in ('c', 'u', 'x') and c.relnamespace = 'public'::regnamespace`
    const ofForeignKeys = ['line_has_a_holding on line', 'line_has_an_entry on line']
    expect(rules.length).toBeGreaterThan(25)
    expect(new Set(covered('constraint'))).toEqual(
      new Set([...rules.map((row) => String(row.name)), ...ofForeignKeys]),
    )
  })

  test('no trigger that is there but switched off, and no check that old rows escaped', async () => {
    const off = await ground.owner`
      select tgname from pg_trigger where tgrelid::regclass::text not like 'pg_%' and tgenabled <> 'O'`
    const unchecked = await ground.owner`select conname from pg_constraint where not convalidated`
    expect([...off, ...unchecked]).toEqual([])
  })
})
