import { z } from '@hono/zod-openapi'
import { decimal, type Decimal } from '../shared/decimal.ts'
import type { Change } from '../shared/what-changes-if.ts'
import { idText, monthText } from './schemas.ts'
import { faultOfMonths, together } from './together.ts'

/** A rise as text; below zero it falls. */
const rise = (description: string, example: string) =>
  z
    .string()
    .regex(/^-?\d{1,4}(\.\d{1,4})?$/, { error: 'It must be a number such as 20 or -2.5.' })
    .refine((text) => !(Number(text) < -100), { error: 'It must be -100 or more.' })
    .optional()
    .openapi({ description, example })

const full = (description: string, example: string) =>
  z
    .string()
    .regex(/^\d{1,3}(\.\d{1,4})?$/, { error: 'It must be a number such as 70.' })
    .refine((text) => !(Number(text) <= 0 || Number(text) > 100), {
      error: 'It must be more than 0 and at most 100.',
    })
    .optional()
    .openapi({ description, example })

/** What is asked of a form: of which months, and what would change. */
export const whatIfAsked = z
  .strictObject({
    formId: idText('The form.', 'mug'),
    from: monthText('Sold in this month or later.').optional(),
    to: monthText('Sold in this month or earlier.').optional(),
    clay: rise('The price of clay rises by so many percent.', '20'),
    glaze: rise('The price of glaze rises by so many percent.', '10'),
    energy: rise('The price of energy rises by so many percent.', '30'),
    packaging: rise('The price of packaging rises by so many percent.', '5'),
    yieldAfterBisque: rise('So many more of a hundred come through the kiln, in points.', '3'),
    kilnFullFrom: full('How full the kiln was, percent; 100 where it is not said.', '60'),
    kilnFullTo: full('How full it would be, percent; 100 where it is not said.', '90'),
  })
  .superRefine(together(faultOfMonths))
export type WhatIfChanges = Omit<z.infer<typeof whatIfAsked>, 'formId' | 'from' | 'to'>

/** What was asked, as the change that the cost of a piece is worked out for. */
export function changeOf(asked: WhatIfChanges): Change {
  const { clay, glaze, energy, packaging, yieldAfterBisque, kilnFullFrom, kilnFullTo } = asked
  const told = { clay, glaze, fire: energy, packaging }
  const priceRise = Object.fromEntries(
    Object.entries(told).flatMap(([layer, percent]): [string, Decimal][] =>
      percent === undefined ? [] : [[layer, hundredth(percent)]],
    ),
  )
  const isFillTold = kilnFullFrom !== undefined || kilnFullTo !== undefined
  return {
    priceRise,
    ...(yieldAfterBisque === undefined
      ? {}
      : { yieldAfterBisqueRise: hundredth(yieldAfterBisque) }),
    ...(isFillTold
      ? { kilnFill: { from: hundredth(kilnFullFrom ?? '100'), to: hundredth(kilnFullTo ?? '100') } }
      : {}),
  }
}

function hundredth(percent: string): Decimal {
  return decimal(percent).dividedBy(100)
}
