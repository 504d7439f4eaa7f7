import type { Context } from 'hono'
import { viewStudio } from '../db/catalogue-studios.ts'
import { decimal } from '../shared/decimal.ts'
import { minorUnitDigits } from '../shared/money.ts'
import { FaultOfForm, pointerTo } from './faults.ts'
import type { Environment } from './services.ts'

/** The fields in which money is said; the suite over every route sees that there are no others. */
export const MONEY_FIELDS: readonly string[] = ['price', 'priceEach', 'freight', 'cost']

interface SaidMoney {
  readonly path: readonly PropertyKey[]
  readonly text: string
}

/**
 * Refuses money that cannot be paid in the coins of the studio.
 *
 * Which coins those are no schema knows, so this is asked after it: money is at fault in its form, as
 * any other field.
 */
export async function refuseFinerThanCoin(c: Context<Environment>, said: unknown): Promise<void> {
  const money = moneyIn(said, [])
  if (money.length === 0) return
  const { currency } = await viewStudio(c.get('services').db, c.get('studioId'))
  const digits = minorUnitDigits(currency)
  const faults = money
    .filter(({ text }) => decimal(text).decimalPlaces() > digits)
    .map(({ path }) => ({ pointer: pointerTo(path), detail: wordsFor(currency, digits) }))
  if (faults.length > 0) throw new FaultOfForm(faults)
}

/** Every amount of money in what was said, however deep. */
function moneyIn(said: unknown, path: readonly PropertyKey[]): SaidMoney[] {
  if (typeof said !== 'object' || said === null) return []
  return Object.entries(said).flatMap(([name, value]: [string, unknown]) => {
    const at = [...path, name]
    const isMoney = typeof value === 'string' && MONEY_FIELDS.includes(name)
    return isMoney ? [{ path: at, text: value }] : moneyIn(value, at)
  })
}

function wordsFor(currency: string, digits: number): string {
  if (digits === 0) return `${currency} has no digits after the point. Write whole ${currency}.`
  return `${currency} has ${String(digits)} digits after the point; this has more.`
}
