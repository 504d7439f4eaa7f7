import type { Decimal } from './decimal.ts'
import type { Doubt } from './doubt.ts'
import type { DryMassMethod } from './dry-mass.ts'
import type { ClayState, Standing } from './moisture.ts'
import type { ActKind } from './month-world.ts'
import type { Place } from './place.ts'

/** A holding as a balance of the month needs it. */
export interface BookedHolding {
  readonly holdingId: string
  readonly place: Place
  readonly bodyId: string
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  /** As a sentence can call it: `Bucket 1`, `Mug of 2026-05-12`. */
  readonly name: string
  /** What the books had there when the month began. Units: grams. */
  readonly openingDryGrams: Decimal
  /** What makes that unsure, by source, as the ledger keeps it. */
  readonly openingDryDoubt: Doubt
  /** What they have there now, whenever the month was. Units: grams. */
  readonly nowDryGrams: Decimal
}

export interface BookedLine {
  readonly holdingId: string
  readonly dryGrams: Decimal
  /** What makes that unsure, by source, as the ledger keeps it. */
  readonly dryDoubt: Doubt
  readonly pieces: Decimal
}

export interface BookedEstimate {
  readonly estimateNo: number
  readonly holdingId: string
  readonly of: string
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  readonly method: DryMassMethod
  readonly standing: Standing
  readonly standardUncertaintyGrams: Decimal
  readonly weighingNo: number | null
}

export interface BookedWeighing {
  readonly weighingNo: number
  /** The field of the act that it was read for: `reading`, `from/0/ballMass`. */
  readonly purpose: string
  readonly kind: string
  readonly netGrams: Decimal
  readonly tareGrams: Decimal
  readonly standardUncertaintyGrams: Decimal
  readonly vesselId: string | null
  /** As it was read off the scale. */
  readonly read: { readonly value: string; readonly unit: string }
}

/** One entry that stands, with what was read and estimated for it. */
export interface BookedEntry {
  readonly entryId: string
  readonly kind: ActKind
  /** The request, as it was said. */
  readonly said: unknown
  /** As a sentence says it: `14 May`. */
  readonly day: string
  /** By the clock on the wall: `14:05`. */
  readonly time: string
  readonly state: ClayState | null
  readonly stage: string | null
  /** The lots that clay was taken from, in the order in which it was said. */
  readonly fromLotIds: readonly string[]
  /** How many balls, or bags, each of these was; null where that was not said. */
  readonly counts: readonly (number | null)[]
  readonly batIds: readonly string[]
  readonly lines: readonly BookedLine[]
  readonly estimates: readonly BookedEstimate[]
  readonly weighings: readonly BookedWeighing[]
}

/** Something that has a tare, or that clay may be weighed with. */
export interface Tare {
  readonly id: string
  readonly name: string
  readonly grams: Decimal
}

/** A month of the books of one clay, oldest entry first; reversals and what they take back left out. */
export interface BalanceBook {
  readonly bodyId: string
  readonly lossOnIgnitionFraction: Decimal
  readonly holdings: readonly BookedHolding[]
  readonly entries: readonly BookedEntry[]
  readonly vessels: readonly Tare[]
  readonly bats: readonly Tare[]
  /** From when on the books are open; null where no month is closed. ISO 8601. */
  readonly openFrom: string | null
  /** True where the month itself is closed. */
  readonly isClosed: boolean
}
