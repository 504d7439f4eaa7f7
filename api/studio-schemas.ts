import { z } from '@hono/zod-openapi'
import { isCurrency } from '../shared/money.ts'
import { SECONDS_COST_RULES } from '../shared/seconds-cost.ts'
import { JURISDICTIONS } from '../shared/silica.ts'
import { TRADE_SPEECHES } from '../shared/trade-words.ts'
import { DATE_ORDERS } from '../shared/written-day.ts'
import { MASS_SYSTEMS } from '../shared/written-mass.ts'
import { decimalText } from './decimal-text.ts'
import { idText, labelText } from './schemas.ts'

const name = labelText('What it is called.', 'Wrenfold Yard')
const jurisdiction = z.enum(JURISDICTIONS).openapi({
  description: 'Where it is, for the limits that apply to dust: GB, US, EU, AU or other.',
  example: 'GB',
})
const comparesMakers = z.boolean().openapi({
  description: 'Whether the turning report may compare makers with each other. Off unless said.',
  example: false,
})
const massUnits = z.enum(MASS_SYSTEMS).openapi({
  description:
    'How its pages write masses: metric (g, kg) or pounds_ounces. The API takes any unit and answers in grams.',
  example: 'metric',
})
const dateOrder = z.enum(DATE_ORDERS).openapi({
  description: 'How its pages write days: 14 Mar 2026, Mar 14, 2026 or 2026-03-14.',
  example: 'day_month_year',
})
const tradeWords = z.enum(TRADE_SPEECHES).openapi({
  description: "Whose form of the trade's words its pages use: UK (turnings) or US (trimmings).",
  example: 'UK',
})
const ways = { massUnits, dateOrder, tradeWords }
const costing = {
  secondsCostRule: z.enum(SECONDS_COST_RULES).openapi({
    description:
      'How firsts and seconds share what they cost: like_firsts (each the same; unless it is said otherwise) or by_price (a second as much less as its price is).',
    example: 'by_price',
  }),
  secondsPriceFraction: decimalText(
    'What a second fetches of a first’s price, for by_price; 0.5 unless it is said.',
    { above: '0', atMost: '1' },
  ).openapi({ example: '0.6' }),
  hourlyFigure: decimalText(
    'What an hour of the potter’s own is to be worth, in its money: reports compare with it, and no cost contains it.',
    { atLeast: '0', atMost: '1000000', digitsAfterMax: 6 },
  )
    .openapi({ example: '18.00' })
    .nullable(),
}
const currency = z
  .string()
  .refine(isCurrency, { error: 'It must be a code of ISO 4217 in capitals: EUR, GBP, USD.' })
  .openapi({ description: 'The money it reckons in, ISO 4217; fixed for good.', example: 'GBP' })
const timeZone = z
  .string()
  .refine(isTimeZone, { error: 'It must be a name of the IANA time zone list: Europe/London.' })
  .openapi({
    description: 'The clock on its wall, which tells the month of an entry; fixed for good.',
    example: 'Europe/London',
  })

/** What is said of a new studio. */
export const newStudioSchema = z
  .strictObject({
    studioId: idText('An id of your own; made where none is given.', 'wrenfold-yard').optional(),
    name,
    currency,
    timeZone,
    jurisdiction: jurisdiction.default('other'),
    comparesMakers: comparesMakers.optional(),
    massUnits: massUnits.optional(),
    dateOrder: dateOrder.optional(),
    tradeWords: tradeWords.optional(),
    secondsCostRule: costing.secondsCostRule.optional(),
    secondsPriceFraction: costing.secondsPriceFraction.optional(),
    hourlyFigure: costing.hourlyFigure.optional(),
  })
  .openapi('NewStudio')

/** A studio as it is answered. */
export const studioSchema = z
  .object({
    studioId: z.string(),
    name: z.string(),
    currency: z.string(),
    timeZone: z.string(),
    jurisdiction,
    comparesMakers,
    createdAt: z.string().openapi({ format: 'date-time' }),
    ...ways,
    ...costing,
  })
  .openapi('Studio')

/** What of a studio may change; what is not said stays. */
export const studioChangeFields = { name, jurisdiction, comparesMakers, ...ways, ...costing }

function isTimeZone(name: string): boolean {
  // An offset such as +02:00 would pass, and has no summer.
  if (!/^[A-Za-z]/.test(name)) return false
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== ''
  } catch (error) {
    if (error instanceof RangeError) return false
    throw error
  }
}
