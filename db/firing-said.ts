import type { ShareRule } from '../shared/firing-share.ts'
import type { Mass } from '../shared/units.ts'
import type { ReadingSaid } from './readings.ts'

/** Gas that was weighed: the cylinder before and after, or what went of it. */
export interface FuelSaid {
  readonly before?: ReadingSaid | undefined
  readonly after?: ReadingSaid | undefined
  readonly burnt?: Mass | undefined
}

/** What is told of the energy of a fire; kilowatt-hours, hours and prices as they were written. */
export interface EnergySaid {
  readonly meter?: { readonly before: string; readonly after: string } | undefined
  readonly kilowattHours?: string | undefined
  readonly hours?: string | undefined
  readonly fuel?: FuelSaid | undefined
  readonly pricePerKilowattHour?: string | undefined
}

/** What is told of a fire with pots in it. */
export interface FiringSaid extends EnergySaid {
  readonly kilnId: string
  /** Drying the ware before the fire proper; beside what the fire itself took. */
  readonly candling?:
    { readonly kilowattHours?: string | undefined; readonly hours?: string | undefined } | undefined
  readonly fullFraction?: string | undefined
  readonly shareBy?: ShareRule | undefined
}
