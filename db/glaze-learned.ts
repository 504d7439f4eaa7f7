import { sql } from 'drizzle-orm'
import { decimal, ONE, ZERO } from '../shared/decimal.ts'
import { USUAL_CARRIED_OFF_FRACTION } from '../shared/glaze-batch.ts'
import {
  glazePerPiece,
  type GlazePerPiece,
  type GlazingHow,
  type PastGlazing,
} from '../shared/glaze-per-piece.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Transaction } from './connection.ts'
import { findForm } from './studio.ts'

interface GlazingRow extends Record<string, unknown> {
  readonly pieces: number
  readonly dryGrams: string
  readonly uncertainty: string
  readonly how: GlazingHow
  readonly isWashTold: boolean
}

/** Glazings further back than so many teach nothing of today's hand. Our choice. */
const GLAZINGS_MAX = 30

/**
 * The dry glaze that a piece of a form takes, by its weighed glazings and what is said of the form.
 *
 * What left a bucket holds what was carried off too, unless that was told. A glaze that the form never
 * had takes what it took of others.
 *
 * Units: grams dry a piece; undefined where nothing is known. Refuses: `form_not_found`.
 */
export async function glazeOfForm(
  ledger: Transaction,
  studioId: string,
  of: { formId: string; glazeId?: string | undefined },
): Promise<GlazePerPiece | undefined> {
  const { glazeGramsPerPiece: said } = await findForm(ledger, studioId, of.formId)
  const own = await glazingsOf(ledger, studioId, of)
  const rows = own.length > 0 ? own : await glazingsOf(ledger, studioId, { formId: of.formId })
  return glazePerPiece({
    glazings: rows.map(onPots),
    said:
      said === null
        ? undefined
        : { dryGramsPerPiece: decimal(said), standardUncertaintyGrams: undefined },
    carriedOffFraction: ZERO,
  })
}

/** As `glazeOfForm`. Refuses where nothing is known: `glaze_per_piece_must_be_known`. */
export async function knownGlazeOfForm(
  ledger: Transaction,
  studioId: string,
  of: { formId: string; glazeId: string; pointer: string },
): Promise<GlazePerPiece> {
  const { formId, pointer } = of
  const found = await glazeOfForm(ledger, studioId, of)
  if (found !== undefined) return found
  throw new Refusal(
    'glaze_per_piece_must_be_known',
    `Nothing says how much glaze a '${formId}' takes. Weigh the bucket or the pots before and after, or give the form its glazeGramsPerPiece.`,
    { pointer, facts: { formId } },
  )
}

function onPots({ pieces, dryGrams, uncertainty, how, isWashTold }: GlazingRow): PastGlazing {
  const share = how === 'bucket' && !isWashTold ? ONE.plus(USUAL_CARRIED_OFF_FRACTION) : ONE
  return {
    pieces: decimal(pieces),
    dryGrams: decimal(dryGrams).dividedBy(share),
    standardUncertaintyGrams: decimal(uncertainty).dividedBy(share),
    how,
  }
}

/** Grain: one row a run and glazing that was weighed and stands, the latest first. */
async function glazingsOf(
  ledger: Transaction,
  studioId: string,
  of: { formId: string; glazeId?: string | undefined },
): Promise<GlazingRow[]> {
  const { formId, glazeId } = of
  const ofGlaze = glazeId === undefined ? sql`true` : sql`g.material_id = ${glazeId}`
  return [
    ...(await ledger.execute<GlazingRow>(sql`
      select g.pieces as "pieces", g.dry_grams as "dryGrams", g.how as "how",
             g.standard_uncertainty_grams as "uncertainty",
             (e.said -> 'bucket' -> 'washedOffDryGrams') is not null as "isWashTold"
        from glazing g
        join run u on u.studio_id = g.studio_id and u.run_id = g.run_id
        join entry e on e.studio_id = g.studio_id and e.entry_id = g.entry_id
       where g.studio_id = ${studioId} and u.form_id = ${formId} and g.how <> 'usual' and ${ofGlaze}
         and not exists (select from entry r where r.studio_id = e.studio_id
                                               and r.reverses_entry_id = e.entry_id)
       order by e.happened_at desc, g.entry_id desc, g.run_id
       limit ${GLAZINGS_MAX}`)),
  ]
}
