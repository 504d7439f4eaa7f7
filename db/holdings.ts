import { and, eq, inArray, sql } from 'drizzle-orm'
import { assert } from '../shared/assert.ts'
import { isInside, type Place } from '../shared/place.ts'
import type { Held } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Transaction } from './connection.ts'
import { quantitiesOf } from './quantity-columns.ts'
import { holding } from './schema.ts'

/** What tells one holding from another. */
export interface HoldingRef {
  readonly place: Place
  /** The clay; of materials it is '' here and nothing in the table. */
  readonly bodyId: string
  readonly materialId?: string
  readonly lotId?: string
  readonly runId?: string
  readonly vesselId?: string
  readonly grade?: string
}

export interface FoundHolding {
  readonly holdingId: string
  readonly ref: HoldingRef
  readonly held: Held
}

type HoldingRow = typeof holding.$inferSelect

/**
 * The holding of that name, made where there is none yet.
 *
 * Two acts that make the same holding at once end with one: the second finds the first one's.
 */
export async function findOrMakeHolding(
  ledger: Transaction,
  asked: { studioId: string; ref: HoldingRef; newId: () => string },
): Promise<string> {
  const { studioId, ref, newId } = asked
  const found = await findHolding(ledger, studioId, ref)
  if (found !== undefined) return found
  await ledger
    .insert(holding)
    .values({
      ...{ studioId, holdingId: newId(), ...ref },
      bodyId: ref.bodyId === '' ? null : ref.bodyId,
      isInside: isInside(ref.place),
    })
    .onConflictDoNothing()
  const made = await findHolding(ledger, studioId, ref)
  assert(made !== undefined, 'a holding that was made is found')
  return made
}

async function findHolding(ledger: Transaction, studioId: string, ref: HoldingRef) {
  const same = (column: keyof HoldingRef) => {
    const named = ref[column] ?? ''
    return sql`${holding[column]} is not distinct from ${named === '' ? null : named}`
  }
  const [row] = await ledger
    .select({ holdingId: holding.holdingId })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, studioId),
        eq(holding.place, ref.place),
        same('bodyId'),
        same('materialId'),
        same('lotId'),
        same('runId'),
        same('vesselId'),
        same('grade'),
      ),
    )
  return row?.holdingId
}

/**
 * Those holdings with their balances, locked until the transaction ends.
 *
 * Locked in the order of their ids, so that no two acts wait for each other in a ring.
 * Refuses: `holding_not_found`.
 */
export async function lockHoldings(
  ledger: Transaction,
  studioId: string,
  holdingIds: readonly string[],
): Promise<FoundHolding[]> {
  if (holdingIds.length === 0) return []
  const rows = await ledger
    .select()
    .from(holding)
    .where(and(eq(holding.studioId, studioId), inArray(holding.holdingId, [...holdingIds])))
    .orderBy(holding.holdingId)
    .for('update')
  const missing = holdingIds.find((id) => !rows.some((row) => row.holdingId === id))
  if (missing !== undefined) {
    throw new Refusal('holding_not_found', 'There is no such holding in this studio.', {
      facts: { holdingId: missing },
    })
  }
  return rows.map(foundHolding)
}

/** A name that two refs share where they are of one holding, and that sorts alike for everybody. */
export function nameOfHolding(ref: HoldingRef): string {
  const { place, bodyId, materialId, lotId, runId, vesselId, grade } = ref
  return JSON.stringify([place, bodyId, materialId, lotId, runId, vesselId, grade])
}

/** A row of the table as the program speaks of it. */
export function foundHolding(row: HoldingRow): FoundHolding {
  return {
    holdingId: row.holdingId,
    ref: {
      place: row.place as Place,
      bodyId: row.bodyId ?? '',
      ...(row.materialId === null ? {} : { materialId: row.materialId }),
      ...(row.lotId === null ? {} : { lotId: row.lotId }),
      ...(row.runId === null ? {} : { runId: row.runId }),
      ...(row.vesselId === null ? {} : { vesselId: row.vesselId }),
      ...(row.grade === null ? {} : { grade: row.grade }),
    },
    held: quantitiesOf(row),
  }
}
