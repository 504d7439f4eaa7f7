import { sql } from 'drizzle-orm'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { firingRead, type FiringRead } from '../../shared/firing-told.ts'
import { wearBalance, type WearBalance } from '../../shared/kiln-wear.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import type { Month } from '../../shared/month.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { moneyMoved } from '../money-moved.ts'
import { endOf, inSnapshot, isoText, startOf } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { entriesTrail, trailTo } from '../trail-links.ts'

export interface FiringsAsked {
  readonly studioId: string
  /** Months, both ends included. */
  readonly from?: Month | undefined
  readonly to?: Month | undefined
}

interface FiringRow extends FiringRead {
  readonly entryId: string
  readonly happenedAt: string
  readonly kilnId: string
  readonly kilnName: string
  /** 'bisque', 'glaze' or 'empty'. */
  readonly kind: string
  readonly how: string
  readonly standing: string
  readonly kilowattHours: Decimal | null
  readonly candlingKilowattHours: Decimal | null
  readonly energyCost: Decimal
  readonly candlingCost: Decimal
  readonly wearCost: Decimal
  readonly fullFraction: Decimal | null
  readonly sharedByWords: string | null
  readonly pieces: Decimal
  readonly firedGrams: Decimal
  readonly trail: string
}

interface Report {
  readonly studioId: string
  readonly currency: string
  readonly from: Month | null
  readonly to: Month | null
  readonly firings: readonly FiringRow[]
  /** Fires with nothing in the kiln: on no pot. */
  readonly idle: readonly FiringRow[]
  readonly energyCost: Decimal
  /** Energy and wear of the idle kiln, as the month has it. */
  readonly idleCost: Decimal
  /** Of all time: what firings were charged against what was put into kilns. */
  readonly wear: WearBalance & { readonly trail: string }
}

export type FiringsReport = Written<Report>

/**
 * Each firing with what it took and cost, how full the kiln was, and what its empty room cost; idle kilns apart.
 *
 * Units: kilowatt-hours, grams, money. Refuses: `studio_not_found`.
 */
export function firingsReport(db: Database, asked: FiringsAsked): Promise<FiringsReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, from, to } = asked
    const { currency, timeZone } = await findStudio(ledger, studioId)
    const digits = minorUnitDigits(currency)
    const all = (await firingRows(ledger, asked, timeZone)).map((row) => firingOf(row, digits))
    const firings = all.filter(({ kind }) => kind !== 'empty')
    const idle = all.filter(({ kind }) => kind === 'empty')
    const sum = (rows: readonly FiringRow[], column: 'energyCost' | 'cost') =>
      rows.reduce((total, row) => total.plus(row[column]), ZERO)
    const report: Report = {
      ...{ studioId, currency, from: from ?? null, to: to ?? null, firings, idle },
      energyCost: sum(firings, 'energyCost'),
      idleCost: sum(idle, 'cost'),
      wear: {
        ...(await wearOf(ledger, studioId, digits)),
        trail: entriesTrail({ place: 'wear' }),
      },
    }
    return written(report)
  })
}

type Row = Record<
  'entryId' | 'happenedAt' | 'kilnId' | 'kilnName' | 'kind' | 'how' | 'standing',
  string
> &
  Record<'energyCost' | 'candlingCost' | 'wearCost' | 'pieces' | 'firedGrams', string> &
  Record<
    'kilowattHours' | 'candlingKilowattHours' | 'fullFraction' | 'sharedByWords' | 'volumeLitres',
    string | null
  >

/** Grain: one row a firing that was not taken back. */
function firingRows(
  ledger: Transaction,
  { studioId, from, to }: FiringsAsked,
  timeZone: string,
): Promise<readonly Row[]> {
  return ledger.execute<Row>(sql`
    select f.entry_id as "entryId", ${isoText(sql`e.happened_at`)} as "happenedAt", f.kiln_id as "kilnId",
           k.name as "kilnName", f.kind as "kind", f.how as "how", f.standing as "standing",
           f.kilowatt_hours as "kilowattHours", f.candling_kilowatt_hours as "candlingKilowattHours",
           f.energy_cost as "energyCost", f.candling_cost as "candlingCost", f.wear_cost as "wearCost",
           f.full_fraction as "fullFraction", f.shared_by_words as "sharedByWords",
           k.volume_litres as "volumeLitres",
           (select coalesce(sum(s.pieces), 0) from firing_share s
             where s.studio_id = f.studio_id and s.entry_id = f.entry_id) as "pieces",
           (select coalesce(sum(l.dry_grams + l.material_grams), 0) from line l
              join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
             where l.studio_id = f.studio_id and l.entry_id = f.entry_id
               and h.place = case f.kind when 'bisque' then 'bisque' else 'glazed' end) as "firedGrams"
      from firing f
      join entry e on e.studio_id = f.studio_id and e.entry_id = f.entry_id
      join kiln k on k.studio_id = f.studio_id and k.kiln_id = f.kiln_id
     where f.studio_id = ${studioId}
       and not exists (select from entry t
                        where t.studio_id = e.studio_id and t.reverses_entry_id = e.entry_id)
       ${from === undefined ? sql`` : sql`and e.happened_at >= ${startOf(from, timeZone)}`}
       ${to === undefined ? sql`` : sql`and e.happened_at < ${endOf(to, timeZone)}`}
     order by e.happened_at, f.entry_id`)
}

function firingOf(row: Row, moneyDigits: number): FiringRow {
  const known = (text: string | null) => (text === null ? null : decimal(text))
  const amounts = {
    energyCost: decimal(row.energyCost),
    wearCost: decimal(row.wearCost),
    pieces: decimal(row.pieces),
    firedGrams: decimal(row.firedGrams),
    fullFraction: known(row.fullFraction),
    kilowattHours: known(row.kilowattHours),
  }
  const { entryId, happenedAt, kilnId, kilnName, kind, how, standing, sharedByWords } = row
  return {
    ...{ entryId, happenedAt, kilnId, kilnName, kind, how, standing, sharedByWords, ...amounts },
    candlingKilowattHours: known(row.candlingKilowattHours),
    candlingCost: decimal(row.candlingCost),
    ...firingRead({ ...amounts, volumeLitres: known(row.volumeLitres) }, moneyDigits),
    trail: trailTo('entries', entryId),
  }
}

/** What firings were charged for wear, against what was put into kilns. */
async function wearOf(ledger: Transaction, studioId: string, digits: number): Promise<WearBalance> {
  const moved = await moneyMoved(ledger, studioId, sql`and h.place = 'wear'`)
  const of = (isPutIn: boolean) =>
    moved
      .filter(({ kind }) => (kind === 'use_material') === isPutIn)
      .reduce((sum, { cost }) => sum.plus(cost), ZERO)
  const [row] = await ledger.execute<{ firings: number }>(sql`
    select count(*)::int as "firings" from firing f
     where f.studio_id = ${studioId} and f.kind <> 'empty'
       and not exists (select from entry t
                        where t.studio_id = f.studio_id and t.reverses_entry_id = f.entry_id)`)
  return wearBalance({
    ...{ chargedSoFar: ZERO.minus(of(false)), putIn: of(true), digits },
    firings: row?.firings ?? 0,
  })
}
