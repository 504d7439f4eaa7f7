import { and, asc, eq, sql } from 'drizzle-orm'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { NOTHING_HELD } from '../../shared/quantity.ts'
import { PLACES_INSIDE, type PlaceInside } from '../../shared/place.ts'
import { stockFigures, type StockFigures } from '../../shared/stock-figures.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { quantitiesOf } from '../quantity-columns.ts'
import { inSnapshot, type SumRow } from '../report-reading.ts'
import { bat, body, form, holding, lot, run, vessel } from '../schema.ts'
import { findBody, findStudio } from '../studio.ts'
import { holdingsTrail, trailTo } from '../trail-links.ts'

export interface StockAsked {
  readonly studioId: string
  readonly bodyId?: string | undefined
}

interface StockRow extends StockFigures {
  /** Null where all clays are taken together. */
  readonly bodyId: string | null
  /** Null where all places are taken together. */
  readonly place: PlaceInside | null
  readonly trail: string
}

interface HoldingRow extends StockFigures {
  readonly holdingId: string
  readonly bodyId: string
  readonly bodyName: string
  readonly place: PlaceInside
  readonly label: string
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly grade: string | null
  readonly trail: string
}

interface Report {
  readonly studioId: string
  readonly currency: string
  readonly rows: readonly StockRow[]
  readonly bodies: readonly StockRow[]
  readonly places: readonly StockRow[]
  readonly total: StockRow
  readonly holdings: readonly HoldingRow[]
}

export type StockReport = Written<Report>

/**
 * What is there now: by body and place, by body, by place, all of it, and holding by holding.
 *
 * Units: grams, pieces, money. The dry mass and the cost carry their standard uncertainties; what
 * one source makes unsure in several holdings is added up before it is squared.
 * Refuses: `studio_not_found`, `body_not_found`.
 */
export function stockReport(db: Database, asked: StockAsked): Promise<StockReport> {
  return inSnapshot(db, async (ledger) => {
    const studio = await findStudio(ledger, asked.studioId)
    if (asked.bodyId !== undefined) await findBody(ledger, asked.studioId, asked.bodyId)
    const sums = await sumsOf(ledger, asked)
    const ofGrain = (grain: number) => sums.filter((row) => row.grain === grain).map(stockRow)
    const [total] = ofGrain(3)
    const report: Report = {
      studioId: studio.studioId,
      currency: studio.currency,
      rows: ofGrain(0),
      bodies: ofGrain(1),
      places: ofGrain(2),
      total: total ?? nothing(),
      holdings: await holdingsOf(ledger, asked),
    }
    return written(report)
  })
}

type StockSum = SumRow & {
  bodyId: string | null
  place: string | null
  grain: number
  bags: string
}

/** Grain: one row a body and place, one a body, one a place, and one for all. */
async function sumsOf(ledger: Transaction, { studioId, bodyId }: StockAsked): Promise<StockSum[]> {
  const rows = await ledger.execute<StockSum>(sql`
    select body_id as "bodyId", place as "place", grouping(body_id, place) as "grain",
           coalesce(sum(dry_grams), 0) as "dryGrams", coalesce(sum(material_grams), 0) as "materialGrams",
           coalesce(sum(water_grams), 0) as "waterGrams",
           coalesce(sum(pieces), 0) as "pieces", coalesce(sum(cost), 0) as "cost",
           doubts_summed(array_agg(cost_layers)) as "costLayers",
           doubts_summed(array_agg(dry_doubt)) as "dryDoubt",
           doubts_summed(array_agg(material_doubt)) as "materialDoubt",
           doubts_summed(array_agg(cost_doubt)) as "costDoubt",
           coalesce(sum(pieces) filter (where place = 'store'), 0) as "bags"
      from holding
     where studio_id = ${studioId} and is_inside and body_id is not null and (${isHeld})
       ${bodyId === undefined ? sql`` : sql`and body_id = ${bodyId}`}
     group by grouping sets ((body_id, place), (body_id), (place), ())
     order by body_id nulls last`)
  return [...rows].sort((one, other) =>
    one.bodyId === other.bodyId ? orderOf(one.place) - orderOf(other.place) : 0,
  )
}

const isHeld = sql.raw('dry_grams <> 0 or water_grams <> 0 or pieces <> 0 or cost <> 0')

function orderOf(place: string | null): number {
  return PLACES_INSIDE.indexOf(place as PlaceInside)
}

function stockRow(sum: StockSum): StockRow {
  const { bodyId, place } = sum
  return {
    bodyId,
    place: place as PlaceInside | null,
    ...stockFigures(quantitiesOf(sum), decimal(sum.bags)),
    trail: holdingsTrail({ place, bodyId }),
  }
}

function nothing(): StockRow {
  return {
    bodyId: null,
    place: null,
    ...stockFigures(NOTHING_HELD, ZERO),
    trail: holdingsTrail({}),
  }
}

/** Grain: one row a holding that holds something. */
async function holdingsOf(ledger: Transaction, asked: StockAsked): Promise<HoldingRow[]> {
  const { studioId, bodyId } = asked
  const rows = await ledger
    .select({
      holding,
      bodyName: body.name,
      lotLabel: lot.label,
      batName: bat.name,
      runLabel: run.label,
      formName: form.name,
      vesselName: vessel.name,
    })
    .from(holding)
    .innerJoin(body, and(eq(body.studioId, holding.studioId), eq(body.bodyId, holding.bodyId)))
    .leftJoin(lot, and(eq(lot.studioId, holding.studioId), eq(lot.lotId, holding.lotId)))
    .leftJoin(bat, and(eq(bat.studioId, lot.studioId), eq(bat.batId, lot.batId)))
    .leftJoin(run, and(eq(run.studioId, holding.studioId), eq(run.runId, holding.runId)))
    .leftJoin(form, and(eq(form.studioId, run.studioId), eq(form.formId, run.formId)))
    .leftJoin(
      vessel,
      and(eq(vessel.studioId, holding.studioId), eq(vessel.vesselId, holding.vesselId)),
    )
    .where(
      and(
        eq(holding.studioId, studioId),
        eq(holding.isInside, true),
        sql`(${holding.dryGrams} <> 0 or ${holding.waterGrams} <> 0 or ${holding.pieces} <> 0 or ${holding.cost} <> 0)`,
        ...(bodyId === undefined ? [] : [eq(holding.bodyId, bodyId)]),
      ),
    )
    .orderBy(asc(holding.bodyId), asc(holding.holdingId))
  const found = rows.map(({ holding: held, bodyName, ...names }): HoldingRow => {
    const place = held.place as PlaceInside
    return {
      holdingId: held.holdingId,
      bodyId: held.bodyId ?? '',
      bodyName,
      place,
      label: names.runLabel ?? names.lotLabel ?? names.vesselName ?? bodyName,
      lotId: held.lotId,
      runId: held.runId,
      vesselId: held.vesselId,
      grade: held.grade,
      ...stockFigures(quantitiesOf(held), place === 'store' ? decimal(held.pieces) : ZERO),
      trail: trailTo('holdings', held.holdingId),
    }
  })
  return found.sort((one, other) =>
    one.bodyId === other.bodyId ? orderOf(one.place) - orderOf(other.place) : 0,
  )
}
