import type { Decimal } from './decimal.ts'
import { minorUnitDigits, printedAmount } from './money.ts'

/**
 * Money as a studio writes it: `£3.20`, `-$1,250.00`, `CHF 40.00`.
 *
 * Units: of the currency, in the digits in which it is paid; rounded half to even.
 * Source: the symbols of the Unicode CLDR as the runtime has them; digits as `minorUnitDigits`.
 */
export function writtenMoney(amount: Decimal, currency: string): string {
  const printed = printedAmount(amount, minorUnitDigits(currency))
  const sign = printed.startsWith('-') ? '-' : ''
  const symbol = symbolOf(currency)
  const between = /\p{L}$/u.test(symbol) ? ' ' : ''
  return `${sign}${symbol}${between}${inThousands(printed.replace('-', ''))}`
}

function symbolOf(currency: string): string {
  const parts = new Intl.NumberFormat('en-GB', {
    style: 'currency',
    currency,
    currencyDisplay: 'narrowSymbol',
  }).formatToParts(0)
  return parts.find(({ type }) => type === 'currency')?.value ?? currency
}

function inThousands(digits: string): string {
  const [whole = '', ...rest] = digits.split('.')
  return [whole.replace(/\B(?=(\d{3})+$)/g, ','), ...rest].join('.')
}
