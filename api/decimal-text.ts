import { z } from '@hono/zod-openapi'
import { decimal } from '../shared/decimal.ts'
import './words-of-faults.ts'

const DIGITS_BEFORE_MAX = 24
const DIGITS_AFTER_MAX = 12

/** What a decimal may be. Without any of these it is any plain decimal. */
export interface DecimalLimits {
  readonly atLeast?: string
  readonly above?: string
  readonly atMost?: string
  readonly below?: string
  readonly digitsAfterMax?: number
}

/**
 * A decimal as text: digits, at most one point, no exponent. A JSON number is refused, because its last
 * digit, which tells the scale's division, is lost on the way ('12.50' becomes 12.5).
 */
export function decimalText(description: string, limits: DecimalLimits = {}) {
  const digitsAfterMax = limits.digitsAfterMax ?? DIGITS_AFTER_MAX
  const sign = limits.atLeast === undefined && limits.above === undefined ? '-?' : ''
  return z
    .string({ error: (issue) => wordsForWrongType(issue.input) })
    .superRefine((text, context) => {
      const detail = faultOfDecimal(text, limits)
      if (detail !== undefined) context.addIssue({ code: 'custom', message: detail })
    })
    .openapi({
      description: `${description} ${wordsForLimits(limits)}`.trim(),
      pattern: `^${sign}\\d{1,${String(DIGITS_BEFORE_MAX)}}(\\.\\d{1,${String(digitsAfterMax)}})?$`,
      example: limits.below === '1' ? '0.21' : '12.46',
    })
}

/** A share of a whole. */
export const fractionText = (description: string) =>
  decimalText(description, { atLeast: '0', below: '1' })

/** Money in the studio's currency; how many digits that has, `refuseFinerThanCoin` asks after it. */
export const moneyText = (description: string) =>
  decimalText(description, { atLeast: '0', atMost: '1000000000', digitsAfterMax: 6 }).openapi({
    format: 'money',
    example: '24.00',
  })

function wordsForWrongType(input: unknown): string | undefined {
  if (input === undefined) return 'This field is missing. It must be a number as text: "12.46".'
  if (typeof input !== 'number') return 'It must be a number as text: "12.46".'
  return 'This is a JSON number. Send it as text, "12.50", so that its last digit still counts.'
}

/** What is wrong with a decimal, in words, or nothing. */
export function faultOfDecimal(text: string, limits: DecimalLimits): string | undefined {
  return (
    faultOfWriting(text, limits.digitsAfterMax ?? DIGITS_AFTER_MAX) ?? faultOfSize(text, limits)
  )
}

function faultOfWriting(text: string, digitsAfterMax: number): string | undefined {
  if (!/^-?\d+(\.\d+)?$/.test(text)) return faultOfSigns(text)
  const [before = '', after = ''] = text.replace('-', '').split('.')
  if (before.length > DIGITS_BEFORE_MAX) {
    return `At most ${String(DIGITS_BEFORE_MAX)} digits may stand before the point.`
  }
  if (after.length > digitsAfterMax) {
    return `At most ${String(digitsAfterMax)} digits may stand after the point.`
  }
  return undefined
}

function faultOfSigns(text: string): string {
  if (/^[+-]?[\d.]+e[+-]?\d+$/i.test(text)) return 'Write all digits out, without an exponent.'
  if (/^-?\d+,\d+$/.test(text)) return 'Write a point, not a comma: "12.46".'
  return 'This is not a number. Write digits, with a point if need be: "12.46".'
}

function faultOfSize(text: string, limits: DecimalLimits): string | undefined {
  const value = decimal(text)
  const { atLeast, above, atMost, below } = limits
  const isOutside =
    (atLeast !== undefined && value.lessThan(atLeast)) ||
    (above !== undefined && value.lessThanOrEqualTo(above)) ||
    (atMost !== undefined && value.greaterThan(atMost)) ||
    (below !== undefined && value.greaterThanOrEqualTo(below))
  return isOutside
    ? `${text} is outside what is possible here. ${wordsForLimits(limits)}`
    : undefined
}

function wordsForLimits({ atLeast, above, atMost, below }: DecimalLimits): string {
  const bounds = [
    atLeast === undefined ? '' : `at least ${atLeast}`,
    above === undefined ? '' : `above ${above}`,
    atMost === undefined ? '' : `at most ${atMost}`,
    below === undefined ? '' : `below ${below}`,
  ].filter((bound) => bound !== '')
  return bounds.length === 0 ? '' : `It must be ${bounds.join(' and ')}.`
}
