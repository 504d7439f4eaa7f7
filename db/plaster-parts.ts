import { decimal, type Decimal } from '../shared/decimal.ts'
import type { LoadFigures } from '../shared/plaster-load.ts'
import { trailTo } from './trail-links.ts'
import type { WallClock } from './wall-clock.ts'

export interface BatRow {
  readonly standing: string
  readonly at: string | null
  readonly dryGrams: Decimal | null
  readonly nowGrams: Decimal | null
  readonly holdsGrams: Decimal | null
  readonly heldFractionOfDry: Decimal | null
  readonly drinksStillGramsFrom: Decimal | null
  readonly drinksStillGramsTo: Decimal | null
  readonly words: string
}

export interface WaterWentRow {
  readonly at: string
  readonly leftGrams: Decimal
  readonly drunkGrams: Decimal
  readonly evaporatedGrams: Decimal
  readonly leftStandardUncertaintyGrams: Decimal
  readonly drunkStandardUncertaintyGrams: Decimal
  readonly evaporatedStandardUncertaintyGrams: Decimal
}

export interface WeighInRow {
  readonly at: string
  readonly hoursSinceLaid: Decimal
  readonly slabGrams: Decimal
  readonly standardUncertaintyGrams: Decimal
  readonly waterContentWetBasis: Decimal | null
  readonly waterContentStandardUncertainty: Decimal | null
  readonly waterToGoGrams: Decimal | null
  readonly waterToGoStandardUncertaintyGrams: Decimal | null
  readonly isUsed: boolean
  readonly words: string
  readonly trail: string
}

export interface PairRow {
  readonly at: string
  readonly hoursSinceLaid: Decimal
  readonly pairGrams: Decimal
  readonly evaporatedGrams: Decimal | null
  readonly waterInBothGrams: Decimal | null
  readonly waterContentWetBasisMax: Decimal | null
  readonly words: string
  readonly trail: string
}

const HOUR_DIGITS = 2
const SHARE_DIGITS = 4

/** The bat under a load. Units: grams, fractions of its dry mass. */
export function batRow({ bat }: LoadFigures, clock: WallClock): BatRow {
  const { thirst } = bat
  return {
    standing: bat.standing,
    at: clock.timeOr(bat.at),
    dryGrams: bat.dryGrams ?? null,
    nowGrams: bat.nowGrams ?? null,
    holdsGrams: thirst?.holdsGrams ?? null,
    heldFractionOfDry: thirst?.heldFractionOfDry.toDecimalPlaces(SHARE_DIGITS) ?? null,
    drinksStillGramsFrom: thirst?.drinksStillGramsMin ?? null,
    drinksStillGramsTo: thirst?.drinksStillGramsMax ?? null,
    words: bat.words,
  }
}

/** Where the water went; null where that is not known. Units: grams. */
export function waterWentRow({ waterWent }: LoadFigures, clock: WallClock): WaterWentRow | null {
  if (waterWent === undefined) return null
  const { at, doubt, ...went } = waterWent
  return {
    ...went,
    at: clock.time(at),
    leftStandardUncertaintyGrams: doubt.leftGrams,
    drunkStandardUncertaintyGrams: doubt.drunkGrams,
    evaporatedStandardUncertaintyGrams: doubt.evaporatedGrams,
  }
}

/** A weigh-in of the slab alone. Units: grams, hours, fractions of the wet mass. */
export function weighInRow(one: LoadFigures['weighIns'][number], clock: WallClock): WeighInRow {
  const { reading } = one
  return {
    at: clock.time(reading.at),
    hoursSinceLaid: hours(one.hours),
    slabGrams: reading.grams,
    standardUncertaintyGrams: reading.standardUncertaintyGrams,
    waterContentWetBasis: one.waterContentWetBasis ?? null,
    waterContentStandardUncertainty: one.doubt?.waterContentWetBasis ?? null,
    waterToGoGrams: one.waterToGoGrams ?? null,
    waterToGoStandardUncertaintyGrams: one.doubt?.waterToGoGrams ?? null,
    isUsed: one.isUsed,
    words: one.words,
    trail: trailTo('entries', reading.entryId),
  }
}

/** A weighing of slab and bat together. Units: grams, hours, fractions of the wet mass. */
export function pairRow(one: LoadFigures['pairs'][number], clock: WallClock): PairRow {
  const { reading } = one
  return {
    at: clock.time(reading.at),
    hoursSinceLaid: hours(one.hours),
    pairGrams: reading.grams,
    evaporatedGrams: one.evaporatedGrams ?? null,
    waterInBothGrams: one.waterInBothGrams ?? null,
    waterContentWetBasisMax: one.waterContentWetBasisMax ?? null,
    words: one.words,
    trail: trailTo('entries', reading.entryId),
  }
}

/** Units: hours to two digits. */
export function hours(count: number): Decimal {
  return decimal(count.toFixed(HOUR_DIGITS))
}
