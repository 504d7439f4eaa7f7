import { sql } from 'drizzle-orm'
import { Decimal, decimal, ZERO } from '../shared/decimal.ts'
import type { Transaction } from './connection.ts'
import { natureOfMix, recipesOf, type GlazeNature } from './glaze-recipes.ts'
import { findMaterial, type MaterialFacts } from './materials.ts'

/** What has come together in a bucket since it was last empty. */
export interface BucketHistory {
  readonly nature: GlazeNature
  /** The batches that were mixed into it. */
  readonly batchEntryIds: readonly string[]
  /** Some of it came in as glaze: from before the books, or found. */
  readonly hasUnmixed: boolean
}

interface BucketAsked {
  readonly glaze: MaterialFacts
  readonly vesselId: string
  /** As it was then; as it is now where no moment is named. */
  readonly at?: Date | undefined
}

interface CameOrWent extends Record<string, unknown> {
  readonly entryId: string
  readonly kind: string
  readonly grams: string
  readonly loss: string | null
  readonly grain: string | null
}

interface State {
  readonly held: Decimal
  readonly nature: GlazeNature
  readonly batchEntryIds: readonly string[]
  readonly hasUnmixed: boolean
}

/**
 * What is known of the glaze in a bucket: each batch moves it by as much as it is of the dry mass there.
 * What came in as glaze is by the latest recipe, else by what is said of the glaze itself.
 *
 * Units: fractions of the dry mass; g/mL. Source: as `natureOfMix`.
 */
export async function bucketHistory(
  ledger: Transaction,
  studioId: string,
  of: BucketAsked,
): Promise<BucketHistory> {
  const [latest] = await recipesOf(ledger, studioId, of.glaze)
  const usual = latest === undefined ? of.glaze : natureOfMix(latest.parts)
  const empty: State = { held: ZERO, nature: usual, batchEntryIds: [], hasUnmixed: false }
  const moves = await movesOf(ledger, studioId, of)
  return moves.reduce<State>((before, move) => after(before, move, empty), empty)
}

/** Grain: one row for each entry that stands and moved dry glaze into or out of the bucket, the oldest first. */
async function movesOf(
  ledger: Transaction,
  studioId: string,
  { glaze, vesselId, at }: BucketAsked,
): Promise<CameOrWent[]> {
  const until =
    at === undefined ? sql`true` : sql`e.happened_at <= ${at.toISOString()}::timestamptz`
  return [
    ...(await ledger.execute<CameOrWent>(sql`
    select e.entry_id as "entryId", e.kind, l.material_grams as "grams",
           b.loss_on_ignition_fraction as "loss", b.grain_grams_per_millilitre as "grain"
      from holding h
      join line l on l.studio_id = h.studio_id and l.holding_id = h.holding_id
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
      left join glaze_batch b on b.studio_id = e.studio_id and b.entry_id = e.entry_id
     where h.studio_id = ${studioId} and h.place = 'glaze_bucket'
       and h.material_id = ${glaze.materialId} and h.vessel_id = ${vesselId}
       and l.material_grams <> 0 and e.reverses_entry_id is null and ${until}
       and not exists (select from entry r where r.studio_id = e.studio_id
                                             and r.reverses_entry_id = e.entry_id)
     order by e.happened_at, e.recorded_at, e.entry_id`)),
  ]
}

function after(before: State, move: CameOrWent, empty: State): State {
  const grams = decimal(move.grams)
  const held = Decimal.max(before.held.plus(grams), ZERO)
  if (held.isZero()) return empty
  if (grams.lessThan(0)) return { ...before, held }
  const blend = (came: GlazeNature) =>
    natureOfMix([
      { parts: before.held, ingredient: before.nature },
      { parts: grams, ingredient: came },
    ])
  if (move.loss !== null && move.grain !== null) {
    const came = {
      lossOnIgnitionFraction: decimal(move.loss),
      grainGramsPerMillilitre: decimal(move.grain),
    }
    const batchEntryIds = [...before.batchEntryIds, move.entryId]
    return { ...before, held, nature: blend(came), batchEntryIds }
  }
  // What a reading found beyond the books is of what was there already.
  if (before.held.greaterThan(0) && move.kind !== 'open_books') return { ...before, held }
  return { ...before, held, nature: blend(empty.nature), hasUnmixed: true }
}

/** What a bucket's glaze was mixed from; of glaze that came in as such, what its latest recipe takes. */
export async function powdersInBucket(
  ledger: Transaction,
  studioId: string,
  of: { glaze: MaterialFacts; history: BucketHistory },
): Promise<MaterialFacts[]> {
  const { glaze, history } = of
  const powders = new Map<string, MaterialFacts>()
  for (const materialId of await mixedFrom(ledger, studioId, history.batchEntryIds)) {
    powders.set(materialId, await findMaterial(ledger, studioId, materialId))
  }
  if (history.hasUnmixed) {
    const [latest] = await recipesOf(ledger, studioId, glaze)
    for (const { ingredient } of latest?.parts ?? []) powders.set(ingredient.materialId, ingredient)
  }
  return [...powders.values()]
}

async function mixedFrom(
  ledger: Transaction,
  studioId: string,
  entryIds: readonly string[],
): Promise<string[]> {
  if (entryIds.length === 0) return []
  const ids = sql.join(
    entryIds.map((entryId) => sql`${entryId}`),
    sql`, `,
  )
  const rows = await ledger.execute<{ materialId: string }>(sql`
    select distinct h.material_id as "materialId"
      from line l
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
     where l.studio_id = ${studioId} and l.entry_id in (${ids})
       and h.place = 'materials' and h.material_id is not null
     order by 1`)
  return rows.map(({ materialId }) => materialId)
}
