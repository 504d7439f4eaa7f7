import { z } from '@hono/zod-openapi'

export const REPORT_TAG = 'What the books say'
export const TRAIL_TAG = 'Where it comes from'

/** A figure as text. */
export const figure = (description: string, example = '3200.5') =>
  z.string().openapi({ description, example })

export const trail = figure('Where what is behind this is listed.', '/v1/entries?month=2026-03')

export const idOrNull = (description: string) =>
  z.string().nullable().openapi({ description, example: null })

/** What a list of stock says of a holding, or of several together. */
export const stockFigures = {
  wetGrams: figure('Clay and water together, g.', '15700'),
  dryGrams: figure('Dry clay, g; after the fire, fired clay.', '12560'),
  waterGrams: figure('Water, g.', '3140'),
  waterContentWetBasis: z.string().nullable().openapi({
    description: 'Water as a fraction of the wet mass; null of nothing.',
    example: '0.2',
  }),
  pieces: figure('Bags and pots together.', '24'),
  bags: figure('Unopened bags.', '0'),
  pots: figure('Pots, at whatever stage.', '24'),
  cost: figure('What it cost in clay, in the studio’s currency.', '28.26'),
  standardUncertaintyGrams: figure(
    'One standard deviation of the dry mass, g: what one figure makes unsure in several holdings is added up first.',
    '90.1',
  ),
  interval95: z
    .object({ dryGramsFrom: figure('g', '12383.4'), dryGramsTo: figure('g', '12736.6') })
    .openapi({ description: 'The dry mass ± 1.96 standard uncertainties, not below zero.' }),
  costUncertainty: figure('One standard deviation of the cost, which follows the clay.', '0.2'),
  costInterval95: z
    .object({ costFrom: figure('money', '27.87'), costTo: figure('money', '28.65') })
    .openapi({ description: 'The cost ± 1.96 standard uncertainties, not below zero.' }),
}

/** How sure a figure is, in the figure's unit. */
export const howSureSchema = z
  .object({
    standardUncertainty: figure('One standard deviation, in the unit of the figure.', '90.1'),
    interval95: z
      .object({
        from: figure('From, in the unit of the figure.', '12383.4'),
        to: figure('To.', '12736.6'),
      })
      .openapi({ description: 'The figure ± 1.96 standard uncertainties.' }),
    isDistinguishableFromZero: z
      .boolean()
      .openapi({ description: 'False where the interval holds zero.', example: true }),
  })
  .openapi('HowSure')

/** The formats in which a table is had. */
export const formatQuery = (formats: [string, ...string[]]) =>
  z
    .enum(formats)
    .optional()
    .openapi({
      description: `One of ${formats.join(', ')}; json where it is not said.`,
      example: 'json',
    })

/** Which of a report's tables is wanted as CSV. */
export const tableQuery = <const Tables extends readonly [string, ...string[]]>(tables: Tables) =>
  z
    .enum(tables)
    .optional()
    .openapi({
      description: `Of format=csv: which table, ${tables.join(', ')}; ${tables[0]} where it is not said.`,
      example: tables[0],
    })

/** A 200 of a report that can be had in several formats. */
export function reportAnswer(description: string, schema: z.ZodType, texts: readonly string[]) {
  return {
    description,
    content: {
      'application/json': { schema },
      ...Object.fromEntries(
        texts.map((type) => [type, { schema: z.string().openapi({ description }) }]),
      ),
    },
  }
}

const layers = {
  clay: figure('For clay, in the studio’s currency.', '0.9'),
  glaze: figure('For glaze.', '0.1'),
  fire: figure('For firing energy: electricity and gas.', '1.625'),
  wear: figure('For elements and kiln furniture.', '0.325'),
  packaging: figure('For packaging.', '0.5'),
}

/** Money by what it was paid for, in the studio's currency. */
export const moneyOfLayers = z.object(layers).openapi('MoneyOfLayers')

/** The same with what they come to. */
export const moneyAndTotal = z
  .object({ ...layers, total: figure('All of them together.', '3.45') })
  .openapi('MoneyOfLayersAndTotal')
