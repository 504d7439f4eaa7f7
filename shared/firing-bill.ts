import { assert } from './assert.ts'
import { LEDGER_SCALE, ZERO, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { roundedToSum } from './money.ts'

/** What a kiln took, told apart by what for. */
export interface KilnEnergy {
  /** Drying and warming this load before its firing. */
  readonly candlingKilowattHours: Decimal
  readonly firingKilowattHours: Decimal
  /** With nothing in it: candled empty, held, or on standby. Never on pots. */
  readonly idleKilowattHours: Decimal
}

/** The money of a firing. */
export interface FiringBill {
  readonly candlingCost: Decimal
  readonly firingCost: Decimal
  readonly gasCost: Decimal
  /** Candling, firing and gas: what the pots of the load carry. */
  readonly loadCost: Decimal
  /** What no pot carries. */
  readonly idleCost: Decimal
}

/**
 * What electricity costs.
 *
 * Units: kilowatt-hours times money a kilowatt-hour, rounded once to ledger scale.
 * Source: arithmetic.
 */
export function electricityCost(used: {
  readonly kilowattHours: Decimal
  readonly pricePerKilowattHour: Decimal
}): Decimal {
  assert(
    !used.kilowattHours.isNegative() && !used.pricePerKilowattHour.isNegative(),
    'energy and its price are not below zero',
  )
  return toLedgerScale(used.kilowattHours.times(used.pricePerKilowattHour))
}

/**
 * What a firing costs: candling and firing on the load, idle hours apart, gas at its own cost.
 *
 * Candling and firing are rounded together, so that the two make up what the load carries.
 *
 * Shape: nothing below zero. Units: money at ledger scale.
 * Source: arithmetic; that an empty kiln's energy goes on no pot is our choice.
 */
export function firingBill(used: {
  readonly energy: KilnEnergy
  readonly pricePerKilowattHour: Decimal
  readonly gasCost?: Decimal
}): FiringBill {
  const { energy, pricePerKilowattHour, gasCost = ZERO } = used
  const { candlingKilowattHours, firingKilowattHours, idleKilowattHours } = energy
  assert(
    [candlingKilowattHours, firingKilowattHours, pricePerKilowattHour, gasCost].every(
      (one) => !one.isNegative(),
    ),
    'energy and its price are not below zero',
  )
  const onLoad = [candlingKilowattHours, firingKilowattHours].map((one) =>
    one.times(pricePerKilowattHour),
  )
  const [candlingCost = ZERO, firingCost = ZERO] = roundedToSum(onLoad, LEDGER_SCALE)
  const keptGasCost = toLedgerScale(gasCost)
  return {
    candlingCost,
    firingCost,
    gasCost: keptGasCost,
    loadCost: candlingCost.plus(firingCost).plus(keptGasCost),
    idleCost: electricityCost({ kilowattHours: idleKilowattHours, pricePerKilowattHour }),
  }
}
