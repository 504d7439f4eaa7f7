import postgres from 'postgres'
import { REFUSAL_CODES, Refusal, type RefusalCode } from '../shared/refusal.ts'

/** What the database says when a promise of the ledger would break, in the potter's words. */
const WORDS: Partial<Record<RefusalCode, string>> = {
  month_must_be_open:
    'The books of that month are closed. Date it into an open month, or correct it there.',
  holding_must_not_go_negative:
    'More was to leave a holding than it has. A count of that holding may be due.',
  holding_must_not_have_been_negative:
    'At that time, or since, there was less there than was to leave. Look at the dates: what leaves must have come first.',
  bodies_must_not_mix_unless_declared:
    'Two clays would meet in one vessel. Use another vessel, or declare the blend that they become.',
  bat_must_be_empty: 'A bat would carry two loads. Lift the one first, or use another bat.',
  holding_must_not_strand_cost:
    'A cost would be left where there is no clay to carry it. Read the scale and the water again.',
  pieces_must_have_clay:
    'That would leave bags or pots without any clay in them. Read the scale again, or count what is there.',
  too_dry_must_be_below_ready:
    'tooDryWaterContentWetBasis must be below readyWaterContentWetBasis: clay is ready first and too dry later.',
  entry_must_not_be_reversed_already: 'This entry was reversed already.',
  entry_must_not_be_a_reversal: 'A reversal is not reversed. Post what happened once more instead.',
}

/** The field of which a refusal speaks, where it is always the same one. */
const POINTER: Partial<Record<RefusalCode, string>> = {
  too_dry_must_be_below_ready: '/tooDryWaterContentWetBasis',
}

/** Constraints whose name is not itself a code. */
const CODE_OF_CONSTRAINT: Readonly<Record<string, RefusalCode>> = {
  body_is_too_dry_below_ready: 'too_dry_must_be_below_ready',
  body_name_must_be_new: 'name_must_be_new',
  form_name_must_be_new: 'name_must_be_new',
  vessel_name_must_be_new: 'name_must_be_new',
  scale_name_must_be_new: 'name_must_be_new',
  bat_name_must_be_new: 'name_must_be_new',
  kiln_name_must_be_new: 'name_must_be_new',
  material_name_must_be_new: 'name_must_be_new',
  body_studio_id_body_id_pk: 'name_must_be_new',
  form_studio_id_form_id_pk: 'name_must_be_new',
  vessel_studio_id_vessel_id_pk: 'name_must_be_new',
  scale_studio_id_scale_id_pk: 'name_must_be_new',
  bat_studio_id_bat_id_pk: 'name_must_be_new',
  kiln_studio_id_kiln_id_pk: 'name_must_be_new',
  material_studio_id_material_id_pk: 'name_must_be_new',
  lot_studio_id_lot_id_pk: 'name_must_be_new',
  run_studio_id_run_id_pk: 'name_must_be_new',
  studio_pkey: 'name_must_be_new',
}

/**
 * The refusal behind an error of the database, or the error itself where nobody but us is to blame.
 *
 * Looks for the constraint's name along the chain of causes: a failing statement arrives wrapped, a
 * failing COMMIT bare.
 */
export function refusalOf(error: unknown): unknown {
  if (error instanceof Refusal) return error
  for (let cause = error; cause instanceof Error; cause = cause.cause as unknown) {
    if (!(cause instanceof postgres.PostgresError)) continue
    const code = codeOf(cause.constraint_name)
    if (code === undefined) return error
    const pointer = POINTER[code]
    return new Refusal(code, WORDS[code] ?? wordsFor(code), {
      cause: error,
      ...(pointer === undefined ? {} : { pointer }),
    })
  }
  return error
}

function codeOf(constraint: string | undefined): RefusalCode | undefined {
  if (constraint === undefined) return undefined
  const mapped = CODE_OF_CONSTRAINT[constraint]
  return mapped ?? REFUSAL_CODES.find((code) => code === constraint)
}

function wordsFor(code: RefusalCode): string {
  return code === 'name_must_be_new'
    ? 'There is one of that name or id already. Choose another, or change the one there is.'
    : `The ledger refuses it: ${code.replaceAll('_', ' ')}.`
}

/** True where the database ended a transaction to break a ring of waiting ones: it may be tried again. */
export function isDeadlock(error: unknown): boolean {
  for (let cause = error; cause instanceof Error; cause = cause.cause as unknown) {
    if (cause instanceof postgres.PostgresError && cause.code === '40P01') return true
  }
  return false
}

/** What the driver and the system say of a database that cannot be reached, or is just going or coming. */
const OUT_OF_REACH = new Set([
  ...['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ENOENT', 'ETIMEDOUT', 'EHOSTUNREACH', 'ENOTFOUND'],
  ...['CONNECTION_CLOSED', 'CONNECTION_ENDED', 'CONNECTION_DESTROYED', 'CONNECT_TIMEOUT'],
  ...['57P01', '57P02', '57P03', '53300', '08006', '08001', '08003'],
])

/** True where the database was not there to answer: the same may go well in a while. */
export function isOutOfReach(error: unknown): boolean {
  for (let cause = error; cause instanceof Error; cause = cause.cause as unknown) {
    if ('code' in cause && OUT_OF_REACH.has(String(cause.code))) return true
  }
  return false
}
