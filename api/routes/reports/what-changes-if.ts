import { createRoute, z } from '@hono/zod-openapi'
import { whatIfReport } from '../../../db/reports/what-changes-if.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  idOrNull,
  moneyOfLayers,
  REPORT_TAG,
  reportAnswer,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { studioHeader } from '../../schemas.ts'
import { changeOf, whatIfAsked } from '../../what-if-asked.ts'

const after = z
  .object({
    own: moneyOfLayers,
    ofLost: moneyOfLayers,
    total: figure('A sold piece, all layers.', '3.6'),
    difference: figure('After less before.', '0.15'),
  })
  .openapi('CostAfterChange')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    currency: z.string().openapi({ example: 'GBP' }),
    formId: z.string().openapi({ example: 'mug' }),
    before: z
      .object({
        own: moneyOfLayers.openapi({ description: 'What the piece itself took, by layer.' }),
        ofLost: moneyOfLayers.openapi({ description: 'Its share of what was lost after bisque.' }),
        yieldAfterBisque: figure('What came through of what came to the kiln.', '0.8'),
        yieldBeforeBisque: figure('What came to the kiln of what was thrown.', '1'),
        total: figure('Both together.', '3.45'),
      })
      .openapi('CostBeforeChange')
      .nullable()
      .openapi({ description: 'A sold piece as it was; null where none was sold in that time.' }),
    effects: z
      .object({
        together: after,
        alone: z.array(
          z.object({ words: figure('The change.', 'price of clay'), after }).openapi('EffectAlone'),
        ),
        interplay: figure('What they do together beyond each alone.', '0'),
      })
      .openapi('Effects')
      .nullable(),
    prices: z
      .object({
        sameMoney: figure('The price that leaves the same money.', '24.15'),
        samePart: idOrNull('The price of which materials stay the same part.'),
        words: figure('In words.', 'Materials go from 3.45 to 3.60 a piece.'),
      })
      .openapi('PricesThatKeep')
      .nullable()
      .openapi({ description: 'Null where the form has no price.' }),
    words: figure('In words.', 'Materials go from 3.45 to 3.60 a piece.'),
    trail,
  })
  .openapi('WhatIfReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/what-changes-if',
  operationId: 'reportWhatChangesIf',
  tags: [REPORT_TAG],
  summary: 'What a sold piece would cost if prices, yields or the filling of the kiln changed',
  description:
    'From what a sold piece of the form cost in that time: each change by itself and all together, and the price that would leave the same money, or keep materials the same part of it. Prices change in percent, the yield in points, at most to all of it.',
  request: { headers: studioHeader, query: whatIfAsked },
  responses: { 200: reportAnswer('What it would cost', report, []), ...problemsOfReading },
})

/** GET /v1/reports/what-changes-if */
export const whatChangesIf = newRouter().openapi(route, async (c) => {
  const { formId, from, to, ...changes } = c.req.valid('query')
  const asked = { studioId: c.get('studioId'), formId, from, to, change: changeOf(changes) }
  return c.json(await whatIfReport(c.get('services').db, asked), 200) as never
})
