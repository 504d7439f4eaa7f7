import { sql } from 'drizzle-orm'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { FLOW_OF_KIND } from '../../shared/entry-kind.ts'
import type { EntryMoved } from '../../shared/entry-passages.ts'
import {
  monthStream,
  nameOf,
  type MonthStream,
  type StreamBand,
  type StreamFacts,
} from '../../shared/month-stream.ts'
import type { ActKind } from '../../shared/month-world.ts'
import type { Month } from '../../shared/month.ts'
import { isInside, type Place, type PlaceInside } from '../../shared/place.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import {
  boundsOf,
  COUNTED_KIND,
  endOf,
  inSnapshot,
  LINES_IN_CONTEXT,
  startOf,
} from '../report-reading.ts'
import { findBody, findStudio, type StudioFacts } from '../studio.ts'
import { entriesTrail } from '../trail-links.ts'

export interface StreamAsked {
  readonly studioId: string
  readonly month: Month
  readonly bodyId?: string | undefined
}

interface BandTraced {
  /** A place of the studio's own, or a row of the world. */
  readonly from: string
  readonly to: string
  readonly isFromOutside: boolean
  readonly isToOutside: boolean
  readonly dryGrams: Decimal
  readonly kinds: readonly string[]
  readonly trail: string
}

interface StockTraced {
  readonly place: PlaceInside
  readonly openingDryGrams: Decimal
  readonly closingDryGrams: Decimal
  readonly openingTrail: string
  readonly closingTrail: string
}

interface Report {
  readonly studioId: string
  readonly month: Month
  readonly bodyId: string | null
  readonly stocks: readonly StockTraced[]
  readonly bands: readonly BandTraced[]
}

export type MonthStreamReport = Written<Report>

/**
 * The clay of a month from place to place, of one clay or of all together: what its drawing is made of.
 *
 * Units: grams of dry clay, exact. Refuses: `studio_not_found`, `body_not_found`.
 */
export function monthStreamReport(db: Database, asked: StreamAsked): Promise<MonthStreamReport> {
  return inSnapshot(db, async (ledger) => {
    const studio = await findStudio(ledger, asked.studioId)
    if (asked.bodyId !== undefined) await findBody(ledger, asked.studioId, asked.bodyId)
    const { from, to } = await boundsOf(ledger, asked.month, studio.timeZone)
    const stream: MonthStream = monthStream({
      opening: await openingOf(ledger, studio, asked),
      entries: await entriesOf(ledger, studio, asked),
    })
    const { studioId, month, bodyId } = asked
    const report: Report = {
      ...{ studioId, month, bodyId: bodyId ?? null },
      stocks: stream.stocks.map((stock) => ({
        ...stock,
        openingTrail: entriesTrail({ to: from, place: stock.place, bodyId }),
        closingTrail: entriesTrail({ to, place: stock.place, bodyId }),
      })),
      bands: stream.bands.map((band) => traced(band, asked)),
    }
    return written(report)
  })
}

function traced(band: StreamBand, { month, bodyId }: StreamAsked): BandTraced {
  const { from, to, dryGrams, kinds } = band
  const flow = kinds.map((kind) => FLOW_OF_KIND[kind]).join(',')
  const place = to.place ?? from.place
  return {
    from: nameOf(from),
    to: nameOf(to),
    isFromOutside: from.place === undefined,
    isToOutside: to.place === undefined,
    dryGrams,
    kinds,
    trail: entriesTrail({ month, flow, place, bodyId }),
  }
}

/** Grain: one row a place inside: what all entries before the month left there. */
async function openingOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  { month, bodyId }: StreamAsked,
): Promise<StreamFacts['opening']> {
  const rows = await ledger.execute<{ place: string; dryGrams: string }>(sql`
    select h.place as "place", sum(l.dry_grams) as "dryGrams"
      from ${LINES_IN_CONTEXT}
     where l.studio_id = ${studioId} and h.is_inside and e.happened_at < ${startOf(month, timeZone)}
       ${bodyId === undefined ? sql`` : sql`and h.body_id = ${bodyId}`}
     group by 1`)
  return new Map(
    rows.flatMap(({ place, dryGrams }): [PlaceInside, Decimal][] => {
      const at = place as Place
      return isInside(at) ? [[at, decimal(dryGrams)]] : []
    }),
  )
}

/** Grain: one row an entry of the month and place that it touched. */
async function entriesOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  { month, bodyId }: StreamAsked,
): Promise<EntryMoved[]> {
  const rows = await ledger.execute<{
    entryId: string
    kind: string
    place: string
    dryGrams: string
  }>(sql`
    select e.entry_id as "entryId", ${COUNTED_KIND} as "kind", h.place as "place",
           sum(l.dry_grams) as "dryGrams"
      from ${LINES_IN_CONTEXT}
     where l.studio_id = ${studioId} and e.happened_at >= ${startOf(month, timeZone)}
       and e.happened_at < ${endOf(month, timeZone)}
       ${bodyId === undefined ? sql`` : sql`and h.body_id = ${bodyId}`}
     group by 1, 2, 3
     order by 1, 3`)
  const entries = new Map<string, { kind: ActKind; gained: Map<Place, Decimal> }>()
  for (const { entryId, kind, place, dryGrams } of rows) {
    const entry = entries.get(entryId) ?? { kind: kind as ActKind, gained: new Map() }
    const so = entry.gained.get(place as Place) ?? ZERO
    entry.gained.set(place as Place, so.plus(decimal(dryGrams)))
    entries.set(entryId, entry)
  }
  return [...entries.values()]
}
