import { decimal, type Decimal } from './decimal.ts'

/** The heaviest bag that the trade sells is 25 kg or 50 lb; a third more is doubtful. Our choice. */
const BAG_GRAMS_MAX = decimal(34_000)
/** The lightest are 5 kg; a kilogram is more likely a ball, or grams for kilograms. Our choice. */
const BAG_GRAMS_MIN = decimal(1_000)
/** A pallet is a tonne; what is far more came in a lorry. Our choice. */
const BAGS_MAX = 400
/** What a person lifts of a wet or dry sample: a slice of 10 to 100 g, and its tin. Our choice. */
const SAMPLE_GRAMS_MAX = decimal(2_000)

/**
 * What a slip of the pen looks like in bags that came in: asked, never refused.
 *
 * Units: grams of one bag. Source: packs of 10 to 25 kg and 25 to 50 lb, 80 bags to the tonne, seen in
 * public sources; how far beyond them is asked is our choice.
 */
export function doubtfulBags({ bags, bagGrams }: { bags: number; bagGrams: Decimal }): string[] {
  const asked: string[] = []
  if (bagGrams.greaterThan(BAG_GRAMS_MAX)) {
    asked.push('That is heavy for one bag. Is it the mass of all bags together?')
  }
  if (bagGrams.lessThan(BAG_GRAMS_MIN)) {
    asked.push('That is light for one bag. Is the unit right?')
  }
  if (bags > BAGS_MAX) asked.push(`${String(bags)} bags are several lorry loads. Is that right?`)
  return asked
}

/**
 * What a slip of the pen looks like in a dried sample: asked, never refused.
 *
 * Units: grams, each with its tin. Source: slices of 10 to 100 g, seen in public sources; the bound is our choice.
 */
export function doubtfulSample(sample: { wetWithTin: Decimal }): string[] {
  if (!sample.wetWithTin.greaterThan(SAMPLE_GRAMS_MAX)) return []
  return ['That is a heavy sample. Is the unit right?']
}
