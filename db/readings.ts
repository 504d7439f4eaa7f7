import { present } from '../shared/assert.ts'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { doubtBy, doubtOfSum, standardUncertaintyOfDoubt, type Doubt } from '../shared/doubt.ts'
import { sourceOf } from '../shared/doubt-source.ts'
import {
  labelUncertaintyGrams,
  netOfReading,
  readingUncertaintyGrams,
  type ScaleLimits,
} from '../shared/reading.ts'
import { Refusal } from '../shared/refusal.ts'
import { divisionGramsFromLastDigit, gramsFrom, type Mass } from '../shared/units.ts'
import type { Book } from './book.ts'
import { findScale, findVessel } from './studio.ts'

/**
 * A weigh-in as it is said: either the net mass (on a tared scale, or the sum of a few readings), or the
 * gross with the vessel it stood in or the tare that was read.
 */
export interface ReadingSaid {
  readonly net?: Mass | undefined
  readonly gross?: Mass | undefined
  readonly tare?: Mass | undefined
  readonly inVesselId?: string | undefined
  readonly scaleId?: string | undefined
}

export interface Reading {
  readonly weighingNo: number
  readonly netGrams: Decimal
  /** What the scale and the tare leave open, in grams by source. */
  readonly netDoubt: Doubt
  readonly standardUncertaintyGrams: Decimal
}

export interface ReadingPurpose {
  /** The field of the act, as a JSON pointer: '/turnings'. */
  readonly pointer: string
  readonly kind?: 'clay' | 'clay_with_plaster' | 'plaster' | 'label' | 'water' | 'sample' | 'powder'
}

/**
 * Takes a reading into the book: what was read, in what, on what, and the net mass with its
 * uncertainty. A scale of division d is doubtful by d/√12 a reading; where no scale is named, the last
 * digit written is taken for its division. The tare that a vessel is known by is as doubtful, and is the
 * same mistake in every weigh-in of that vessel.
 *
 * Units: grams. Refuses: `gross_must_not_be_below_tare`, `reading_must_be_above_zero`,
 * `reading_must_be_within_scale_capacity`, `vessel_not_found`, `scale_not_found`.
 */
export async function takeReading(
  book: Book,
  said: ReadingSaid,
  purpose: ReadingPurpose,
): Promise<Reading> {
  return pointingAt(purpose.pointer, async () => {
    const read = present(said.gross ?? said.net, 'a reading has a mass')
    const tareGrams = await tareOf(book, said)
    const scale = said.scaleId === undefined ? undefined : await scaleOf(book, said.scaleId)
    const grossGrams = gramsFrom(read)
    const netGrams = netOfReading({
      grossGrams,
      tareGrams,
      ...(scale === undefined ? {} : { scale }),
    })
    const divisionGrams = scale?.divisionGrams ?? divisionGramsFromLastDigit(read)
    const netDoubt =
      purpose.kind === 'label'
        ? doubtBy(book.ownSource('reading'), labelUncertaintyGrams(netGrams))
        : doubtOfReading(book, said, { divisionGrams, tareGrams })
    const standardUncertaintyGrams = standardUncertaintyOfDoubt(netDoubt)
    const weighingNo = book.weighings.length + 1
    book.weighings.push({
      weighingNo,
      purpose: purpose.pointer.slice(1),
      kind: purpose.kind ?? 'clay',
      asRead: said,
      grossGrams: grossGrams.toFixed(),
      tareGrams: tareGrams.toFixed(),
      netGrams: netGrams.toFixed(),
      standardUncertaintyGrams: standardUncertaintyGrams.toFixed(),
      ...instrumentsOf(said, scale),
      weighedAt: book.facts.happenedAt,
      weighedBy: book.facts.by,
    })
    return { weighingNo, netGrams, netDoubt, standardUncertaintyGrams }
  })
}

/** A reading and its tare: of its own where the tare was read with it, else of the vessel's. */
function doubtOfReading(
  book: Book,
  said: ReadingSaid,
  read: { divisionGrams: Decimal; tareGrams: Decimal },
): Doubt {
  const { divisionGrams, tareGrams } = read
  const own = book.ownSource('reading')
  const isTareRead = said.tare !== undefined && !tareGrams.isZero()
  if (isTareRead) return doubtBy(own, readingUncertaintyGrams({ divisionGrams, readings: 2 }))
  const once = readingUncertaintyGrams({ divisionGrams, readings: 1 })
  if (tareGrams.isZero() || said.inVesselId === undefined) return doubtBy(own, once)
  const tare = sourceOf('tare', tareGrams.toFixed(), said.inVesselId)
  return doubtOfSum([doubtBy(own, once), doubtBy(tare, once.negated())])
}

/** What it stood in and on; the division of an unnamed scale is our guess and is not written down. */
function instrumentsOf(said: ReadingSaid, scale: ScaleLimits | undefined) {
  return {
    vesselId: said.inVesselId,
    scaleId: said.scaleId,
    divisionGrams: scale?.divisionGrams.toFixed(),
    capacityGrams: scale?.capacityGrams.toFixed(),
  }
}

/** A mass that is said rather than read off: a label, or so much of a known clay. */
export function takeLabel(book: Book, mass: Mass, pointer: string): Promise<Reading> {
  return takeReading(book, { net: mass }, { pointer, kind: 'label' })
}

async function tareOf(book: Book, said: ReadingSaid): Promise<Decimal> {
  if (said.tare !== undefined) return gramsFrom(said.tare)
  if (said.inVesselId === undefined || said.gross === undefined) return decimal(0)
  const vessel = await findVessel(book.ledger, book.studioId, said.inVesselId)
  return decimal(vessel.tareGrams)
}

async function scaleOf(book: Book, scaleId: string) {
  const scale = await findScale(book.ledger, book.studioId, scaleId)
  return {
    divisionGrams: decimal(scale.divisionGrams),
    capacityGrams: decimal(scale.capacityGrams),
  }
}

/** Gives a refusal the field that it speaks of, where it has none yet. */
export async function pointingAt<T>(pointer: string, work: () => Promise<T> | T): Promise<T> {
  try {
    return await work()
  } catch (error) {
    if (!(error instanceof Refusal) || error.pointer !== undefined) throw error
    throw new Refusal(error.code, error.message, {
      pointer,
      facts: error.facts,
      cause: error.cause,
    })
  }
}
