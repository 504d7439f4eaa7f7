/**
 * Everything that can be refused: the closed list, each code spelled as the rule that was broken, in
 * the order in which an act looks: what exists, the month, what may meet, amounts.
 *
 * A constraint of the database that a caller can run into bears the same name.
 */
export const REFUSAL_CODES = [
  'studio_must_be_named',
  'studio_not_found',
  'body_not_found',
  'form_not_found',
  'vessel_not_found',
  'scale_not_found',
  'bat_not_found',
  'lot_not_found',
  'run_not_found',
  'holding_not_found',
  'entry_not_found',
  'month_not_found',
  'kiln_load_not_found',
  'material_not_found',
  'kiln_not_found',
  'glaze_recipe_not_found',
  'name_must_be_new',
  'key_must_keep_its_content',
  'date_must_not_be_in_the_future',
  'month_must_be_open',
  'month_must_be_over',
  'entry_must_not_be_reversed_already',
  'entry_must_not_be_a_reversal',
  'closed_month_must_stay_closed',
  'reversal_must_find_what_it_takes_back',
  'bodies_must_not_mix_unless_declared',
  'fired_clay_must_not_return_to_scrap',
  'bat_must_be_empty',
  'bat_must_be_another',
  'lot_must_be_a_load',
  'vessel_must_be_another',
  'holding_must_be_inside',
  'lot_must_be_of_the_body',
  'kiln_load_must_be_in_the_kiln',
  'material_must_be_of_the_kind',
  'material_must_be_told_as_it_is_kept',
  'energy_must_be_told',
  'glaze_per_piece_must_be_known',
  'stage_must_hold_the_pieces',
  'gross_must_not_be_below_tare',
  'reading_must_be_above_zero',
  'reading_must_be_within_scale_capacity',
  'reading_must_not_be_below_known_dry',
  'water_content_must_be_below_one',
  'too_dry_must_be_below_ready',
  'sample_must_not_dry_heavier',
  'fire_must_leave_most_of_the_clay',
  'density_must_exceed_water',
  'density_must_be_below_solids',
  'parameters_must_be_identifiable',
  'fit_must_converge',
  'curve_must_be_knowable',
  'pieces_must_be_enough',
  'clay_must_be_enough',
  'material_must_be_enough',
  'water_must_be_enough',
  'act_must_move_something',
  'parts_must_not_exceed_the_whole',
  'pieces_must_have_clay',
  'holding_must_not_strand_cost',
  'holding_must_not_go_negative',
  'holding_must_not_have_been_negative',
] as const

export type RefusalCode = (typeof REFUSAL_CODES)[number]

/** What the ledger or the trade does not allow, in the potter's words, with the facts behind it. */
export class Refusal extends Error {
  override readonly name = 'Refusal'
  readonly code: RefusalCode
  /** The field of the request that the refusal speaks of, as a JSON pointer without its '#'. */
  readonly pointer: string | undefined
  readonly facts: Readonly<Record<string, string>>

  constructor(
    code: RefusalCode,
    detail: string,
    more: { pointer?: string; facts?: Readonly<Record<string, string>>; cause?: unknown } = {},
  ) {
    super(detail, { cause: more.cause })
    this.code = code
    this.pointer = more.pointer
    this.facts = more.facts ?? {}
  }
}
