import { decimal, toLedgerScale, ZERO, type Decimal } from '../shared/decimal.ts'
import { waterDensityGramsPerMillilitre } from '../shared/slurry.ts'
import { gramsFrom, millilitresFrom, type Mass, type Volume } from '../shared/units.ts'

/** Clay in drawn-off water when nobody measured it: 0.1 to 0.5 %, and 1 to 5 %. Common practice, no source. */
export const SOLIDS = { clear: decimal('0.003'), cloudy: decimal('0.03') } as const
export const SOLIDS_UNCERTAINTY = { clear: decimal('0.001'), cloudy: decimal('0.01') } as const

/** Of every water that has glaze in it. Source: handbook, from practice; local rules come first. */
export const WASTE_WATER_WORDS =
  'Water with glaze in it goes neither into clay reclaim nor down the drain: let it settle and keep the sludge. Local rules on waste say where it goes.'

const ROOM_CELSIUS = 20

/** Water by its mass or by its volume. Units: grams, ledger scale. */
export function waterGramsOf(said: {
  readonly water?: Mass | undefined
  readonly waterVolume?: Volume | undefined
}): Decimal {
  if (said.water !== undefined) return gramsFrom(said.water)
  if (said.waterVolume === undefined) return ZERO
  const perMillilitre = waterDensityGramsPerMillilitre(decimal(ROOM_CELSIUS))
  return toLedgerScale(millilitresFrom(said.waterVolume).times(perMillilitre))
}
