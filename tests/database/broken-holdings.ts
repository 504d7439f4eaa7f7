import { entry, pairOf } from './broken-lines.ts'
import { constraint, trigger } from './broken-rule.ts'
import type { BrokenRule } from './broken-rule.ts'
import type { Amounts } from './by-hand.ts'

const holdingOf = (place: string, body: string, isInside: boolean) =>
  `insert into holding (studio_id, holding_id, place, body_id, is_inside)
     values ('lane', 'odd', '${place}', ${body}, ${isInside})`
const materialHoldingOf = (place: string, body: string, material: string) =>
  `insert into holding (studio_id, holding_id, place, body_id, material_id, is_inside)
     values ('lane', 'odd', '${place}', ${body}, ${material}, true)`

/** The amounts go from one holding to another, and a rule of holdings is against it. */
function moving(rule: string, way: string, amounts: Amounts): BrokenRule {
  const [from, to] = way.split(' to ')
  return constraint('holding', rule, entry({ lines: pairOf(amounts, to, from) }))
}

const AMOUNTS: BrokenRule[] = [
  moving('holding_must_not_go_negative', 'empty to bench', { dry: '1' }),
  moving('holding_must_not_go_negative', 'empty to bench', { water: '1' }),
  moving('holding_must_not_go_negative', 'bucket to bench', { pieces: '1000' }),
  moving('holding_must_not_go_negative', 'bucket to bench', { cost: '100000' }),
  moving('holding_must_not_go_negative', 'shelf to supplier', {
    ...{ material: '201', cost: '10', glaze: '10' },
  }),
  // The clay pays for what the glaze of another had cost, or a layer is more than all of the cost.
  moving('holding_must_not_go_negative', 'bucket to supplier', { glaze: '1' }),
  moving('holding_must_not_go_negative', 'supplier to bucket', { glaze: '400.000001' }),
  moving('holding_must_not_strand_cost', 'bucket to bench', { dry: '1000', pieces: '100' }),
  moving('holding_must_not_strand_cost', 'shelf to supplier', { material: '200' }),
  moving('holding_must_not_strand_cost', 'boxes to supplier', { pieces: '40' }),
  moving('pieces_must_have_clay', 'bucket to empty', { pieces: '1' }),
  moving('glaze_must_be_on_something', 'supplier to empty', { material: '1' }),
  moving('material_must_not_be_clay', 'supplier to shelf', { dry: '1' }),
  moving('material_must_not_be_clay', 'supplier to shelf', { cost: '1' }),
]

const WAS_NEGATIVE: BrokenRule[] = [
  pairOf({ dry: '1' }, 'bench', 'bucket'),
  pairOf({ pieces: '1' }, 'bench', 'bucket'),
  pairOf({ material: '1' }, 'supplier', 'shelf'),
].map((lines) => ({
  ...trigger(
    'line',
    'holding_must_not_have_been_negative',
    entry({ at: '2026-02-09T12:00Z', lines }),
  ),
  object: 'function',
}))

/** Two things come into the pail in one entry. */
const mixing = (holdings: string, [one, other, from]: [Amounts, Amounts, Amounts]): BrokenRule => ({
  ...trigger(
    'line',
    'bodies_must_not_mix_unless_declared',
    `insert into holding (studio_id, holding_id, place, body_id, material_id, vessel_id, is_inside)
       values ${holdings};` +
      entry({
        lines: [
          { to: 'pail-of-one', ...one },
          { to: 'pail-of-other', ...other },
          { to: 'supplier', ...from },
        ],
      }),
  ),
  name: 'clays_must_lie_apart',
})

const ONE_CLAY = `('lane', 'pail-of-one', 'scrap', 'stoneware', null, 'pail', true)`
const TOGETHER: BrokenRule[] = [
  mixing(`${ONE_CLAY}, ('lane', 'pail-of-other', 'scrap', 'unused', null, 'pail', true)`, [
    ...([{ dry: '2' }, { dry: '1' }, { dry: '-3' }] as const),
  ]),
  mixing(`${ONE_CLAY}, ('lane', 'pail-of-other', 'glaze_bucket', null, 'celadon', 'pail', true)`, [
    ...([{ dry: '2' }, { material: '1' }, { dry: '-2', material: '-1' }] as const),
  ]),
  mixing(
    `('lane', 'pail-of-one', 'glaze_bucket', null, 'unused', 'pail', true),
     ('lane', 'pail-of-other', 'glaze_bucket', null, 'celadon', 'pail', true)`,
    [{ material: '2' }, { material: '1' }, { material: '-3' }],
  ),
]

export const HOLDING_RULES: readonly BrokenRule[] = [
  ...[AMOUNTS, WAS_NEGATIVE, TOGETHER].flat(),
  trigger(
    'holding',
    'holding_must_follow_its_lines',
    `update holding set dry_grams = 501 where studio_id = 'lane' and holding_id = 'bench'`,
  ),
  trigger(
    'holding',
    'holding_must_follow_its_lines',
    `update holding set material_grams = 201 where studio_id = 'lane' and holding_id = 'shelf'`,
  ),
  constraint('holding', 'holding_place_is_known', holdingOf('moon', 'null', false)),
  constraint('holding', 'holding_is_inside_by_its_place', holdingOf('air', "'unused'", true)),
  constraint('holding', 'holding_inside_has_a_body', holdingOf('bench', 'null', true)),
  ...['materials', 'glaze_bucket'].map((place) =>
    constraint(
      'holding',
      'holding_inside_has_a_body',
      materialHoldingOf(place, "'stoneware'", 'null'),
    ),
  ),
  constraint(
    'holding',
    'holding_is_of_one_thing',
    materialHoldingOf('materials', "'stoneware'", "'quartz'"),
  ),
  constraint('holding', 'holding_must_be_one_a_place', holdingOf('bench', "'stoneware'", true)),
  constraint(
    'holding',
    'holding_must_be_one_a_place',
    materialHoldingOf('materials', 'null', "'quartz'"),
  ),
]
