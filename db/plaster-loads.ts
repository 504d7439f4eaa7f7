import { and, eq, sql } from 'drizzle-orm'
import { decimal, ZERO, type Decimal } from '../shared/decimal.ts'
import type { LoadHistory, PlasterParting, PlasterReading } from '../shared/plaster-history.ts'
import { plasterTarget } from '../shared/plaster-target.ts'
import { dryUncertaintyGramsOf } from '../shared/quantity.ts'
import type { Transaction } from './connection.ts'
import { foundHolding } from './holdings.ts'
import { isoText } from './report-reading.ts'
import { holding } from './schema.ts'

/** A load with its names, beside what the books know of its drying. */
export interface PlasterLoad {
  readonly lotId: string
  readonly label: string
  readonly bodyId: string
  readonly bodyName: string
  readonly batName: string
  /** How it came onto the bat. */
  readonly laidBy: 'pour' | 'move_load' | 'open_books'
  readonly laidByEntryId: string
  /** How it left the bat, by the kind of entry; absent where it lies there. */
  readonly endedBy: string | undefined
  readonly history: LoadHistory
}

type LoadRow = {
  lotId: string
  label: string
  bodyId: string
  bodyName: string
  ready: string | null
  tooDry: string | null
  batId: string
  batName: string
  batDryGrams: string | null
  thickness: string | null
  entryId: string
  kind: PlasterLoad['laidBy']
  laidAt: string
}

const HAPPENED_AT = isoText(sql.raw('e.happened_at'))

/** Entries that stand: neither reversed nor reversals. */
const STANDS = sql.raw(
  `e.reverses_entry_id is null
   and not exists (select from entry r where r.studio_id = e.studio_id and r.reverses_entry_id = e.entry_id)`,
)

/**
 * Every load that was ever laid on plaster and not taken back, with its weigh-ins, the oldest first.
 *
 * Grain: one row a load. What was reversed is left out, and so is a load whose pour was.
 * Units: grams.
 */
export async function readPlasterLoads(
  ledger: Transaction,
  studioId: string,
): Promise<PlasterLoad[]> {
  const rows = await ledger.execute<LoadRow>(sql`
    select l.lot_id as "lotId", l.label, l.body_id as "bodyId", b.name as "bodyName",
           b.ready_water_content_wet_basis as "ready", b.too_dry_water_content_wet_basis as "tooDry",
           l.bat_id as "batId", t.name as "batName", t.dry_grams as "batDryGrams",
           l.thickness_millimetres as "thickness", e.entry_id as "entryId", e.kind,
           ${HAPPENED_AT} as "laidAt"
      from lot l
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.made_by_entry_id
      join body b on b.studio_id = l.studio_id and b.body_id = l.body_id
      join bat t on t.studio_id = l.studio_id and t.bat_id = l.bat_id
     where l.studio_id = ${studioId} and l.kind = 'load' and ${STANDS}
     order by e.happened_at, e.entry_id, l.lot_id`)
  const all = await readReadings(ledger, studioId)
  const laidBy = new Map(all.flatMap((one) => (isOfSlab(one) ? [[one.entryId, one] as const] : [])))
  const readings = groupedByLot(all)
  const moves = groupedByLot(await readMoves(ledger, studioId))
  const held = await readHeld(ledger, studioId)
  return rows.flatMap((row) => {
    const own = readings.get(row.lotId) ?? []
    const moved = moves.get(row.lotId) ?? []
    if (moved.length === 0) return []
    // A load that was moved here was weighed as the load that it was before.
    const laid =
      row.kind === 'move_load'
        ? laidBy.get(row.entryId)
        : own.find((one) => one.entryId === row.entryId && one.isOfLoad)
    return [loadFrom(row, { readings: own, moves: moved, held: held.get(row.lotId), laid })]
  })
}

function groupedByLot<Row extends { lotId: string }>(rows: readonly Row[]): Map<string, Row[]> {
  const byLot = new Map<string, Row[]>()
  for (const row of rows) {
    const known = byLot.get(row.lotId)
    if (known === undefined) byLot.set(row.lotId, [row])
    else known.push(row)
  }
  return byLot
}

type ReadingRow = {
  lotId: string
  entryId: string
  at: string
  entryKind: string
  kind: string
  purpose: string
  netGrams: string
  standardUncertaintyGrams: string
  /** True where the load's water or dry clay was estimated from it. */
  isOfLoad: boolean
  dryUncertaintyGrams: string | null
  turned: boolean
}

/**
 * Grain: one row a reading of a load and load that it speaks of.
 *
 * A reading says by its estimate which load it is of, where it has one; the others, of which nothing was
 * estimated, say it by the load that their act names.
 */
function readReadings(ledger: Transaction, studioId: string) {
  return ledger.execute<ReadingRow>(sql`
    select coalesce(h.lot_id, e.said->>'lotId') as "lotId", e.entry_id as "entryId",
           ${HAPPENED_AT} as "at", e.kind as "entryKind", w.kind, w.purpose,
           w.net_grams as "netGrams", w.standard_uncertainty_grams as "standardUncertaintyGrams",
           h.lot_id is not null as "isOfLoad",
           s.standard_uncertainty_grams as "dryUncertaintyGrams",
           coalesce((e.said->>'turned')::boolean, false) as "turned"
      from entry e
      join weighing w on w.studio_id = e.studio_id and w.entry_id = e.entry_id
      left join estimate s on s.studio_id = w.studio_id and s.entry_id = w.entry_id
                          and s.weighing_no = w.weighing_no
      left join holding h on h.studio_id = s.studio_id and h.holding_id = s.holding_id
                         and h.place = 'plaster'
     where e.studio_id = ${studioId}
       and e.kind in ('open_books', 'pour', 'weigh_on_plaster', 'move_load', 'lift') and ${STANDS}
     order by e.happened_at, e.recorded_at, e.entry_id, w.weighing_no`)
}

type MoveRow = {
  lotId: string
  entryId: string
  kind: string
  at: string
  dryGrams: string
  wastedGrams: string
}

/** Grain: one row an entry that moved dry clay into a load or out of it. */
function readMoves(ledger: Transaction, studioId: string) {
  return ledger.execute<MoveRow>(sql`
    select h.lot_id as "lotId", e.entry_id as "entryId", e.kind, ${HAPPENED_AT} as "at", l.dry_grams as "dryGrams",
           coalesce((select sum(w.dry_grams) from line w
                       join holding o on o.studio_id = w.studio_id and o.holding_id = w.holding_id
                      where w.studio_id = l.studio_id and w.entry_id = l.entry_id
                        and o.place = 'waste'), 0) as "wastedGrams"
      from holding h
      join line l on l.studio_id = h.studio_id and l.holding_id = h.holding_id
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
     where h.studio_id = ${studioId} and h.place = 'plaster' and l.dry_grams <> 0 and ${STANDS}
     order by e.happened_at, e.recorded_at, e.entry_id`)
}

interface HeldNow {
  readonly dryGrams: Decimal
  readonly dryUncertaintyGrams: Decimal
}

/** By lot: what is on plaster now, and how unsure its dry clay is. */
async function readHeld(ledger: Transaction, studioId: string): Promise<Map<string, HeldNow>> {
  const rows = await ledger
    .select()
    .from(holding)
    .where(and(eq(holding.studioId, studioId), eq(holding.place, 'plaster')))
  return new Map(
    rows.map((row) => {
      const { held } = foundHolding(row)
      const dryUncertaintyGrams = dryUncertaintyGramsOf(held)
      return [row.lotId ?? '', { dryGrams: held.dryGrams, dryUncertaintyGrams }]
    }),
  )
}

interface OfLoad {
  readonly readings: readonly ReadingRow[]
  readonly moves: readonly MoveRow[]
  readonly held: HeldNow | undefined
  readonly laid: ReadingRow | undefined
}

function loadFrom(row: LoadRow, of: OfLoad): PlasterLoad {
  const { readings, laid } = of
  const left = leavingOf(of.moves)
  const sure = readings.filter((one) => one.isOfLoad).at(-1)?.dryUncertaintyGrams ?? undefined
  const now = left.endedAt === undefined ? of.held : undefined
  const those = (isWanted: (one: ReadingRow) => boolean) => readings.filter(isWanted).map(readingOf)
  return {
    lotId: row.lotId,
    label: row.label,
    bodyId: row.bodyId,
    bodyName: row.bodyName,
    batName: row.batName,
    laidBy: row.kind,
    laidByEntryId: row.entryId,
    endedBy: left.endedBy,
    history: {
      batId: row.batId,
      batDryGrams: decimalOr(row.batDryGrams),
      laidAt: new Date(row.laidAt),
      laid: laid === undefined ? undefined : readingOf(laid),
      dryGrams: now?.dryGrams ?? left.dryGrams,
      dryUncertaintyGrams: now?.dryUncertaintyGrams ?? decimal(sure ?? 0),
      thicknessMillimetres: decimalOr(row.thickness),
      slabs: those(isOfSlab),
      pairs: those(({ kind }) => kind === 'clay_with_plaster'),
      bats: those(({ kind }) => kind === 'plaster'),
      turnedAt: readings.filter(({ turned }) => turned).map(({ at }) => new Date(at)),
      partings: left.partings,
      endedAt: left.endedAt,
      target: plasterTarget({
        readyWaterContentWetBasis: decimalOr(row.ready),
        tooDryWaterContentWetBasis: decimalOr(row.tooDry),
      }),
    },
  }
}

function isOfSlab(one: ReadingRow): boolean {
  return one.kind === 'clay' && one.purpose === 'reading' && one.isOfLoad
}

function readingOf(row: ReadingRow): PlasterReading {
  return {
    entryId: row.entryId,
    at: new Date(row.at),
    grams: decimal(row.netGrams),
    standardUncertaintyGrams: decimal(row.standardUncertaintyGrams),
  }
}

/** What was thrown away of a load on the way, and what was left when it went. */
function leavingOf(moves: readonly MoveRow[]): {
  readonly partings: PlasterParting[]
  readonly dryGrams: Decimal
  readonly endedAt: Date | undefined
  readonly endedBy: string | undefined
} {
  const partings: PlasterParting[] = []
  let dryGrams = ZERO
  let atLast = ZERO
  for (const { entryId, kind, at, dryGrams: moved, wastedGrams } of moves) {
    const kept = dryGrams.minus(wastedGrams)
    const isParting = (kind === 'discard' || kind === 'lift') && kept.lessThan(dryGrams)
    atLast = isParting && kept.greaterThan(0) ? kept : dryGrams
    if (isParting && kept.greaterThan(0)) {
      partings.push({ entryId, at: new Date(at), keptFraction: kept.dividedBy(dryGrams) })
    }
    dryGrams = dryGrams.plus(moved)
  }
  const last = dryGrams.isZero() ? moves.at(-1) : undefined
  return {
    partings,
    dryGrams: last === undefined ? dryGrams : atLast,
    endedAt: last === undefined ? undefined : new Date(last.at),
    endedBy: last?.kind,
  }
}

function decimalOr(text: string | null): Decimal | undefined {
  return text === null ? undefined : decimal(text)
}
