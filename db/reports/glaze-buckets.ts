import { asc, eq, sql } from 'drizzle-orm'
import { decimal, toLedgerScale, type Decimal } from '../../shared/decimal.ts'
import { standardUncertaintyOfDoubt } from '../../shared/doubt.ts'
import {
  piecesCovered,
  SHALLOW_BUCKET_WORDS,
  USUAL_CARRIED_OFF_FRACTION,
} from '../../shared/glaze-batch.ts'
import { costPerDryGram } from '../../shared/glaze-recipe.ts'
import { howSure, type HowSure } from '../../shared/how-sure.ts'
import {
  slurryDensityGramsPerMillilitre,
  waterDensityGramsPerMillilitre,
} from '../../shared/slurry.ts'
import { millilitresFrom, type Volume } from '../../shared/units.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { glazeOfForm } from '../glaze-learned.ts'
import { bucketHistory } from '../glaze-in-bucket.ts'
import { findMaterial } from '../materials.ts'
import { quantitiesOf } from '../quantity-columns.ts'
import { inSnapshot } from '../report-reading.ts'
import { form, holding, vessel } from '../schema.ts'
import { trailTo } from '../trail-links.ts'
import { perGram } from '../shelf-of-powders.ts'

interface CoveredForm {
  readonly formId: string
  readonly formName: string
  readonly pieces: Decimal
  readonly piecesFrom: Decimal
  readonly piecesTo: Decimal
  readonly dryGramsPerPiece: Decimal
  readonly standardUncertaintyGramsPerPiece: Decimal
  readonly words: string
}

interface Bucket {
  readonly holdingId: string
  readonly vesselId: string
  readonly vesselName: string
  readonly materialId: string
  readonly materialName: string
  readonly dryGrams: Decimal
  readonly sure: HowSure
  readonly waterGrams: Decimal
  readonly slurryGrams: Decimal
  readonly grossGrams: Decimal
  readonly gramsPerMillilitreByBooks: Decimal
  readonly lastRead: {
    readonly gramsPerMillilitre: Decimal
    readonly at: string
    readonly entryId: string
  } | null
  readonly cost: Decimal
  readonly costUncertainty: Decimal
  readonly costPerDryGram: Decimal | null
  readonly lossOnIgnitionFraction: Decimal
  readonly covers: readonly CoveredForm[]
  readonly words: string
  readonly trail: string
}

export type GlazeBuckets = Written<{ readonly studioId: string; readonly items: readonly Bucket[] }>

/**
 * Each bucket of glaze: what is in it, how sure that is, what it costs, and how many more pots of each
 * form it covers.
 *
 * Units: grams, g/mL, money at ledger scale; whole pieces. Refuses: `studio_not_found`.
 */
export function glazeBuckets(db: Database, studioId: string): Promise<GlazeBuckets> {
  return inSnapshot(db, async (ledger) => {
    const rows = await bucketsOf(ledger, studioId)
    const items = []
    for (const row of rows) items.push(await bucketOf(ledger, row))
    return written({ studioId, items })
  })
}

type BucketRow = typeof holding.$inferSelect & { vesselName: string; tareGrams: string }

/** Grain: one bucket that holds glaze. */
async function bucketsOf(ledger: Transaction, studioId: string): Promise<BucketRow[]> {
  const rows = await ledger
    .select()
    .from(holding)
    .innerJoin(
      vessel,
      sql`${vessel.studioId} = ${holding.studioId} and ${vessel.vesselId} = ${holding.vesselId}`,
    )
    .where(
      sql`${holding.studioId} = ${studioId} and ${holding.place} = 'glaze_bucket' and ${holding.materialGrams} > 0`,
    )
    .orderBy(asc(vessel.name))
  return rows.map((row) => ({
    ...row.holding,
    vesselName: row.vessel.name,
    tareGrams: row.vessel.tareGrams,
  }))
}

async function bucketOf(ledger: Transaction, row: BucketRow): Promise<Bucket> {
  const { studioId, holdingId } = row
  const [materialId, vesselId] = [row.materialId ?? '', row.vesselId ?? '']
  const glaze = await findMaterial(ledger, studioId, materialId)
  const { nature } = await bucketHistory(ledger, studioId, { glaze, vesselId })
  const held = quantitiesOf(row)
  const { materialGrams: dryGrams, waterGrams } = held
  const sure = howSure({ amount: dryGrams, doubt: held.materialDoubt })
  const slurryGrams = dryGrams.plus(waterGrams)
  const byBooks = slurryDensityGramsPerMillilitre({
    waterContentWetBasis: waterGrams.dividedBy(slurryGrams),
    waterGramsPerMillilitre: waterDensityGramsPerMillilitre(decimal(ROOM_CELSIUS)),
    solidsGramsPerMillilitre: nature.grainGramsPerMillilitre,
  })
  return {
    ...{ holdingId, vesselId, vesselName: row.vesselName, materialId, materialName: glaze.name },
    ...{ dryGrams, sure, waterGrams, slurryGrams },
    grossGrams: slurryGrams.plus(row.tareGrams),
    gramsPerMillilitreByBooks: toLedgerScale(byBooks),
    lastRead: await lastRead(ledger, { studioId, vesselId }),
    cost: held.cost,
    costUncertainty: standardUncertaintyOfDoubt(held.costDoubt),
    costPerDryGram: perGram(costPerDryGram({ cost: held.cost, dryGrams })),
    lossOnIgnitionFraction: toLedgerScale(nature.lossOnIgnitionFraction),
    covers: await coversOf(ledger, row, { dry: { amount: dryGrams, doubt: held.materialDoubt } }),
    words: SHALLOW_BUCKET_WORDS,
    trail: trailTo('holdings', holdingId),
  }
}

const ROOM_CELSIUS = 20

interface ReadRow extends Record<string, unknown> {
  readonly entryId: string
  readonly at: Date
  readonly volume: Volume
  readonly netGrams: string
}

/** Grain: the latest reading of a bucket's density that stands, if there is one. */
async function lastRead(
  ledger: Transaction,
  of: { studioId: string; vesselId: string },
): Promise<Bucket['lastRead']> {
  const [row] = await ledger.execute<ReadRow>(sql`
    select e.entry_id as "entryId", e.happened_at as "at", w.net_grams as "netGrams",
           coalesce(e.said -> 'density', e.said -> 'bucket' -> 'after' -> 'density') -> 'volume' as "volume"
      from entry e
      join weighing w on w.studio_id = e.studio_id and w.entry_id = e.entry_id
                     and w.purpose in ('density/slurry', 'bucket/after/density/slurry')
     where e.studio_id = ${of.studioId} and e.kind in ('read_glaze', 'glaze')
       and e.said ->> 'vesselId' = ${of.vesselId}
       and not exists (select from entry r where r.studio_id = e.studio_id
                                             and r.reverses_entry_id = e.entry_id)
     order by e.happened_at desc, e.entry_id desc
     limit 1`)
  if (row === undefined) return null
  const density = decimal(row.netGrams).dividedBy(millilitresFrom(row.volume))
  return {
    gramsPerMillilitre: toLedgerScale(density),
    at: new Date(row.at).toISOString(),
    entryId: row.entryId,
  }
}

/** Grain: one row a form of which it is known how much glaze a piece takes. */
async function coversOf(
  ledger: Transaction,
  row: BucketRow,
  bucket: { dry: Parameters<typeof piecesCovered>[0] },
): Promise<CoveredForm[]> {
  const { studioId } = row
  const forms = await ledger
    .select({ formId: form.formId, name: form.name })
    .from(form)
    .where(eq(form.studioId, studioId))
    .orderBy(asc(form.name))
  const covers: CoveredForm[] = []
  for (const { formId, name } of forms) {
    const glazeId = row.materialId ?? ''
    const each = await glazeOfForm(ledger, studioId, { formId, glazeId })
    if (each?.dryGramsPerPiece.greaterThan(0) !== true) continue
    const { pieces, from, to } = piecesCovered(bucket.dry, {
      dryGramsPerPiece: each.dryGramsPerPiece,
      standardUncertaintyGramsPerPiece: each.standardUncertaintyGrams,
      carriedOffFraction: USUAL_CARRIED_OFF_FRACTION,
    })
    covers.push({
      ...{ formId, formName: name, pieces, piecesFrom: from, piecesTo: to },
      dryGramsPerPiece: each.dryGramsPerPiece,
      standardUncertaintyGramsPerPiece: each.standardUncertaintyGrams,
      words: each.words,
    })
  }
  return covers
}
