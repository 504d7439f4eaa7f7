import { decimal } from './decimal.ts'
import { SAID_BY_OTHERS } from './trade-words.ts'
import { writtenMass, type MassSystem } from './written-mass.ts'

const NUMBER = String.raw`\d+(?:\.\d+)?`
/** Of a range, `350 to 500 g`, both ends are masses; what is a litre's or of a pot's name is none. */
const PATTERN = new RegExp(
  [
    ...SAID_BY_OTHERS,
    String.raw`(?<![\p{L}\d.])(?:(?<from>${NUMBER}) to )?(?<mass>${NUMBER}) g(?![\p{L}\d/])`,
  ].join('|'),
  'gu',
)

/**
 * A sentence of the program, whose masses are in grams, with the masses as a studio writes them.
 *
 * In a studio of grams it stays to the letter; so does everywhere what stands in quotes, for somebody
 * else said it.
 *
 * Units: grams to pounds and ounces. Source: as `writtenMass`.
 */
export function massesInWords(sentence: string, system: MassSystem): string {
  if (system === 'metric') return sentence
  const written = (grams: string) => writtenMass(decimal(grams), system)
  return sentence.replace(PATTERN, (...match) => {
    const [found] = match
    const { from, mass } = match.at(-1) as { from?: string; mass?: string }
    if (mass === undefined) return found as string
    return from === undefined ? written(mass) : `${written(from)} to ${written(mass)}`
  })
}
