import { createRoute, z } from '@hono/zod-openapi'
import { dustReport, type DustReport } from '../../../db/reports/dust.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { silicaLimitSchema } from '../../entry-schemas.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  idOrNull,
  REPORT_TAG,
  reportAnswer,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { monthText, studioHeader } from '../../schemas.ts'

const entry = z
  .object({
    entryId: z.string().openapi({ example: '0199c1de-0000-7000-8000-000000000000' }),
    kind: figure('The kind of entry.', 'slake'),
    happenedAt: z.string().openapi({ format: 'date-time' }),
    recordedBy: idOrNull('Who did it.'),
    note: idOrNull('What was noted.'),
    bodyId: figure('The clay; the first of them where there are several.', 'buff'),
    bodyName: figure('Its name.', 'Buff stoneware'),
    isTakenBack: z
      .boolean()
      .openapi({ description: 'True: a later entry took it back.', example: false }),
    cautions: z
      .array(
        z
          .object({
            why: figure('Why it is dusty.', 'Dry clay gives off dust when it is moved.'),
            instead: z.array(z.string()).openapi({ description: 'What to do instead.' }),
          })
          .openapi('DustCaution'),
      )
      .openapi({ description: 'The cautions that go before such work.' }),
    trail,
  })
  .openapi('DustyEntry')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    month: z.string().openapi({ example: '2026-03' }),
    entriesThatStand: z.int().openapi({ description: 'Without those taken back.', example: 3 }),
    words: figure('In words.', 'Dusty work was written down 3 times.'),
    saysNothingOf: figure(
      'What the log does not say.',
      'How much was in the air nobody measured here.',
    ),
    entries: z.array(entry).openapi({ description: 'Oldest first.' }),
    limits: z
      .array(silicaLimitSchema)
      .openapi({ description: 'Published limits of the place, with source and date.' }),
    deferTo: figure('What comes before anything said here.', 'Local law comes first.'),
  })
  .openapi('DustReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/dust',
  operationId: 'reportDust',
  tags: [REPORT_TAG],
  summary: 'The dust log of a month',
  description:
    'Every entry that raised dust: dry clay that was moved, wetted or weighed, bone-dry ware that was loaded, dry work, powders. The cautions are asked again of what each entry kept. It measures no air and says of no room that it is safe.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      month: monthText('The month, on the studio’s wall.'),
      format: formatQuery(['json', 'csv']),
    }),
  },
  responses: {
    200: reportAnswer('The dust log', report, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/dust */
export const dust = newRouter().openapi(route, async (c) => {
  const { month, format } = c.req.valid('query')
  const found = await dustReport(c.get('services').db, { studioId: c.get('studioId'), month })
  if (format !== 'csv') return c.json(found, 200) as never
  return answerCsv(c, {
    fileName: `dust-${month}`,
    columns: COLUMNS,
    rows: found.entries,
  }) as never
})

const COLUMNS: Column<DustReport['entries'][number]>[] = [
  { heading: 'happened_at', value: (one) => one.happenedAt },
  { heading: 'kind', value: (one) => one.kind },
  { heading: 'clay', value: (one) => one.bodyName },
  { heading: 'recorded_by', value: (one) => one.recordedBy },
  { heading: 'why', value: (one) => one.cautions.map(({ why }) => why).join(' ') },
  {
    heading: 'instead',
    value: (one) => one.cautions.flatMap(({ instead }) => instead).join(' '),
  },
  { heading: 'note', value: (one) => one.note },
  { heading: 'is_taken_back', value: (one) => one.isTakenBack },
  { heading: 'trail', value: (one) => one.trail },
]
