import { decimal } from '../../shared/decimal.ts'
import { doubtOfDifference } from '../../shared/doubt.ts'
import { waterDoubtOf } from '../../shared/water-doubt.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import {
  count,
  proportionalPart,
  waterContentWetBasisOf,
  type Quantities,
} from '../../shared/quantity.ts'
import type { Book, Slot } from '../book.ts'
import { benchLotFor, makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { findLot } from '../studio.ts'

export interface OpenBagSaid extends Circumstances {
  /** The delivery that the bags are of. */
  readonly lotId: string
  readonly bags: number
  readonly reading?: ReadingSaid | undefined
  /** The clay on the bench that it joins, where it joins some; else it is a lot of its own. */
  readonly intoLotId?: string | undefined
  readonly newLotId?: string | undefined
  readonly label?: string | undefined
}

/**
 * Bags go from the store to the bench. Where they are weighed and differ from their label, the
 * difference is the supplier's, in clay and not in money: what was paid for the bags goes with them.
 */
export const openBag: Act<OpenBagSaid> = {
  kind: 'open_bag',
  async write(book, said) {
    const source = await findLot(book.ledger, book.studioId, said.lotId)
    const { bodyId } = source
    const lotId = await goalOf(book, said, source)
    const [store, bench] = await book.hold([
      { place: 'store', bodyId, lotId: source.lotId },
      { place: 'bench', bodyId, lotId },
    ])
    const held = book.now(store)
    const bags = count(said.bags)
    const hands = await book.outside('hands', bodyId)
    await pointingAt('/bags', () => {
      book.shiftExactly(store, hands, { pieces: bags })
    })
    const dryGrams = proportionalPart({ amount: held.dryGrams, part: bags, whole: held.pieces })
    const moved = book.moveShare(store, bench, { dryGrams })
    if (said.reading !== undefined) await weighOpened(book, { said: said.reading, bench, moved })
    return { lotId }
  },
}

async function goalOf(
  book: Book,
  said: OpenBagSaid,
  source: { bodyId: string; label: string },
): Promise<string> {
  if (said.intoLotId !== undefined) {
    return benchLotFor(book, said.intoLotId, source.bodyId)
  }
  const label = said.label ?? `opened from ${source.label}`
  return makeLot(book, { lotId: said.newLotId, kind: 'opened', bodyId: source.bodyId, label })
}

async function weighOpened(
  book: Book,
  opened: { said: ReadingSaid; bench: Slot; moved: Quantities },
): Promise<void> {
  const { bench, moved } = opened
  const reading = await takeReading(book, opened.said, { pointer: '/reading' })
  const water = waterContentWetBasisOf(moved) ?? decimal(0)
  const estimate = dryMassFromWet({
    netGrams: reading.netGrams,
    netDoubt: reading.netDoubt,
    waterContentWetBasis: water,
    waterDoubt: waterDoubtOf(moved),
    method: 'lot_water_content',
    standing: 'estimated',
  })
  book.shiftExactly(await book.outside('supplier', bench.ref.bodyId), bench, {
    dryGrams: estimate.dryGrams.minus(moved.dryGrams),
    waterGrams: estimate.waterGrams.minus(moved.waterGrams),
    dryDoubt: doubtOfDifference(estimate.dryDoubt, moved.dryDoubt),
  })
  book.estimated({ slot: bench, of: 'opened', estimate, weighingNo: reading.weighingNo })
}
