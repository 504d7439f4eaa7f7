import { z } from '@hono/zod-openapi'
import { PLACES_INSIDE } from '../shared/place.ts'
import { figure, howSureSchema, idOrNull, moneyAndTotal, trail } from './report-schemas.ts'

const cell = {
  dryGrams: figure('Dry clay, g, exact.'),
  waterGrams: figure('Water, g, exact.', '800'),
  bags: figure('Unopened bags.', '0'),
  pots: figure('Pots.', '10'),
  cost: figure('Cost, exact.', '7.2'),
  dryUncertaintyGrams: figure('One standard deviation of the dry clay, g.', '41'),
  costUncertainty: figure('One standard deviation of the cost.', '0.09'),
  shown: z
    .object({
      dryKilograms: figure('kg', '3.201'),
      waterKilograms: figure('kg', '0.800'),
      cost: figure('In the currency’s digits.', '7.20'),
    })
    .openapi({ description: 'As printed: rounded so that the printed column still adds up.' }),
}

const sure = z
  .object({ dry: howSureSchema, cost: howSureSchema })
  .openapi({ description: 'How sure the dry clay (g) and the cost are.' })

const cellSchema = z.object(cell).openapi('MonthCell')
const isBalance = z
  .boolean()
  .openapi({ description: 'True of opening and closing.', example: false })
const rowName = (example: string) => figure('The row.', example)

const flow = z
  .object({
    row: rowName('thrown'),
    isBalance,
    kind: z
      .string()
      .optional()
      .openapi({ description: 'The kind of entry that it gathers.', example: 'throw' }),
    places: z
      .object(
        Object.fromEntries(PLACES_INSIDE.map((place) => [place, cellSchema])) as Record<
          (typeof PLACES_INSIDE)[number],
          typeof cellSchema
        >,
      )
      .openapi({ description: 'What each place gained (or gave, below zero).' }),
    total: cellSchema,
    trail,
  })
  .openapi('MonthFlow')

const world = z
  .object({
    row: rowName('bought'),
    words: figure('The row in words.', 'bought'),
    place: figure('The place outside.', 'supplier'),
    kinds: z
      .array(z.string())
      .optional()
      .openapi({ description: 'The kinds of entry; left out where it gathers all others there.' }),
    ...cell,
    sure,
    trail,
  })
  .openapi('MonthWorld')

const summary = z
  .object({
    row: rowName('bought'),
    words: figure('The row in words.', 'bought'),
    isBalance,
    isWorld: z.boolean().openapi({
      description:
        'True of what takes part in the sum from opening to closing; a move within, like what went into a fire, is not.',
      example: true,
    }),
    ...cell,
    sure,
    plusMinusKilograms: figure('Half the interval of the dry clay, kg, printed.', '0.080'),
    trail,
  })
  .openapi('MonthSummary')

const sheet = {
  bodyId: idOrNull('The clay; null of all together.'),
  bodyName: idOrNull('Its name.'),
  flows: z.array(flow).openapi({
    description:
      'By kind of entry and place. In each column opening and flows sum to closing; what was unexplained stands in a row of its own.',
  }),
  world: z.array(world).openapi({
    description: 'What came in (plus) and went out (minus): opening and these sum to closing.',
  }),
  summary: z
    .array(summary)
    .openapi({ description: 'The month from opening to closing, in order.' }),
  unexplainedWords: z.string().openapi({
    description: 'What is unexplained, how sure that is, and whether it may as well be nothing.',
    example:
      'Unexplained: -0.141 kg of dry clay, give or take 0.570 kg: not distinguishable from zero.',
  }),
  purchases: z
    .object({
      goods: figure('Price of the clay delivered.', '320'),
      freight: figure('And of its way here.', '40'),
      total: figure('Both.', '360'),
      bags: figure('Bags delivered.', '40'),
      dryGrams: figure('Dry clay delivered, g.', '318000'),
      shown: z
        .object({
          goods: figure('As printed.', '320.00'),
          freight: figure('As printed.', '40.00'),
          total: figure('As printed, and the sum of the two as printed.', '360.00'),
        })
        .openapi({
          description:
            'With the digits of the currency, adding up over the clays to all of them together.',
        }),
      trail,
    })
    .openapi({
      description:
        'What was paid for clay that was delivered; powders wedged in are not in it. Purchases are not cost: that is opening + bought − closing.',
    }),
}

const costRow = z
  .object({
    row: rowName('sold'),
    words: figure('The row in words.', 'sold'),
    money: moneyAndTotal,
    shown: moneyAndTotal.openapi({ description: 'As printed: each column adds up.' }),
  })
  .openapi('MonthCostRow')

const costs = z
  .object({
    rows: z.array(costRow).openapi({
      description:
        'Where money went that is in the studio no more: sold, given away, lost by name.',
    }),
    total: costRow.openapi({ description: 'What the month cost: the sum of the rows.' }),
    opening: moneyAndTotal.openapi({ description: 'What the studio held before.' }),
    cameIn: moneyAndTotal.openapi({
      description:
        'What came in, energy and wear among it, less the elements and shelves put into kilns.',
    }),
    intoKilns: moneyAndTotal.openapi({
      description:
        'Elements and shelves put into kilns: no cost of the month, because firings pay for them a little each.',
    }),
    closing: moneyAndTotal.openapi({ description: 'What it holds after.' }),
    paid: z.array(
      z
        .object({
          row: rowName('materials'),
          words: figure('In words.', 'materials, with their freight'),
          money: figure('Paid, in the studio’s currency.', '65'),
          shown: figure('As printed.', '65.00'),
        })
        .openapi('MonthPaid'),
    ),
    paidTotal: figure('All that was paid.', '117'),
    paidTotalShown: figure('As printed.', '117.00'),
    words: figure('Why purchases are not cost, in figures.', 'Purchases are not cost. …'),
    forms: z
      .array(
        z
          .object({
            formId: z.string().openapi({ example: 'mug' }),
            formName: z.string().openapi({ example: 'Mug' }),
            soldPieces: figure('Pieces sold.', '4'),
            firedKilograms: figure('Fired clay and glaze of them, kg.', '1.3776'),
            money: moneyAndTotal,
            moneyShown: moneyAndTotal,
            perPiece: moneyAndTotal,
            perPieceShown: moneyAndTotal,
            perKilogram: moneyAndTotal.nullable(),
            perKilogramShown: moneyAndTotal.nullable(),
            trail,
          })
          .openapi('MonthFormCost'),
      )
      .openapi({ description: 'What was sold, form by form, a piece and a fired kilogram.' }),
    trail,
  })
  .openapi('MonthCosts')

/** A month of the books, as it is answered. */
export const monthReportSchema = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    studioName: z.string().openapi({ example: 'Wrenfold Yard' }),
    month: z.string().openapi({ example: '2026-03' }),
    currency: z.string().openapi({ example: 'GBP' }),
    timeZone: z.string().openapi({ example: 'Europe/London' }),
    isClosed: z.boolean().openapi({ example: false }),
    ...sheet,
    costs: costs.nullable().openapi({
      description:
        'What the month cost the whole studio, by layer; null where one clay was asked for.',
    }),
    bodies: z
      .array(z.object(sheet).openapi('MonthSheet'))
      .openapi({ description: 'The same for each clay; empty where one was asked for.' }),
  })
  .openapi('MonthReport')
