import type { ReadingSaid } from '../../db/readings.ts'
import type { WaterSaid } from '../../db/water-figures.ts'
import { decimal, Decimal } from '../../shared/decimal.ts'
import type { Mass } from '../../shared/units.ts'
import type { Dice } from '../support/arbitraries.ts'

/** What shares of a holding are asked for; a little more than there is among them. */
const SHARES = ['0.1', '0.25', '1', '0.02', '0.333333', '0.5', '0.9', '1.05'] as const

/** A mass to be weighed of something that holds so many grams: mostly a part, at times all or more. */
export function partOf(wetGrams: Decimal, dice: Dice): Decimal {
  return wetGrams.times(dice.pick(SHARES))
}

/**
 * A reading as a potter may take it of so many grams: net, or gross with a vessel; in any unit; on a
 * scale that is named or not; now and then one that cannot be.
 */
export function readingOf(grams: Decimal, dice: Dice): ReadingSaid {
  if (dice.isOnceIn(20)) return foolishReading(dice)
  const exact = gramsOf(grams, 6)
  const ways: readonly [ReadingSaid, ...ReadingSaid[]] = [
    { net: exact },
    { net: gramsOf(grams, 0) },
    { net: { value: atLeast(grams.dividedBy(1000), 2), unit: 'kg' } },
    { gross: gramsOf(grams.plus(400), 0), inVesselId: 'bucket-3' },
    { gross: gramsOf(grams.plus('123.4'), 1), tare: { value: '123.4', unit: 'g' } },
    { net: exact, scaleId: 'bench' },
    { net: { value: atLeast(grams.dividedBy('453.59237'), 3), unit: 'lb' } },
    { net: { value: atLeast(grams.dividedBy('28.349523125'), 1), unit: 'oz' } },
  ]
  return dice.pick(ways)
}

/** Whole grams at most a few thousand, where no holding says what is sensible. */
export function someGrams(dice: Dice, max: number): Decimal {
  return decimal(1 + dice.roll(max))
}

export function gramsOf(grams: Decimal, digits: number): Mass {
  return { value: atLeast(grams, digits), unit: 'g' }
}

/** Rounded to so many digits, and never to nothing. */
function atLeast(amount: Decimal, digits: number): string {
  return Decimal.max(amount, decimal(10).toPower(-digits)).toFixed(digits)
}

function foolishReading(dice: Dice): ReadingSaid {
  const ways: readonly [ReadingSaid, ...ReadingSaid[]] = [
    { net: { value: '0', unit: 'g' } },
    { net: { value: '0.000001', unit: 'g' } },
    { net: { value: '0.0000001', unit: 'g' } },
    { net: { value: '100000', unit: 'kg' } },
    { net: { value: '10005', unit: 'g' }, scaleId: 'bench' },
    { gross: { value: '399', unit: 'g' }, inVesselId: 'bucket-1' },
    { gross: { value: '1', unit: 'kg' }, inVesselId: 'no-vessel' },
    { net: { value: '1', unit: 'kg' }, scaleId: 'no-scale' },
  ]
  return dice.pick(ways)
}

/** What may be said of the water in a clay: mostly nothing, so that the books must know. */
export function waterOf(dice: Dice): WaterSaid | undefined {
  const sample = (dry: string) => ({
    sample: {
      tin: { value: '20.0', unit: 'g' as const },
      wetWithTin: { value: '120.0', unit: 'g' as const },
      dryWithTin: { value: dry, unit: 'g' as const },
    },
  })
  return dice.pick<WaterSaid | undefined>([
    undefined,
    undefined,
    { content: '0.2', basis: 'wet', standing: 'measured' },
    { content: '0.3', basis: 'dry' },
    { content: '0.15', basis: 'wet', standardUncertainty: '0.000123456789' },
    sample('98.7'),
    { content: '0', basis: 'wet', standardUncertainty: '0' },
    { content: '0.999999', basis: 'wet' },
    dice.isOnceIn(4) ? { content: '1', basis: 'wet' } : sample('99.1'),
    dice.isOnceIn(4) ? sample('120.1') : { content: '80', basis: 'dry' },
  ])
}

/** Money as written, of a few digits or of all that the ledger keeps. */
export function priceOf(dice: Dice): string {
  return dice.pick(['12.50', '0', '0.01', '199.99', '0.333333', '86.4', '0.000001'])
}
