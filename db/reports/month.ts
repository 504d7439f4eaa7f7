import { and, asc, eq, sql } from 'drizzle-orm'
import { ZERO, type Decimal } from '../../shared/decimal.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import { monthSheet, type MonthSheet, type UnexplainedPart } from '../../shared/month-report.ts'
import { purchasesShown, type Paid, type PaidShown } from '../../shared/month-purchases.ts'
import type { MonthMovement } from '../../shared/month-world.ts'
import type { Month } from '../../shared/month.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { boundsOf, inSnapshot } from '../report-reading.ts'
import { body, monthClosing } from '../schema.ts'
import { findBody, findStudio, type StudioFacts } from '../studio.ts'
import { entriesTrail } from '../trail-links.ts'
import { deliveriesOf, movementsOf, unexplainedOf, type OfBody } from '../month-movements.ts'
import { readMonthCosts, type MonthCostsRead } from '../month-costs.ts'

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
  /** What the month cost the whole studio; null where one clay was asked for. */
  readonly costs: MonthCostsRead | null
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
    const bodyIds = [...new Set(read.movements.map((movement) => movement.bodyId))]
      .filter((id) => id !== null)
      .sort()
    const report: Report = {
      studioId: studio.studioId,
      studioName: studio.name,
      month: asked.month,
      currency: studio.currency,
      timeZone: studio.timeZone,
      isClosed: await isClosed(ledger, asked),
      ...together,
      costs: bodyId === undefined ? await readMonthCosts(ledger, studio, asked.month) : null,
      bodies: bodyId === undefined ? bodyIds.map((id) => sheetOf(read, id)) : [],
    }
    return written(report)
  })
}

interface MonthRead {
  readonly studio: StudioFacts
  readonly month: Month
  readonly bounds: { readonly from: string; readonly to: string }
  readonly names: ReadonlyMap<string, string>
  readonly movements: readonly OfBody<MonthMovement>[]
  readonly unexplained: readonly OfBody<UnexplainedPart>[]
  readonly deliveries: readonly (Paid & { readonly bodyId: string })[]
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

async function isClosed(ledger: Transaction, { studioId, month }: MonthAsked): Promise<boolean> {
  const [closed] = await ledger
    .select({ month: monthClosing.month })
    .from(monthClosing)
    .where(and(eq(monthClosing.studioId, studioId), sql`${monthClosing.month} >= ${month}`))
    .limit(1)
  return closed !== undefined
}

function sheetOf(read: MonthRead, bodyId: string | null): BodySheet {
  const mine = <T extends { bodyId: string | null }>(all: readonly T[]) =>
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
