import { decimal } from '../shared/decimal.ts'

/** Clay in drawn-off water when nobody measured it: 0.1 to 0.5 %, and 1 to 5 %. Common practice, no source. */
export const SOLIDS = { clear: decimal('0.003'), cloudy: decimal('0.03') } as const
export const SOLIDS_UNCERTAINTY = { clear: decimal('0.001'), cloudy: decimal('0.01') } as const
