import { createRoute, z } from '@hono/zod-openapi'
import { reclaimReport, type ReclaimReport } from '../../../db/reports/reclaim.ts'
import { RECLAIM_KINDS } from '../../../db/reclaim-acts.ts'
import { RECLAIM_WAYS } from '../../../shared/reclaim-worth.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  idOrNull,
  REPORT_TAG,
  reportAnswer,
  tableQuery,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { monthText, studioHeader } from '../../schemas.ts'
import { faultOfMonths, together } from '../../together.ts'

const way = z.enum(RECLAIM_WAYS).nullable().openapi({
  description: 'by_hand or by_mill; null where nobody said.',
  example: 'by_hand',
})
const minutes = figure('Minutes of hands that were told.', '95')
const reclaimed = figure('Dry clay that came back: lifted, or wedged from scrap, g.', '12400')
const acts = z.int().openapi({ description: 'How many acts.', example: 6 })
const actsUntold = z.int().openapi({ description: 'Of them, with no minutes told.', example: 1 })

const worth = z
  .object({
    clayWorth: figure('What as much dry clay costs in the bag, money.', '14.88'),
    worthPerHour: figure('The same for an hour of work, money.', '9.397895'),
    verdict: z.enum(['pays', 'does_not_pay', 'nothing_to_compare_with']).openapi({
      description: 'Beside the studio’s hourly figure.',
      example: 'does_not_pay',
    }),
    hoursThatPay: idOrNull('In so many hours or fewer it would pay; null without hourly figure.'),
  })
  .openapi('ReclaimWorth')

const wayRow = z
  .object({
    way,
    reclaimedDryGrams: reclaimed,
    minutes: figure('Minutes: its own, and its share of those of no way.', '95'),
    acts,
    actsUntold,
    worth: worth
      .nullable()
      .openapi({ description: 'Null where no price, time or clay is known; words say which.' }),
    words: figure('In words.', 'Buff stoneware by hand: 12.4 kg dry in 1.6 hours saved 14.88.'),
    trail,
  })
  .openapi('ReclaimWay')

const bought = z
  .object({
    when: z.enum(['in_that_time', 'ever']).openapi({
      description: 'ever: none came in that time, so all that came before its end count.',
      example: 'in_that_time',
    }),
    cost: figure('What the deliveries cost with freight, money.', '252.5'),
    dryGrams: figure('The dry clay in them, g.', '200000'),
    pricePerDryKilogram: figure('Money for a kilogram of dry clay.', '1.2625'),
    trail,
  })
  .openapi('ReclaimBought')

const bodyRow = z
  .object({
    bodyId: figure('The clay.', 'buff'),
    bodyName: figure('Its name.', 'Buff stoneware'),
    reclaimedDryGrams: reclaimed,
    minutes,
    minutesShared: figure(
      'Minutes of acts that say no way and gave no clay yet, as slaking and pouring; shared among the ways by dry clay.',
      '40',
    ),
    acts,
    actsUntold,
    bought: bought.nullable().openapi({ description: 'Null where it was never bought.' }),
    boughtWords: figure('The price in words.', 'At what its deliveries in that time cost.'),
    words: figure('Of how many acts minutes were told.', 'Its minutes were told.'),
    ways: z.array(wayRow),
    trail,
  })
  .openapi('ReclaimBody')

const actRow = z
  .object({
    entryId: z.string().openapi({ example: '0199c1de-0000-7000-8000-000000000000' }),
    kind: z.enum(RECLAIM_KINDS).openapi({ description: 'The kind of act.', example: 'lift' }),
    happenedAt: z.string().openapi({ format: 'date-time' }),
    bodyId: figure('The clay.', 'buff'),
    way,
    minutes: idOrNull('Minutes; null where nobody told.'),
    reclaimedDryGrams: reclaimed,
    trail,
  })
  .openapi('ReclaimAct')

const costRows = z
  .object({
    rows: z.array(
      z
        .object({
          row: figure('came_in, in_stock, sold, or lost_ with a name.', 'in_stock'),
          words: figure('In words.', 'is in stock'),
          byMass: figure('Where cost follows mass, as in the books; money.', '34.69'),
          atNil: figure('Where reclaim counts at nil; money.', '34.1'),
          moreAtNil: figure('By how much more at nil; below zero, less.', '-0.59'),
          trail,
        })
        .openapi('ClayCostRow'),
    ),
  })
  .openapi('ClayCostRows')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    currency: z.string().openapi({ example: 'GBP' }),
    from: idOrNull('The first month.'),
    to: idOrNull('The last month.'),
    hourlyFigure: idOrNull('What an hour is to be worth, as the studio says; money.'),
    bodies: z.array(bodyRow).openapi({ description: 'One a clay, so that dear and cheap show.' }),
    words: figure('What the figures are.', 'Minutes are of hands; drying is left out.'),
    acts: z.array(actRow).openapi({ description: 'Each act behind them, oldest first.' }),
    bothRules: z
      .object({
        period: costRows,
        allTime: costRows,
        words: figure('Of the two rules.', 'Over time both come to the same.'),
      })
      .openapi({
        description:
          'What became of clay’s cost where it follows mass and where reclaim counts at nil: what happened in the months, and all that ever did. Came in is what is in stock, sold and lost.',
      }),
  })
  .openapi('ReclaimReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/reclaim',
  operationId: 'reportReclaim',
  tags: [REPORT_TAG],
  summary: 'Whether reclaiming is worth it, clay by clay',
  description:
    'The dry clay that was lifted off plaster or wedged from scrap, by hand or by mill, the minutes that were told for it, and what as much costs in the bag, beside the studio’s hourly figure. Clay and minutes are those of the months that are asked about. Rewetting hard clay is not in it, for that was never scrap. Beside it stands the cost of clay under both rules for reclaim. Entries that were taken back count for nothing.',
  request: {
    headers: studioHeader,
    query: z
      .strictObject({
        from: monthText('Reclaimed in this month or later.').optional(),
        to: monthText('Reclaimed in this month or earlier, and not before from.').optional(),
        format: formatQuery(['json', 'csv']),
        table: tableQuery(['ways', 'acts', 'rules']),
      })
      .superRefine(together(faultOfMonths)),
  },
  responses: {
    200: reportAnswer('What reclaiming is worth', report, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/reclaim */
export const reclaim = newRouter().openapi(route, async (c) => {
  const { format, table = 'ways', from, to } = c.req.valid('query')
  const studioId = c.get('studioId')
  const found = await reclaimReport(c.get('services').db, { studioId, from, to })
  if (format !== 'csv') return c.json(found, 200)
  if (table === 'acts') {
    return answerCsv(c, {
      fileName: 'reclaim-acts',
      columns: ACT_COLUMNS,
      rows: found.acts,
    }) as never
  }
  if (table === 'rules') {
    const columns = ruleColumns(found.currency)
    return answerCsv(c, { fileName: 'reclaim-rules', columns, rows: rulesOf(found) }) as never
  }
  const rows = found.bodies.flatMap((body) => body.ways.map((one) => ({ body, ...one })))
  return answerCsv(c, { fileName: 'reclaim', columns: wayColumns(found), rows }) as never
})

type Body = ReclaimReport['bodies'][number]
type Way = Body['ways'][number] & { readonly body: Body }
type CostRow = ReclaimReport['bothRules']['period']['rows'][number] & { readonly time: string }

function wayColumns({ currency, hourlyFigure }: ReclaimReport): Column<Way>[] {
  return [
    { heading: 'body', value: (row) => row.body.bodyId },
    { heading: 'body_name', value: (row) => row.body.bodyName },
    { heading: 'way', value: (row) => row.way ?? 'not_said' },
    { heading: 'reclaimed_dry_grams', value: (row) => row.reclaimedDryGrams },
    { heading: 'minutes', value: (row) => row.minutes },
    { heading: 'acts_of_the_clay', value: (row) => row.body.acts },
    { heading: 'acts_of_the_clay_untold', value: (row) => row.body.actsUntold },
    {
      heading: `price_per_dry_kilogram_${currency}`,
      value: (row) => row.body.bought?.pricePerDryKilogram ?? null,
    },
    { heading: `clay_worth_${currency}`, value: (row) => row.worth?.clayWorth ?? null },
    { heading: `worth_per_hour_${currency}`, value: (row) => row.worth?.worthPerHour ?? null },
    { heading: `hourly_figure_${currency}`, value: () => hourlyFigure },
    { heading: 'verdict', value: (row) => row.worth?.verdict ?? null },
    { heading: 'hours_that_pay', value: (row) => row.worth?.hoursThatPay ?? null },
    { heading: 'words', value: (row) => row.words },
    { heading: 'trail', value: (row) => row.trail },
  ]
}

const ACT_COLUMNS: Column<ReclaimReport['acts'][number]>[] = [
  { heading: 'happened_at', value: (row) => row.happenedAt },
  { heading: 'kind', value: (row) => row.kind },
  { heading: 'body', value: (row) => row.bodyId },
  { heading: 'way', value: (row) => row.way },
  { heading: 'minutes', value: (row) => row.minutes },
  { heading: 'reclaimed_dry_grams', value: (row) => row.reclaimedDryGrams },
  { heading: 'trail', value: (row) => row.trail },
]

function rulesOf({ bothRules: { period, allTime } }: ReclaimReport): CostRow[] {
  return [
    ...period.rows.map((row) => ({ ...row, time: 'period' })),
    ...allTime.rows.map((row) => ({ ...row, time: 'all_time' })),
  ]
}

function ruleColumns(currency: string): Column<CostRow>[] {
  return [
    { heading: 'time', value: (row) => row.time },
    { heading: 'row', value: (row) => row.row },
    { heading: 'words', value: (row) => row.words },
    { heading: `by_mass_${currency}`, value: (row) => row.byMass },
    { heading: `at_nil_${currency}`, value: (row) => row.atNil },
    { heading: `more_at_nil_${currency}`, value: (row) => row.moreAtNil },
    { heading: 'trail', value: (row) => row.trail },
  ]
}
