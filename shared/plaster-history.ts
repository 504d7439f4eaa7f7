import { Decimal, ONE } from './decimal.ts'
import type { DryingLoad, SlabWeighIn } from './drying-load.ts'
import type { PastLoad } from './drying-prior.ts'
import type { PlasterTarget } from './plaster-target.ts'

/** A mass that somebody read off a scale. */
export interface PlasterReading {
  readonly entryId: string
  readonly at: Date
  readonly grams: Decimal
  readonly standardUncertaintyGrams: Decimal
}

/** Clay of a slab that was thrown away while it lay there, or as it was lifted. */
export interface PlasterParting {
  readonly entryId: string
  readonly at: Date
  readonly keptFraction: Decimal
}

/** A load on a bat: all that the books know of it. */
export interface LoadHistory {
  readonly batId: string
  readonly batDryGrams: Decimal | undefined
  readonly laidAt: Date
  /** Absent where it was moved to this bat and not weighed. */
  readonly laid: Omit<PlasterReading, 'at'> | undefined
  /** The dry clay that is in it now, or was when it left the bat. */
  readonly dryGrams: Decimal
  readonly dryUncertaintyGrams: Decimal
  readonly thicknessMillimetres: Decimal | undefined
  /** The slab alone, the slab with its bat, the bat alone: each as it was read, the oldest first. */
  readonly slabs: readonly PlasterReading[]
  readonly pairs: readonly PlasterReading[]
  readonly bats: readonly PlasterReading[]
  readonly turnedAt: readonly Date[]
  readonly partings: readonly PlasterParting[]
  /** When it left the bat; absent where it lies there. */
  readonly endedAt: Date | undefined
  readonly target: PlasterTarget
}

/** From when on a slab's drying can be told, and with what it began. */
export interface Beginning {
  readonly at: Date
  readonly load: DryingLoad
}

const HOUR_MILLISECONDS = 3_600_000
/** No scale is surer than this. Our choice, because a curve asks for some doubt of each reading. */
const SURE_GRAMS = 0.001

/** Units: hours, below zero where `to` is the earlier. Source: the definition of the hour. */
export function hoursBetween(from: Date, to: Date): number {
  return (to.getTime() - from.getTime()) / HOUR_MILLISECONDS
}

/** Units: hours to a moment. Source: the definition of the hour. */
export function momentAfter(from: Date, hours: number): Date {
  return new Date(from.getTime() + hours * HOUR_MILLISECONDS)
}

/**
 * What a slab would have weighed if it had been then what is left of it now.
 *
 * What was thrown away of it since took its share of clay and water, so that its water content stays.
 *
 * Units: grams, 60 digits. Source: proportion.
 */
export function gramsAsItIsNow(
  history: Pick<LoadHistory, 'partings'>,
  read: Pick<PlasterReading, 'at' | 'entryId' | 'grams'>,
): Decimal {
  const kept = history.partings
    .filter((parting) => isBefore(read, parting))
    .reduce((product, { keptFraction }) => product.times(keptFraction), ONE)
  return read.grams.times(kept)
}

/** What is thrown away in the act of a reading is gone when it is read; at the same time otherwise, after. */
function isBefore(read: Pick<PlasterReading, 'at' | 'entryId'>, parting: PlasterParting): boolean {
  return read.at <= parting.at && read.entryId !== parting.entryId
}

/**
 * Where a slab's curve begins: as it was laid, or with the first weigh-in on this bat where it was moved
 * there unweighed; nowhere where there is neither.
 *
 * Units: grams, fractions, millimetres. Source: our choice, because how wet a slab was that nobody
 * weighed could only be guessed.
 */
export function beginningOf(history: LoadHistory): Beginning | undefined {
  const { laid, laidAt, thicknessMillimetres: thickness } = history
  const first = laid === undefined ? history.slabs[0] : { ...laid, at: laidAt }
  if (first === undefined || history.dryGrams.isZero()) return undefined
  return {
    at: first.at,
    load: {
      dryGrams: estimateOf(history.dryGrams, history.dryUncertaintyGrams),
      pouredGrams: estimateOf(gramsAsItIsNow(history, first), first.standardUncertaintyGrams),
      ...(thickness === undefined ? {} : { thicknessMillimetres: thickness.toNumber() }),
    },
  }
}

/**
 * The weigh-ins that tell of a curve: those of the slab alone, after its beginning.
 *
 * Units: hours since the beginning, grams. Source: our choice.
 */
export function weighInsOf(history: LoadHistory, beginning: Beginning): SlabWeighIn[] {
  return history.slabs
    .filter((slab) => isAfter(slab, beginning))
    .map((slab) => ({
      hours: hoursBetween(beginning.at, slab.at),
      slabGrams: gramsAsItIsNow(history, slab).toNumber(),
      standardUncertaintyGrams: Math.max(SURE_GRAMS, slab.standardUncertaintyGrams.toNumber()),
    }))
}

/** True where a weigh-in comes after the beginning of a curve. Units: none. Source: as `weighInsOf`. */
export function isAfter(slab: Pick<PlasterReading, 'at'>, beginning: Beginning): boolean {
  return slab.at > beginning.at
}

/**
 * A load as past loads are learnt from; nothing where its curve has no beginning.
 *
 * Units: as `beginningOf` and `weighInsOf`. Source: as these.
 */
export function pastLoadOf(history: LoadHistory): PastLoad | undefined {
  const beginning = beginningOf(history)
  if (beginning === undefined) return undefined
  return {
    load: beginning.load,
    weighIns: weighInsOf(history, beginning),
    batId: history.batId,
  }
}

function estimateOf(value: Decimal, standardUncertainty: Decimal) {
  return {
    value: value.toNumber(),
    standardUncertainty: Decimal.max(standardUncertainty, 0).toNumber(),
  }
}
