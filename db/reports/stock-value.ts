import { eq, sql, type SQL } from 'drizzle-orm'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import type { Grade, PlaceInside } from '../../shared/place.ts'
import type { Quantities } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import {
  finishedValue,
  stockValue,
  type FinishedValue,
  type StockValue,
} from '../../shared/stock-value.ts'
import { wallDay } from '../../shared/studio-clock.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { quantitiesOf } from '../quantity-columns.ts'
import { inSnapshot, SUMS_OF_LINES, type SumRow } from '../report-reading.ts'
import { studio as studioTable } from '../schema.ts'
import { findStudio } from '../studio.ts'
import { entriesTrail } from '../trail-links.ts'

export interface StockValueAsked {
  readonly studioId: string
  /** The end of this day on the studio's wall; this moment where it is not said. */
  readonly on?: string | undefined
  /** Days after this moment's are refused, where it is said. */
  readonly now?: Date | undefined
}

type Traced<Row> = Row & { readonly trail: string }

interface Finished extends FinishedValue {
  readonly formId: string
  readonly formName: string
  readonly grade: Grade
  readonly pieces: Decimal
  readonly cost: Decimal
  readonly trail: string
}

interface Report {
  readonly studioId: string
  readonly currency: string
  readonly on: string | null
  readonly groups: StockValue['groups']
  readonly places: readonly Traced<StockValue['places'][number]>[]
  readonly total: Traced<StockValue['total']>
  /** Finished pots, form by form and grade by grade, beside what they sell at. */
  readonly finished: readonly Finished[]
  readonly words: string
}

export type StockValueReport = Written<Report>

/**
 * What the stock of a studio had cost at the end of a day, by layer, for whoever keeps its accounts.
 *
 * Units: grams, pieces, money; sums to the ledger's stock at that moment to the last unit.
 * Refuses: `studio_not_found`, `date_must_not_be_in_the_future`.
 */
export function stockValueReport(db: Database, asked: StockValueAsked): Promise<StockValueReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, on } = asked
    const { currency, timeZone } = await findStudio(ledger, studioId)
    refuseFuture(asked, timeZone)
    const before =
      on === undefined
        ? sql``
        : sql`and e.happened_at < ((${on}::date + 1)::timestamp at time zone ${timeZone})`
    const rows = await stockRows(ledger, studioId, before)
    const all = rows.map(({ place, formId, formName, grade, price, ...sums }): Held => ({
      ...{ place, formId, formName, grade, price },
      ...quantitiesOf(sums),
    }))
    const value = stockValue(all, minorUnitDigits(currency))
    const [chosen] = await ledger
      .select({ fraction: studioTable.secondsPriceFraction })
      .from(studioTable)
      .where(eq(studioTable.studioId, studioId))
    const report: Report = {
      ...{ studioId, currency, on: on ?? null, groups: value.groups },
      places: value.places.map((one) => ({ ...one, trail: entriesTrail({ place: one.place }) })),
      total: { ...value.total, trail: entriesTrail({}) },
      finished: finishedRows(all, decimal(chosen?.fraction ?? '1')),
      words:
        'Valued at what it cost: clay, glaze, firing energy, kiln wear, packaging, and kiln furniture that is not yet in a kiln. Labour is not in it. Scrap and clay on plaster count as raw, for they are used again.',
    }
    return written(report)
  })
}

function refuseFuture({ on, now }: StockValueAsked, timeZone: string): void {
  if (on === undefined || now === undefined) return
  const today = wallDay(now, timeZone)
  if (on <= today) return
  throw new Refusal(
    'date_must_not_be_in_the_future',
    `It is ${today} in this studio; nobody knows yet what stock will have cost on ${on}.`,
    { pointer: '/on' },
  )
}

interface StockName {
  place: PlaceInside
  formId: string | null
  formName: string | null
  grade: Grade | null
  price: string | null
}
type StockRow = SumRow & StockName

/** Grain: one row a place, form and grade: what all entries up to a moment left there. */
async function stockRows(
  ledger: Transaction,
  studioId: string,
  before: SQL,
): Promise<readonly StockRow[]> {
  return ledger.execute<StockRow>(sql`
    select h.place as "place", f.form_id as "formId", f.name as "formName", h.grade as "grade",
           f.price as "price", ${SUMS_OF_LINES}
      from line l
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
      left join run n on n.studio_id = h.studio_id and n.run_id = h.run_id
      left join form f on f.studio_id = n.studio_id and f.form_id = n.form_id
     where l.studio_id = ${studioId} and h.is_inside ${before}
     group by 1, 2, 3, 4, 5
     order by 3, 4`)
}

type Held = StockName & Quantities

function finishedRows(all: readonly Held[], secondsFraction: Decimal): Finished[] {
  return all.flatMap((held): Finished[] => {
    const { place, formId, formName, grade, pieces, cost } = held
    if (place !== 'finished' || formId === null || grade === null || pieces.isZero()) return []
    const price = held.price === null ? null : decimal(held.price)
    return [
      {
        ...{ formId, formName: formName ?? formId, grade, pieces, cost },
        ...finishedValue(held, { price, grade, secondsFraction }),
        trail: entriesTrail({ formId, place }),
      },
    ]
  })
}
