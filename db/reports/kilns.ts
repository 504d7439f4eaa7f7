import { asc, eq, sql } from 'drizzle-orm'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { bestOfElectricity, isKnown } from '../../shared/firing-energy.ts'
import type { ShareRule } from '../../shared/firing-share.ts'
import { kilnFill } from '../../shared/kiln-fill.ts'
import type { KilnKind } from '../../shared/kiln-load.ts'
import type { Database, Transaction } from '../connection.ts'
import { reckonedWays, type KilnRow } from '../firing-energy.ts'
import { decimalOr, loadOf } from '../firing-load.ts'
import { findKiln } from '../materials.ts'
import { inSnapshot } from '../report-reading.ts'
import { kiln } from '../schema.ts'

/** A kiln of the studio, as far as a page asks. */
export interface KilnKnown {
  readonly kilnId: string
  readonly name: string
  readonly shareBy: ShareRule
  readonly hasPrice: boolean
  readonly hasPower: boolean
  readonly burnsGas: boolean
  /** What its meter read when it was read last. */
  readonly meterLast: string | null
  /** What a fire of that kind will be taken to have drawn where nobody says; null where nothing tells. */
  readonly usual: { readonly words: string } | null
}

export interface KilnsKnown {
  readonly kilns: readonly KilnKnown[]
  /** The kiln that was loaded or fired last. */
  readonly lastKilnId: string | null
}

/**
 * The kilns of a studio by name, with what is usual for them.
 *
 * Grain: one row a kiln. Units: kilowatt-hours, in words and as the meter reads.
 */
export function kilnsKnown(
  db: Database,
  asked: { readonly studioId: string; readonly kind: KilnKind; readonly now: Date },
): Promise<KilnsKnown> {
  const { studioId, kind, now } = asked
  return inSnapshot(db, async (ledger) => {
    const rows = await ledger
      .select()
      .from(kiln)
      .where(eq(kiln.studioId, studioId))
      .orderBy(asc(kiln.name))
    const meters = await metersLast(ledger, studioId)
    const kilns: KilnKnown[] = []
    for (const row of rows) {
      kilns.push({
        ...{ kilnId: row.kilnId, name: row.name, shareBy: row.shareBy as ShareRule },
        hasPrice: row.pricePerKilowattHour !== null,
        hasPower: row.ratedKilowatts !== null,
        burnsGas: row.fuelMaterialId !== null,
        meterLast: meters.get(row.kilnId) ?? null,
        usual: await usualOf({ ledger, studioId, before: now }, row, kind),
      })
    }
    return { kilns, lastKilnId: await lastKiln(ledger, studioId) }
  })
}

async function usualOf(
  past: Parameters<typeof reckonedWays>[0],
  row: KilnRow,
  kind: KilnKind,
): Promise<KilnKnown['usual']> {
  const ways = await reckonedWays(past, { kiln: row, doing: kind })
  const known = ways.filter(isKnown)
  if (known.length === 0 || row.pricePerKilowattHour === null) return null
  return { words: bestOfElectricity(known).words }
}

/** Grain: one row a kiln whose meter was read: what it read last, in entries that stand. */
async function metersLast(ledger: Transaction, studioId: string): Promise<Map<string, string>> {
  const rows = await ledger.execute<{ kilnId: string; meter: string }>(sql`
    select distinct on (f.kiln_id) f.kiln_id as "kilnId",
           coalesce(e.said #>> '{firing,meter,after}', e.said #>> '{meter,after}') as "meter"
      from firing f
      join entry e on e.studio_id = f.studio_id and e.entry_id = f.entry_id
     where f.studio_id = ${studioId}
       and coalesce(e.said #>> '{firing,meter,after}', e.said #>> '{meter,after}') is not null
       and not exists (select from entry t
                        where t.studio_id = e.studio_id and t.reverses_entry_id = e.entry_id)
     order by f.kiln_id, e.happened_at desc, e.entry_id desc`)
  return new Map(rows.map(({ kilnId, meter }) => [kilnId, meter]))
}

async function lastKiln(ledger: Transaction, studioId: string): Promise<string | null> {
  const [row] = await ledger.execute<{ kilnId: string }>(sql`
    select kiln_id as "kilnId" from (
      select kiln_id, loaded_at as at from kiln_load
       where studio_id = ${studioId} and kiln_id is not null
      union all
      select f.kiln_id, e.happened_at from firing f
        join entry e on e.studio_id = f.studio_id and e.entry_id = f.entry_id
       where f.studio_id = ${studioId} and f.kind <> 'empty') as used
     order by at desc, kiln_id limit 1`)
  return row?.kilnId ?? null
}

/**
 * How full a kiln would be with those pots, in words; nothing where no size or volume tells.
 *
 * Refuses: `kiln_not_found`, `run_not_found`.
 */
export function fillWords(
  db: Database,
  asked: {
    readonly studioId: string
    readonly kilnId: string
    readonly runs: readonly { readonly runId: string; readonly pieces: number }[]
  },
): Promise<string> {
  const { studioId, kilnId, runs } = asked
  return inSnapshot(db, async (ledger) => {
    const row = await findKiln(ledger, studioId, kilnId)
    const pots = runs.map(({ runId, pieces }) => ({
      ...{ runId, pieces: decimal(String(pieces)), dryGrams: ZERO },
    }))
    const load = await loadOf(ledger, studioId, pots)
    const fill = kilnFill({
      load,
      volumeLitres: decimalOr(row.volumeLitres),
      usableFraction: decimal(row.usableFraction),
    })
    return fill.fraction === null
      ? `Nobody can tell how full ${row.name} would be: enter its volume, and the room that each form takes.`
      : fill.words
  })
}
