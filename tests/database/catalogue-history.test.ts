import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'

let ground: Ground
let count = 0
let id: string

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

beforeEach(async () => {
  count += 1
  id = `pail-${count}`
  await ground.owner`insert into vessel values ('lane', ${id}, ${id}, 'bucket', 800, '2026-01-01Z')`
})

async function versions(resource = 'vessel', of = id) {
  return ground.owner`
    select version_no, changed_at, facts from catalogue_history
     where studio_id = 'lane' and resource = ${resource} and resource_id = ${of}
     order by version_no`
}

describe.each(['owner', 'app'] as const)(
  'the catalogue remembers, whatever the %s does:',
  (writer) => {
    const tried = (statements: string) => verdict(ground[writer], statements)

    test('a new row is its own first version', async () => {
      const [first, ...more] = await versions()
      expect(more).toEqual([])
      expect(first).toMatchObject({
        version_no: '1',
        facts: { vessel_id: id, name: id, kind: 'bucket', tare_grams: 800 },
      })
    })

    test('each change is a version, with the moment it was made', async () => {
      for (const [grams, day] of [
        [810, '02'],
        [820, '03'],
      ]) {
        const change = `update vessel set tare_grams = ${grams}, changed_at = '2026-01-${day}Z'
                       where studio_id = 'lane' and vessel_id = '${id}'`
        expect(await tried(change)).toBe('went through')
      }
      const all = await versions()
      expect(all.map((row) => row.facts.tare_grams)).toEqual([800, 810, 820])
      expect(all.map((row) => row.version_no)).toEqual(['1', '2', '3'])
      expect((all[2]?.changed_at as Date).toISOString()).toBe('2026-01-03T00:00:00.000Z')
    })

    test('what was the case before stays to be read as it was', async () => {
      await tried(`update vessel set tare_grams = 1 where vessel_id = '${id}'`)
      expect((await versions())[0]?.facts.tare_grams).toBe(800)
    })

    test('a change to the same is no version', async () => {
      await tried(
        `update vessel set tare_grams = 800, changed_at = now() where vessel_id = '${id}'`,
      )
      expect(await versions()).toHaveLength(1)
    })

    test('rows of another studio or of the same id in another table are not counted in', async () => {
      await ground.owner`insert into scale values ('lane', ${id}, ${id}, 1, 100, now())`
      await ground.owner`insert into vessel values ('hill', ${id}, ${id}, 'bucket', 1, now())`
      await tried(
        `update vessel set tare_grams = 2 where studio_id = 'lane' and vessel_id = '${id}'`,
      )
      expect((await versions()).map((row) => row.version_no)).toEqual(['1', '2'])
    })

    test.each([
      { table: 'body', of: 'stoneware', change: 'loss_on_ignition_fraction = 0.01 +' },
      { table: 'form', of: 'mug', change: 'ball_grams = 400 +' },
      { table: 'vessel', of: 'pail', change: 'tare_grams = 900 +' },
      { table: 'scale', of: 'bench-scale', change: 'division_grams = 2 +' },
      { table: 'bat', of: 'bat', change: 'dry_grams = 9000 +' },
    ])('of a $table too', async ({ table, of, change }) => {
      const before = (await versions(table, of)).length
      const update = `update ${table} set ${change} ${count}::numeric / 10000
                     where studio_id = 'lane' and ${table}_id = '${of}'`
      expect(before).toBeGreaterThan(0)
      expect(await tried(update)).toBe('went through')
      expect(await versions(table, of)).toHaveLength(before + 1)
    })

    test('many changes of one row at once are as many versions', async () => {
      const changes = Array.from({ length: 20 }, (_, at) =>
        tried(`update vessel set tare_grams = ${at + 1} where studio_id = 'lane'
              and vessel_id = '${id}'`),
      )
      expect(new Set(await Promise.all(changes))).toEqual(new Set(['went through']))
      const all = await versions()
      expect(all.map((row) => Number(row.version_no))).toEqual(all.map((_, at) => at + 1))
      expect(all).toHaveLength(21)
    })
  },
)
