import { and, eq, gt } from 'drizzle-orm'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import { takeReading, type ReadingSaid } from './readings.ts'
import { holding, lot } from './schema.ts'

/** Takes a reading of a bat alone: what it has drunk so far. Refuses: what a reading refuses. */
export async function weighBatAlone(book: Book, said: ReadingSaid | undefined): Promise<void> {
  if (said !== undefined) await takeReading(book, said, { pointer: '/bat', kind: 'plaster' })
}

/** Refuses: `clay_must_be_enough`, where the load lies on no bat. */
export function refuseUnlessOnPlaster(load: Slot): void {
  if (!load.held.dryGrams.isZero()) return
  throw new Refusal(
    'clay_must_be_enough',
    'By the books that lot lies on no bat, or was lifted already.',
    { pointer: '/lotId' },
  )
}

/**
 * Refuses a bat that carries a load, by the tables or by what this very act has put on it.
 *
 * Refuses: `bat_must_be_empty`.
 */
export async function refuseLoadedBat(book: Book, batId: string, pointer: string): Promise<void> {
  const [loaded] = await book.ledger
    .select({ lotId: lot.lotId })
    .from(lot)
    .innerJoin(holding, and(eq(holding.studioId, lot.studioId), eq(holding.lotId, lot.lotId)))
    .where(
      and(
        eq(lot.studioId, book.studioId),
        eq(lot.batId, batId),
        eq(holding.place, 'plaster'),
        gt(holding.dryGrams, '0'),
      ),
    )
  if (loaded === undefined) return
  throw new Refusal(
    'bat_must_be_empty',
    'That bat still carries a load. Lift it first, or pour on another bat.',
    { pointer, facts: { batId, lotId: loaded.lotId } },
  )
}
