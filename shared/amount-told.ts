import { decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'

export const DECIMAL_MARKS = ['point', 'comma'] as const

/** What stands between a whole and its part. */
export type DecimalMark = (typeof DECIMAL_MARKS)[number]

/** An amount as a cell has it, with whatever stood beside the digits. */
export interface AmountTold {
  readonly amount: Decimal
  /** The sign or the code of a currency, or nothing. */
  readonly unit: string
}

const CHARACTERS_MAX = 60
const NO_CENTS = /[:.,][-–—]\s*(?=\D*$)/
const PARTS = /^([^\d.,'’+-]*)([+-]?)([^\d.,'’+-]*)((?:\d[\d.,'’ ]*)?\d|[.,]\d+)\s*([^\d]*)$/
const GROUPS: Readonly<Record<DecimalMark, string>> = { point: ",'’ ", comma: ".'’ " }
const MARK: Readonly<Record<DecimalMark, string>> = { point: '\\.', comma: ',' }

/**
 * The amount that a cell of a shop's file names; undefined where it names none, or not in that style.
 *
 * Signs and codes of currencies are taken off and given back. Brackets, and a minus before or after,
 * mean less than nothing. Thousands may be parted by the other mark, an apostrophe or a blank.
 *
 * Units: as written. Source: common usage.
 */
export function amountTold(cell: string, mark: DecimalMark): AmountTold | undefined {
  const text = plainSigns(cell)
  const isBracketed = /^\(.*\)$/.test(text)
  const parts = PARTS.exec(isBracketed ? text.slice(1, -1).trim() : text)
  if (parts === null) return undefined
  const [before, sign, between, digits, after] = parts.slice(1) as [string, ...string[]]
  const number = numberOf(digits ?? '', mark)
  if (number === undefined) return undefined
  const isNegative = isBracketed || sign === '-' || after?.endsWith('-') === true
  return {
    amount: isNegative ? number.negated() : number,
    unit: [before, between, after?.replace(/-$/, '')].join('').trim(),
  }
}

/**
 * How most of a column's amounts can be read, and whether the two styles would make different sums of it.
 *
 * Source: our choice.
 */
export function decimalMarksTold(cells: readonly string[]): {
  readonly marks: readonly DecimalMark[]
  readonly isOpen: boolean
} {
  const counted = DECIMAL_MARKS.map((mark) => ({
    mark,
    read: cells.filter((cell) => amountTold(cell, mark) !== undefined).length,
  }))
  const most = Math.max(...counted.map(({ read }) => read))
  const marks = counted.filter(({ read }) => read === most).map(({ mark }) => mark)
  return { marks, isOpen: marks.length > 1 && cells.some(isReadDifferently) }
}

/**
 * A whole number of pieces; undefined where the cell names none.
 *
 * `2`, `2.0`, `x 2` and `-1` are such numbers, `1.5` is none.
 *
 * Units: pieces, below nothing where they came back. Source: common usage.
 */
export function countTold(cell: string): number | undefined {
  const text = plainSigns(cell).replace(/^[x×]\s*|\s*[x×]$/gi, '')
  const [, digits] = /^([+-]?\d{1,9})(?:[.,]0+)?$/.exec(text) ?? []
  return digits === undefined ? undefined : Number(digits)
}

/**
 * Whether what stands beside an amount may mean the studio's currency: nothing, its code or its sign.
 *
 * Source: ISO 4217 for the code, the Unicode CLDR as the runtime has it for the sign.
 */
export function isOfCurrency(unit: string, currency: string): boolean {
  const said = unit.toUpperCase().replaceAll(/[\s.]/g, '')
  if (said === '' || said === currency) return true
  const signs = (['symbol', 'narrowSymbol'] as const).map((currencyDisplay) =>
    new Intl.NumberFormat('en', { style: 'currency', currency, currencyDisplay })
      .formatToParts(0)
      .find(({ type }) => type === 'currency')
      ?.value.toUpperCase(),
  )
  const withCountry = signs.map((sign) => `${currency.slice(0, 'GB'.length)}${sign ?? ''}`)
  const withCode = signs.map((sign) => `${sign ?? ''}${currency}`)
  return [...signs, ...withCountry, ...withCode].includes(said)
}

function isReadDifferently(cell: string): boolean {
  const [point, comma] = DECIMAL_MARKS.map((mark) => amountTold(cell, mark)?.amount)
  return point !== undefined && comma !== undefined && !point.equals(comma)
}

/**
 * The text with one kind of minus and of blank, and without the dash that stands for no cents. What is
 * longer than any amount is cut off, and so is none.
 */
function plainSigns(cell: string): string {
  return (cell.length > CHARACTERS_MAX ? '' : cell)
    .replaceAll(/[\u2212\u2010-\u2013]/g, '-')
    .replaceAll(/[\s\u00a0\u2007\u2009\u202f]+/g, ' ')
    .trim()
    .replace(NO_CENTS, '')
}

function numberOf(digits: string, mark: DecimalMark): Decimal | undefined {
  const group = `[${GROUPS[mark]}]`
  const whole = `\\d+|\\d{1,3}(?:(${group})\\d{2,3})??(?:${group}\\d{3})+`
  const [, before, , after] = new RegExp(`^(${whole}|)(?:${MARK[mark]}(\\d+))?$`).exec(digits) ?? []
  if (before === undefined || !hasOneGroupSign(before)) return undefined
  if (before === '' && after === undefined) return undefined
  const part = after === undefined ? '' : `.${after}`
  return decimal(`${before.replaceAll(/\D/g, '') || '0'}${part}`)
}

function hasOneGroupSign(whole: string): boolean {
  return new Set(whole.replaceAll(/\d/g, '')).size <= 1
}
