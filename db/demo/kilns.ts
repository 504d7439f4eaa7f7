import type { FiringSaid } from '../firing-said.ts'
import type { Hand } from './hand.ts'

const METER_BEGINS = 41_280
const A_WEEK = 262
const KILN = { kilnId: 'top-loader' } as const

/** A bisque by its meter; in some weeks nobody read it, and the hours must do. */
export function bisqueOf(hand: Hand, week: number): FiringSaid {
  const candling = { kilowattHours: '6' }
  if (week % 6 === 4) return { ...KILN, hours: '9.5', candling }
  return { ...KILN, ...metered(hand, { from: METER_BEGINS + week * A_WEEK, took: 98 }), candling }
}

/** A glaze firing by its meter. */
export function glazeOf(hand: Hand, week: number): FiringSaid {
  return { ...KILN, ...metered(hand, { from: METER_BEGINS + week * A_WEEK + 112, took: 139 }) }
}

function metered(hand: Hand, meter: { from: number; took: number }) {
  const took = hand.wobble('kiln', 0.04).times(meter.took).toDecimalPlaces(0)
  return { meter: { before: String(meter.from), after: took.plus(meter.from).toFixed() } }
}

/** One jar alone in a big kiln: most of what that costs heats empty room. */
export const JAR_BISQUE: FiringSaid = { ...KILN, kilowattHours: '71', fullFraction: '0.3' }

/** Its glaze fire is by gas, the bottle weighed before and after. */
export const JAR_GLAZE: FiringSaid = {
  kilnId: 'gas-drum',
  fuel: {
    before: { net: { value: '24.6', unit: 'kg' }, scaleId: 'platform' },
    after: { net: { value: '16.4', unit: 'kg' }, scaleId: 'platform' },
  },
  fullFraction: '0.45',
}
