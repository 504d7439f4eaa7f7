import { present } from '../shared/assert.ts'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { dryMassEstimate, type DryMassEstimate } from '../shared/dry-mass.ts'
import { dryGramsInWetMass } from '../shared/parting.ts'
import { count, waterContentWetBasisOf, type Quantities } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Mass } from '../shared/units.ts'
import type { Book, Slot } from './book.ts'
import type { HoldingRef } from './holdings.ts'
import { pointingAt, takeReading, type Reading, type ReadingSaid } from './readings.ts'
import { findBody, findLot } from './studio.ts'

/** Clay taken from a lot on the bench: so many balls of a mass, one reading, or what is left of it. */
export interface ClaySourceSaid {
  readonly lotId: string
  readonly balls?: number | undefined
  readonly ballMass?: Mass | undefined
  readonly reading?: ReadingSaid | undefined
  readonly whatIsLeft?: true | undefined
}

export interface ClaySource {
  readonly ref: HoldingRef
  readonly said: ClaySourceSaid
  readonly pointer: string
}

/** Where each source's clay lies. Refuses: `lot_not_found`. */
export async function claySources(
  book: Book,
  said: readonly ClaySourceSaid[],
): Promise<ClaySource[]> {
  const sources: ClaySource[] = []
  for (const [index, one] of said.entries()) {
    const pointer = `/from/${String(index)}`
    const lot = await pointingAt(`${pointer}/lotId`, () =>
      findLot(book.ledger, book.studioId, one.lotId),
    )
    sources.push({
      ref: { place: 'bench', bodyId: lot.bodyId, lotId: lot.lotId },
      said: one,
      pointer,
    })
  }
  return sources
}

/**
 * Takes clay of a known lot from the bench: its water, cost and doubt go along.
 *
 * Refuses: `clay_must_be_enough`, and what a reading refuses.
 */
export async function takeClay(
  book: Book,
  taken: { from: Slot; to: Slot; source: Pick<ClaySource, 'said' | 'pointer'> },
): Promise<Quantities> {
  const { from, to, source } = taken
  const { said, pointer } = source
  const held = book.now(from)
  const reading = said.whatIsLeft === true ? undefined : await readingOf(book, said, pointer)
  const dryGrams = reading === undefined ? held.dryGrams : dryGramsInWetMass(held, reading.netGrams)
  const taking = await pointingAt(pointer, () =>
    book.moveShare(from, to, {
      dryGrams: wantedDry(held, reading) ?? dryGrams,
      readingDoubt: reading?.netDoubt,
    }),
  )
  await noteClay(book, { slot: to, from, taking, reading })
  return taking
}

/** Nothing is there, or less than was weighed: the whole wet mass is asked for, and refused. */
function wantedDry(held: Quantities, reading: Reading | undefined): Decimal | undefined {
  if (reading === undefined) return held.dryGrams.isZero() ? decimal(1) : undefined
  const isMissing = held.dryGrams.plus(held.waterGrams).isZero()
  return isMissing ? reading.netGrams : undefined
}

async function noteClay(
  book: Book,
  noted: { slot: Slot; from: Slot; taking: Quantities; reading: Reading | undefined },
) {
  const { slot, from, taking, reading } = noted
  const body = await findBody(book.ledger, book.studioId, from.ref.bodyId)
  book.handles({
    waterContentWetBasis: waterContentWetBasisOf(taking),
    dustThresholdWetBasis: body.dustThresholdWetBasis,
  })
  book.estimated({
    slot,
    of: 'clay_taken',
    estimate: estimateOfShare(taking),
    weighingNo: reading?.weighingNo,
  })
}

/** What a share of a holding is taken to be: as wet and as sure as the holding. */
export function estimateOfShare(share: Quantities): DryMassEstimate {
  const { dryGrams, waterGrams, dryDoubt } = share
  return dryMassEstimate({
    dryGrams,
    waterGrams,
    dryDoubt,
    method: 'lot_water_content',
    standing: 'estimated',
  })
}

function readingOf(book: Book, said: ClaySourceSaid, pointer: string): Promise<Reading> {
  if (said.reading !== undefined) {
    return takeReading(book, said.reading, { pointer: `${pointer}/reading` })
  }
  const balls = present(said.balls, 'a source without a reading is told in balls')
  const ballMass = present(said.ballMass, 'balls have a mass')
  // The digits that were written stay, because the last one tells the scale's division.
  const written = decimal(ballMass.value)
  const together = written
    .times(balls)
    .toFixed(Math.max(written.decimalPlaces(), digitsOf(ballMass)))
  return takeReading(
    book,
    { net: { value: together, unit: ballMass.unit } },
    { pointer: `${pointer}/ballMass` },
  )
}

function digitsOf(mass: Mass): number {
  return mass.value.split('.')[1]?.length ?? 0
}

/** How many pieces the sources make, where they are told in balls. Units: pieces. */
export function ballsIn(said: readonly ClaySourceSaid[]): Decimal {
  return said.reduce((sum, one) => sum.plus(count(one.balls ?? 0)), count(0))
}

/**
 * The clay that a run is of: its sources' one body, or the blend that was declared.
 *
 * Refuses: `bodies_must_not_mix_unless_declared`, `body_not_found`.
 */
export async function bodyOf(
  book: Book,
  sources: readonly Pick<ClaySource, 'ref'>[],
  blendBodyId: string | undefined,
): Promise<string> {
  const bodies = [...new Set(sources.map((source) => source.ref.bodyId))]
  const [only, ...others] = bodies
  if (blendBodyId !== undefined) {
    const blend = await findBody(book.ledger, book.studioId, blendBodyId)
    if (blend.isBlend || (others.length === 0 && only === blendBodyId)) return blendBodyId
  } else if (only !== undefined && others.length === 0) return only
  throw new Refusal(
    'bodies_must_not_mix_unless_declared',
    `This is clay of ${bodies.map((body) => `'${body}'`).join(' and ')}. Keep them apart, or name in blendBodyId a body that is declared as a blend.`,
    { pointer: '/blendBodyId' },
  )
}
