import { decimal, toLedgerScale, ZERO, type Decimal } from '../shared/decimal.ts'
import { waterDensityGramsPerMillilitre } from '../shared/slurry.ts'
import { gramsFrom, millilitresFrom, type Mass, type Volume } from '../shared/units.ts'

interface WaterPutIn {
  readonly water?: Mass | undefined
  readonly waterVolume?: Volume | undefined
}

const ROOM_CELSIUS = 20

/** Of every water that has glaze in it. Source: handbook, from practice; local rules come first. */
export const WASTE_WATER_WORDS =
  'Water with glaze in it goes neither into clay reclaim nor down the drain: let it settle and keep the sludge. Local rules on waste say where it goes.'

/** Water by its mass or by its volume. Units: grams, ledger scale. */
export function waterGramsOf(said: WaterPutIn): Decimal {
  if (said.water !== undefined) return gramsFrom(said.water)
  if (said.waterVolume === undefined) return ZERO
  const perMillilitre = waterDensityGramsPerMillilitre(decimal(ROOM_CELSIUS))
  return toLedgerScale(millilitresFrom(said.waterVolume).times(perMillilitre))
}
