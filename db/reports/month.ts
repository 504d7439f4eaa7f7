import { and, asc, eq, sql } from 'drizzle-orm'
import { quantitiesOf } from '../quantity-columns.ts'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import type { Place, PlaceInside } from '../../shared/place.ts'
import { monthSheet, type MonthSheet, type UnexplainedPart } from '../../shared/month-report.ts'
import { purchasesShown, type Paid, type PaidShown } from '../../shared/month-purchases.ts'
import type { ActKind, MonthMovement } from '../../shared/month-world.ts'
import type { Month } from '../../shared/month.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import {
  boundsOf,
  COUNTED_KIND,
  endOf,
  inSnapshot,
  LINES_IN_CONTEXT,
  startOf,
  SUMS_OF_LINES,
  type SumRow,
  MOVES_SOMETHING,
} from '../report-reading.ts'
import { body, monthClosing } from '../schema.ts'
import { findBody, findStudio, type StudioFacts } from '../studio.ts'
import { entriesTrail } from '../trail-links.ts'

export interface MonthAsked {
  readonly studioId: string
  readonly month: Month
  readonly bodyId?: string | undefined
}

/**
 * What was paid in the month for clay that was delivered; powders that were wedged in are not in it.
 * Purchases are not cost: cost is opening + bought - closing.
 */
export interface Purchases {
  readonly goods: Decimal
  readonly freight: Decimal
  readonly total: Decimal
  readonly bags: Decimal
  readonly dryGrams: Decimal
  /** Adding up as printed, and over the clays to all of them. */
  readonly shown: PaidShown
}

type Traced<Row> = Row & { readonly trail: string }

/** The sheet of one clay, or of all together where no body is named. */
export interface BodySheet {
  readonly bodyId: string | null
  readonly bodyName: string | null
  readonly flows: readonly Traced<MonthSheet['flows'][number]>[]
  readonly world: readonly Traced<MonthSheet['world'][number]>[]
  readonly summary: readonly Traced<MonthSheet['summary'][number]>[]
  readonly purchases: Traced<Purchases>
  /** What is unexplained, in a sentence, with how sure that is. */
  readonly unexplainedWords: string
}

interface Report extends BodySheet {
  readonly studioId: string
  readonly studioName: string
  readonly month: Month
  readonly currency: string
  readonly timeZone: string
  readonly isClosed: boolean
  readonly bodies: readonly BodySheet[]
}

export type MonthReport = Written<Report>

/**
 * A month of a studio's books from opening to closing: of one clay, or of all together and each.
 *
 * Units: grams, pieces, money, exact; beside them kilograms and money as printed.
 * Refuses: `studio_not_found`, `body_not_found`.
 */
export function monthReport(db: Database, asked: MonthAsked): Promise<MonthReport> {
  return inSnapshot(db, async (ledger) => {
    const studio = await findStudio(ledger, asked.studioId)
    if (asked.bodyId !== undefined) await findBody(ledger, asked.studioId, asked.bodyId)
    const read = await readMonth(ledger, studio, asked)
    const { bodyId } = asked
    const together = sheetOf(read, bodyId ?? null)
    const bodyIds = [...new Set(read.movements.map((movement) => movement.bodyId))].sort()
    const report: Report = {
      studioId: studio.studioId,
      studioName: studio.name,
      month: asked.month,
      currency: studio.currency,
      timeZone: studio.timeZone,
      isClosed: await isClosed(ledger, asked),
      ...together,
      bodies: bodyId === undefined ? bodyIds.map((id) => sheetOf(read, id)) : [],
    }
    return written(report)
  })
}

type OfBody<T> = T & { readonly bodyId: string }

interface MonthRead {
  readonly studio: StudioFacts
  readonly month: Month
  readonly bounds: { readonly from: string; readonly to: string }
  readonly names: ReadonlyMap<string, string>
  readonly movements: readonly OfBody<MonthMovement>[]
  readonly unexplained: readonly OfBody<UnexplainedPart>[]
  readonly deliveries: readonly OfBody<Paid>[]
}

async function readMonth(
  ledger: Transaction,
  studio: StudioFacts,
  asked: MonthAsked,
): Promise<MonthRead> {
  const names = await ledger
    .select({ bodyId: body.bodyId, name: body.name })
    .from(body)
    .where(eq(body.studioId, studio.studioId))
    .orderBy(asc(body.bodyId))
  return {
    studio,
    month: asked.month,
    bounds: await boundsOf(ledger, asked.month, studio.timeZone),
    names: new Map(names.map((row) => [row.bodyId, row.name])),
    movements: await movementsOf(ledger, studio, asked.month),
    unexplained: await unexplainedOf(ledger, studio, asked.month),
    deliveries: await deliveriesOf(ledger, studio, asked.month),
  }
}

type MovementRow = SumRow & { bodyId: string; place: string; kind: string | null }

/** Grain: one row a body, place and kind of entry in the month; one a body and place for all before. */
async function movementsOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  month: Month,
): Promise<OfBody<MonthMovement>[]> {
  const rows = await ledger.execute<MovementRow>(sql`
    select h.body_id as "bodyId", h.place as "place",
           case when e.happened_at >= ${startOf(month, timeZone)} then ${COUNTED_KIND} end as "kind",
           ${SUMS_OF_LINES}
      from ${LINES_IN_CONTEXT}
     where l.studio_id = ${studioId} and e.happened_at < ${endOf(month, timeZone)}
     group by 1, 2, 3`)
  return rows.map((row) => ({
    bodyId: row.bodyId,
    place: row.place as Place,
    kind: (row.kind ?? undefined) as ActKind | undefined,
    ...quantitiesOf(row),
  }))
}

/**
 * Grain: one row a body, kind of entry and place that gained from `unexplained` or lost to it.
 *
 * An act sets one place right at a time. Where an entry touches others besides, its kind tells which.
 */
async function unexplainedOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  month: Month,
): Promise<OfBody<UnexplainedPart>[]> {
  const rows = await ledger.execute<SumRow & { bodyId: string; place: string; kind: string }>(sql`
    select "bodyId", "kind",
           case "kind" when 'weigh_scrap' then 'scrap' when 'read_slurry' then 'basin'
                       when 'lose' then 'greenware' else coalesce(touched, 'bench') end as "place",
           sum(-dry) as "dryGrams", sum(-material) as "materialGrams", sum(-water) as "waterGrams",
           sum(-pcs) as "pieces", sum(-money) as "cost",
           doubts_negated(doubts_summed(array_agg(cost_layers))) as "costLayers",
           doubts_negated(doubts_summed(array_agg(dry_doubt))) as "dryDoubt",
           doubts_negated(doubts_summed(array_agg(material_doubt))) as "materialDoubt",
           doubts_negated(doubts_summed(array_agg(cost_doubt))) as "costDoubt"
      from (select h.body_id as "bodyId", ${COUNTED_KIND} as "kind", l.dry_grams as dry,
                   l.water_grams as water, l.pieces as pcs, l.cost as money,
                   l.material_grams as material, l.cost_layers, l.material_doubt,
                   l.dry_doubt, l.cost_doubt,
                   (select min(i.place) from line o
                      join holding i on i.studio_id = o.studio_id and i.holding_id = o.holding_id
                     where o.studio_id = l.studio_id and o.entry_id = l.entry_id
                       and i.is_inside and i.body_id = h.body_id) as touched
              from ${LINES_IN_CONTEXT}
             where l.studio_id = ${studioId} and h.place = 'unexplained'
               and e.happened_at >= ${startOf(month, timeZone)}
               and e.happened_at < ${endOf(month, timeZone)}
               and ${MOVES_SOMETHING}) as found
     group by 1, 2, 3`)
  return rows.map((row) => ({
    bodyId: row.bodyId,
    place: row.place as PlaceInside,
    kind: row.kind as ActKind,
    ...quantitiesOf(row),
  }))
}

/** Grain: one row a body: the prices of what was delivered in the month, less what was taken back. */
async function deliveriesOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  month: Month,
) {
  const rows = await ledger.execute<{ bodyId: string; goods: string; freight: string }>(sql`
    select d.body_id as "bodyId",
           sum(case when e.reverses_entry_id is null then d.goods_price else -d.goods_price end) as "goods",
           sum(case when e.reverses_entry_id is null then d.freight else -d.freight end) as "freight"
      from lot d
      join entry e on e.studio_id = d.studio_id
                  and d.made_by_entry_id in (e.entry_id, e.reverses_entry_id)
     where d.studio_id = ${studioId} and d.kind = 'delivery'
       and e.happened_at >= ${startOf(month, timeZone)} and e.happened_at < ${endOf(month, timeZone)}
     group by 1
     order by 1`)
  return rows.map((row) => ({
    bodyId: row.bodyId,
    goods: decimal(row.goods),
    freight: decimal(row.freight),
  }))
}

async function isClosed(ledger: Transaction, { studioId, month }: MonthAsked): Promise<boolean> {
  const [closed] = await ledger
    .select({ month: monthClosing.month })
    .from(monthClosing)
    .where(and(eq(monthClosing.studioId, studioId), sql`${monthClosing.month} >= ${month}`))
    .limit(1)
  return closed !== undefined
}

function sheetOf(read: MonthRead, bodyId: string | null): BodySheet {
  const mine = <T extends { bodyId: string }>(all: readonly T[]) =>
    bodyId === null ? all : all.filter((one) => one.bodyId === bodyId)
  const sheet = monthSheet({
    movements: mine(read.movements),
    unexplained: mine(read.unexplained),
    moneyDigits: minorUnitDigits(read.studio.currency),
  })
  const { month, bounds } = read
  const trailOf = (row: string, filter: Record<string, string>) =>
    row === 'opening' || row === 'closing'
      ? entriesTrail({ to: row === 'opening' ? bounds.from : bounds.to, bodyId })
      : entriesTrail({ month, ...filter, bodyId })
  return {
    bodyId,
    bodyName: bodyId === null ? null : (read.names.get(bodyId) ?? bodyId),
    flows: sheet.flows.map((row) => ({
      ...row,
      trail: trailOf(row.row, row.row === 'unexplained' ? { place: row.row } : { flow: row.row }),
    })),
    world: sheet.world.map((row) => ({ ...row, trail: trailOf(row.row, { world: row.row }) })),
    summary: sheet.summary.map((row) => ({
      ...row,
      trail: trailOf(row.row, row.isWorld ? { world: row.row } : { flow: flowsOf(row.row) }),
    })),
    unexplainedWords: sheet.unexplainedWords,
    purchases: {
      ...purchasesOf(sheet, read, bodyId),
      trail: trailOf('bought', { flow: 'bought' }),
    },
  }
}

/** A move within the studio may be the work of two kinds of entry. */
function flowsOf(row: string): string {
  if (row === 'reclaimed') return 'reclaimed,wedged'
  return row === 'lost_back' ? 'lost' : row
}

function purchasesOf(sheet: MonthSheet, read: MonthRead, bodyId: string | null): Purchases {
  const { deliveries, studio } = read
  const mine = deliveries.filter((one) => bodyId === null || one.bodyId === bodyId)
  const sum = (name: 'goods' | 'freight') =>
    mine.reduce((total, one) => total.plus(one[name]), ZERO)
  const bought = sheet.flows.find(({ row }) => row === 'bought')?.total
  const digits = minorUnitDigits(studio.currency)
  const { together, each } = purchasesShown(deliveries, digits)
  const ofBody = each[deliveries.findIndex((one) => one.bodyId === bodyId)]
  const nothing = purchasesShown([], digits).together
  return {
    goods: sum('goods'),
    freight: sum('freight'),
    total: sum('goods').plus(sum('freight')),
    bags: bought?.bags ?? ZERO,
    dryGrams: bought?.dryGrams ?? ZERO,
    shown: bodyId === null ? together : (ofBody ?? nothing),
  }
}
