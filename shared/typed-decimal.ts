/** Digits before one comma and three behind it: a thousand in one country, one and a bit in another. */
const TWO_WAYS = /^[1-9]\d{0,2},\d{3}$/

/** What somebody typed as a number, with a point; or what is wrong with it. */
export type TypedDecimal = { readonly text: string } | { readonly fault: string }

/**
 * Digits with a decimal point, also where a comma was typed for it.
 *
 * A comma before exactly three digits is not taken for either: 1,250 may be a thousand and more.
 *
 * Units: as typed. Source: our choice, because both ways of writing are in use.
 */
export function typedDecimal(typed: string): TypedDecimal {
  const text = typed.trim()
  if (!TWO_WAYS.test(text)) return { text: text.replace(',', '.') }
  const thousands = text.replace(',', '')
  const decimals = text.replace(',', '.')
  return { fault: `${text} can be read in two ways. Write ${thousands} or ${decimals}.` }
}
