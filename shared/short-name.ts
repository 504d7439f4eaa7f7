/** Room for a number behind it, where several things are called the same. */
const CHARACTERS_MAX = 48
const MARKS = /\p{M}/gu
const NEITHER_LETTER_NOR_DIGIT = /[^a-z0-9]+/g

/**
 * The short name of a thing, made from what it is called: `Turnings, white lid` is `turnings-white-lid`.
 *
 * Small letters, digits and hyphens, fit for an address and for chalk on a bucket. Letters lose their
 * accents; what is left of a name in another script may be nothing.
 *
 * Units: none. Source: our choice; Unicode normal form KD takes the accents off.
 */
export function shortName(name: string): string {
  const plain = name.normalize('NFKD').replaceAll(MARKS, '').replaceAll('ß', 'ss').toLowerCase()
  const words = plain.replaceAll(NEITHER_LETTER_NOR_DIGIT, '-').replace(/^-/, '')
  return words.slice(0, CHARACTERS_MAX).replace(/-$/, '')
}
