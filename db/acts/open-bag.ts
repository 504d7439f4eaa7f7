import { decimal, type Decimal } from '../../shared/decimal.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import {
  count,
  dryUncertaintyGramsOf,
  proportionalPart,
  waterContentWetBasisOf,
  type Held,
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
    const moved = book.moveShare(store, bench, { dryGrams }).leaves
    if (said.reading !== undefined)
      await weighOpened(book, { said: said.reading, bench, held, moved })
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
  opened: { said: ReadingSaid; bench: Slot; held: Held; moved: Quantities },
): Promise<void> {
  const { bench, held, moved } = opened
  const reading = await takeReading(book, opened.said, { pointer: '/reading' })
  const water = waterContentWetBasisOf(moved) ?? decimal(0)
  const estimate = dryMassFromWet({
    netGrams: reading.netGrams,
    netUncertaintyGrams: reading.standardUncertaintyGrams,
    waterContentWetBasis: water,
    waterContentUncertainty: waterDoubt(held, water),
    method: 'lot_water_content',
    standing: 'estimated',
  })
  book.shiftExactly(await book.outside('supplier', bench.ref.bodyId), bench, {
    dryGrams: estimate.dryGrams.minus(moved.dryGrams),
    waterGrams: estimate.waterGrams.minus(moved.waterGrams),
  })
  if (bench.held.dryGrams.isZero()) book.unsureBy(bench, estimate.standardUncertaintyGrams)
  book.estimated({ slot: bench, of: 'opened', estimate, weighingNo: reading.weighingNo })
}

/** The lot's doubt, read as doubt of its water content: the bags' own masses are weighed now. */
function waterDoubt(held: Held, waterContentWetBasis: Decimal): Decimal {
  if (held.dryGrams.isZero()) return decimal(0)
  const relative = dryUncertaintyGramsOf(held).dividedBy(held.dryGrams)
  return relative.times(decimal(1).minus(waterContentWetBasis))
}
