import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { balanceOf, entryOf, flow, lineOf, openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

const WRITERS = ['owner', 'app'] as const

describe.each(WRITERS)('a line, by the hand of the %s:', (writer) => {
  const tried = (statements: string) => verdict(ground[writer], statements)

  test.each(['dry', 'material', 'water', 'cost', 'glaze'])(
    '%s finer than the ledger is refused',
    async (column) => {
      const refused = await tried(flow('bucket to bench', { [column]: '1.0000001' }))
      expect(refused).toBe('line_must_fit_scale')
    },
  )

  test('a digit too many is refused even where it is nought', async () => {
    expect(await tried(flow('bucket to bench', { dry: '1.0000000' }))).toBe('line_must_fit_scale')
  })

  test('a doubt has six digits after the point and no more', async () => {
    const id = `doubt-${writer}`
    const fits = flow('tap to bench', { dry: '1', doubt: '0.000001' }, id)
    expect(await tried(fits)).toBe('went through')
  })

  test.each(['0.0000001', '0.10', '01', '1e3', '-0', '.5', 'NaN', 'much', ' 1', '1'.repeat(26)])(
    'a doubt of %s is no plain number',
    async (doubt) => {
      for (const column of ['doubt', 'costDoubt', 'materialDoubt']) {
        const lines = [
          { to: 'supplier', dry: '1', [column]: doubt },
          { to: 'tap', dry: '-1', [column]: doubt },
        ]
        expect(await tried(entryOf({ id: 'tried', lines }))).toBe('doubt_must_fit_scale')
      }
    },
  )

  test.each(['0.5', '1.000001', "'NaN'", "'Infinity'", '1e24'])(
    'pieces are whole and countable: %s is refused',
    async (pieces) => {
      expect(await tried(flow('supplier to bench', { pieces }))).toBe('line_must_fit_scale')
    },
  )

  test.each(['dry', 'material', 'water', 'cost'])('%s is a number and finite', async (column) => {
    for (const amount of ["'NaN'", "'Infinity'", "'-Infinity'", '1e24']) {
      const lines = [
        { to: 'supplier', [column]: amount },
        { to: 'tap', [column]: amount },
      ]
      expect(await tried(entryOf({ id: 'tried', lines }))).toBe('line_must_fit_scale')
    }
  })

  test('an amount of thirty digits is kept to the last of them', async () => {
    const id = `digits-${writer}`
    const dry = '123456789012345678901234.123456'
    expect(await tried(flow('supplier to tap', { dry }, id))).toBe('went through')
    const [row] = await ground.owner`
      select dry_grams from line where entry_id = ${id} and holding_id = 'tap'`
    expect(row?.dry_grams).toBe(dry)
  })

  test('an entry speaks of a holding once', async () => {
    const twice =
      flow('bucket to bench', { dry: '1' }) + lineOf('tried', 3, { to: 'bench', dry: '1' })
    expect(await tried(twice)).toBe('line_must_be_one_a_holding')
  })

  test('it moves something', async () => {
    expect(await tried(flow('bucket to bench', { dry: '0' }))).toBe('line_must_move_something')
    expect(await tried(flow('bucket to bench', { water: '0.000' }))).toBe(
      'line_must_move_something',
    )
  })
})

describe.each(WRITERS)('a holding, by the hand of the %s:', (writer) => {
  const tried = (statements: string) => verdict(ground[writer], statements)

  test.each([
    { column: 'dry', amount: '1000000' },
    { column: 'water', amount: '1000000' },
    { column: 'pieces', amount: '1000000' },
    { column: 'cost', amount: '1000000' },
    { column: 'material', amount: '1000000' },
    { column: 'glaze', amount: '1000000' },
    { column: 'fire', amount: '0.000001' },
  ])('does not go below zero in $column', async ({ column, amount }) => {
    const tooMuch = flow('bucket to bench', { [column]: amount })
    expect(await tried(tooMuch)).toBe('holding_must_not_go_negative')
  })

  test('may be emptied to nought, and not by a millionth further', async () => {
    const fill = flow('supplier to empty', { dry: '7.5', cost: '3' }, `fill-${writer}`)
    expect(await tried(fill)).toBe('went through')
    expect(await tried(flow('empty to tap', { dry: '7.500001', cost: '3' }))).toBe(
      'holding_must_not_go_negative',
    )
    expect(await tried(flow('empty to tap', { dry: '7.5', cost: '3' }, `drain-${writer}`))).toBe(
      'went through',
    )
    expect((await balanceOf(ground.owner, 'empty')).map(Number)).toEqual([0, 0, 0, 0, 0])
  })

  test('keeps no cost where no clay is left', async () => {
    await tried(flow('supplier to empty', { dry: '10', cost: '4' }, `strand-${writer}`))
    expect(await tried(flow('empty to tap', { dry: '10', cost: '3.999999' }))).toBe(
      'holding_must_not_strand_cost',
    )
    await tried(flow('empty to tap', { dry: '10', cost: '4' }, `unstrand-${writer}`))
  })

  test('has the sum of its lines as its balance, in every column', async () => {
    const amounts = {
      ...{ dry: '1.25', water: '0.5', pieces: '1', cost: '0.1', doubt: '0.01', costDoubt: '0.02' },
    }
    await tried(flow('bucket to bench', amounts, `sum-${writer}`))
    const ofMaterial = {
      ...{ material: '1.25', cost: '0.1', glaze: '0.1', doubt: '0.01', materialDoubt: '0.02' },
    }
    expect(await tried(flow('shelf to glaze', ofMaterial, `sum-shelf-${writer}`))).toBe(
      'went through',
    )
    const source = "coalesce(sum((l.$ ->> 'w')::numeric), 0)"
    const summed = ['dry_doubt', 'cost_doubt', 'material_doubt'].map((column) =>
      source.replace('$', column),
    )
    const layers = ['glaze', 'fire', 'packaging'].map(
      (layer) => `coalesce(sum((l.cost_layers ->> '${layer}')::numeric), 0)`,
    )
    const kept = [
      ...['dry_doubt', 'cost_doubt', 'material_doubt'].map(
        (column) => `coalesce((h.${column} ->> 'w')::numeric, 0)`,
      ),
      ...['glaze', 'fire', 'packaging'].map(
        (layer) => `coalesce((h.cost_layers ->> '${layer}')::numeric, 0)`,
      ),
    ]
    const compared = await ground.owner.unsafe(`
      select h.holding_id, (h.dry_grams, h.material_grams, h.water_grams, h.pieces, h.cost, ${kept.join(', ')}) = (
               sum(l.dry_grams), sum(l.material_grams), sum(l.water_grams), sum(l.pieces), sum(l.cost),
               ${[...summed, ...layers].join(', ')}) as same
        from holding h join line l using (studio_id, holding_id)
       where h.is_inside group by h.studio_id, h.holding_id`)
    expect(compared.length).toBeGreaterThan(9)
    expect(compared.filter((row) => row.same !== true)).toEqual([])
    expect(await tried(flow('glaze to shelf', ofMaterial, `sum-glaze-${writer}`))).toBe(
      'went through',
    )
  })

  test('keeps no balance outside', async () => {
    await tried(flow('tap to bench', { water: '10' }, `tap-${writer}`))
    expect(await balanceOf(ground.owner, 'tap')).toEqual(['0', '0', '0', '0', '0'])
  })

  test('is not born with a balance', async () => {
    const born = `insert into holding (studio_id, holding_id, place, body_id, is_inside, dry_grams)
                    values ('lane', 'gift', 'bench', 'unused', true, 1)`
    expect(await tried(born)).toBe('holding_must_follow_its_lines')
  })

  test('is one a place, body, material, lot, run, vessel and grade, also where some are not given', async () => {
    const twin = `insert into holding (studio_id, holding_id, place, body_id, is_inside)
                    values ('lane', 'twin', 'bench', 'stoneware', true)`
    expect(await tried(twin)).toBe('holding_must_be_one_a_place')
    const shelf = `insert into holding (studio_id, holding_id, place, material_id, is_inside)
                     values ('lane', 'twin', 'materials', 'box', true)`
    expect(await tried(shelf)).toBe('holding_must_be_one_a_place')
  })
})

describe('what a holding holds and is does not change by hand:', () => {
  const BY_HAND = [
    ...['dry_grams', 'material_grams', 'water_grams', 'pieces', 'cost'].map(
      (c) => `${c} = ${c} + 1`,
    ),
    ...['dry_doubt', 'cost_doubt', 'material_doubt', 'cost_layers'].map((c) => `${c} = '{}'`),
    ...['studio_id', 'holding_id', 'place', 'grade'].map((c) => `${c} = 'other'`),
    ...['body_id', 'material_id', 'lot_id', 'run_id', 'vessel_id'].map((c) => `${c} = 'other'`),
    'is_inside = not is_inside',
    'dry_grams = dry_grams',
  ]

  test.each(BY_HAND)('the owner does not set %s', async (change) => {
    const update = `update holding set ${change} where studio_id = 'lane' and holding_id = 'bench'`
    expect(await verdict(ground.owner, update)).toBe('holding_must_follow_its_lines')
  })

  test.each(BY_HAND)('the app does not set %s', async (change) => {
    const update = `update holding set ${change} where studio_id = 'lane' and holding_id = 'bench'`
    const expected = change.startsWith('grade')
      ? 'holding_must_follow_its_lines'
      : 'missing privilege'
    expect(await verdict(ground.app, update)).toBe(expected)
  })

  test('the app may lock a holding before it reads the balance', async () => {
    const locked = `select from holding where studio_id = 'lane' order by holding_id for update`
    expect(await verdict(ground.app, locked)).toBe('went through')
  })
})
