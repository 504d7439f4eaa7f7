import { dryMassKnown } from '../shared/dry-mass.ts'
import type { Book, Slot } from './book.ts'
import { pointingAt, takeReading, type ReadingSaid } from './readings.ts'

/**
 * Weighs clay whose dry mass is known from before: it stands, and what the clay weighs above it is its
 * water, which is drawn from the tap or let into the air.
 *
 * Refuses: `reading_must_not_be_below_known_dry`, and what a reading refuses.
 */
export async function weighKnownDry(
  book: Book,
  slot: Slot,
  weighed: { said: ReadingSaid; of: string },
): Promise<void> {
  const pointer = '/reading'
  const reading = await takeReading(book, weighed.said, { pointer })
  const held = book.now(slot)
  const estimate = await pointingAt(pointer, () =>
    dryMassKnown({
      knownDryGrams: held.dryGrams,
      knownDoubt: held.dryDoubt,
      netGrams: reading.netGrams,
    }),
  )
  await book.wetTo(slot, estimate.waterGrams)
  book.estimated({ slot, of: weighed.of, estimate, weighingNo: reading.weighingNo })
}
