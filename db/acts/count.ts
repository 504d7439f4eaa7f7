import { eachLayer } from '../../shared/cost-layer.ts'
import { ZERO } from '../../shared/decimal.ts'
import { doubtOfPart } from '../../shared/doubt.ts'
import type { ClayState } from '../../shared/moisture.ts'
import { isGlazed } from '../../shared/place.ts'
import { proportionalPart } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { refuseMaterials } from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import { takeReading, type ReadingSaid } from '../readings.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'

export interface CountSaid extends Circumstances {
  readonly holdingId: string
  /** How many bags or pots there are. */
  readonly pieces?: number | undefined
  /** What the whole of it weighs. */
  readonly reading?: ReadingSaid | undefined
  readonly water?: WaterSaid | undefined
  readonly state?: ClayState | undefined
}

/**
 * What is there is counted, or weighed. The difference to the books goes to, or comes from,
 * `unexplained`, with the clay and the cost of as much of the holding: it is never hidden elsewhere.
 */
export const countHolding: Act<CountSaid> = {
  kind: 'count',
  async write(book, said) {
    const slot = await book.holdOneById(said.holdingId)
    refuseMaterials(slot)
    if (said.pieces !== undefined) await countPieces(book, slot, said.pieces)
    if (said.reading !== undefined) await weighWhole(book, slot, said)
    return {}
  },
}

async function countPieces(book: Book, slot: Slot, pieces: number): Promise<void> {
  const held = book.now(slot)
  if (held.pieces.isZero()) {
    throw new Refusal(
      'pieces_must_be_enough',
      'By the books nothing that is told in pieces is there. Weigh it, or enter it as an opening balance.',
      { pointer: '/pieces' },
    )
  }
  const other = await book.outside('unexplained', slot.ref.bodyId)
  const missing = held.pieces.minus(pieces)
  const part = missing.abs()
  const share = { part, whole: held.pieces }
  const dryGrams = proportionalPart({ amount: held.dryGrams, ...share })
  if (missing.greaterThan(0)) book.moveShare(slot, other, { dryGrams, pieces: part })
  else if (missing.lessThan(0)) {
    // More pots than were known are no surer, pot for pot, than those that were.
    book.shiftExactly(other, slot, {
      dryGrams,
      materialGrams: proportionalPart({ amount: held.materialGrams, ...share }),
      waterGrams: proportionalPart({ amount: held.waterGrams, ...share }),
      pieces: part,
      ...eachLayer(held, (amount) => proportionalPart({ amount, ...share })),
      dryDoubt: doubtOfPart(held.dryDoubt, share),
      materialDoubt: doubtOfPart(held.materialDoubt, share),
      costDoubt: doubtOfPart(held.costDoubt, share),
    })
  }
}

async function weighWhole(book: Book, slot: Slot, said: CountSaid): Promise<void> {
  if (said.reading === undefined) return
  const reading = await takeReading(book, said.reading, { pointer: '/reading' })
  // A glazed pot weighs its glaze too: the reading is kept and says nothing of the clay.
  if (isGlazed(slot.ref.place) || book.now(slot).materialGrams.greaterThan(0)) return
  const held = book.now(slot)
  const estimate = await dryMassOfReading(book, {
    reading,
    said: said.water ?? ownWater(slot, held.waterGrams.isZero() && held.dryGrams.greaterThan(0)),
    state: said.state ?? 'wedged',
    bodyId: slot.ref.bodyId,
    lotId: slot.ref.lotId,
    pointer: '/water',
  })
  await book.settle(slot, estimate)
  book.estimated({ slot, of: 'counted', estimate, weighingNo: reading.weighingNo })
}

/** Bisque holds no water, and nobody needs to say so. */
function ownWater(slot: Slot, isDry: boolean): WaterSaid | undefined {
  return slot.ref.place === 'bisque' && isDry
    ? { content: ZERO.toFixed(), basis: 'wet', standing: 'measured' }
    : undefined
}
