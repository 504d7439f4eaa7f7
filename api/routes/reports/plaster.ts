import { createRoute, z } from '@hono/zod-openapi'
import { plasterBoard, plasterOfLoad, type PlasterBoard } from '../../../db/reports/plaster.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { emptyBatSchema, plasterLoadSchema } from '../../plaster-schemas.ts'
import { problemAnswer, problemsOfReading } from '../../problem.ts'
import { figure, formatQuery, REPORT_TAG, reportAnswer, tableQuery } from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { idText, studioHeader } from '../../schemas.ts'

const board = z
  .object({
    studioId: figure('The studio.', 'wrenfold-yard'),
    timeZone: figure('Of the studio’s clock, by which every moment is told.', 'Europe/London'),
    at: figure('The moment that was asked about: now.', '2026-05-14T18:00:00+01:00'),
    pastLoads: z.int().openapi({
      description:
        'How many past loads of this studio are learnt from: the latest that were weighed, at most 30.',
      example: 12,
    }),
    loads: z.array(plasterLoadSchema).openapi({ description: 'One a loaded bat.' }),
    emptyBats: z.array(emptyBatSchema).openapi({ description: 'One a bat that carries nothing.' }),
  })
  .openapi('PlasterBoard')

const boardRoute = createRoute({
  method: 'get',
  path: '/v1/reports/plaster',
  operationId: 'reportPlaster',
  tags: [REPORT_TAG],
  summary: 'What dries on plaster, when it is ready, and what to do',
  description:
    'Each bat with its slab: water now, when it is ready and when too dry, with intervals that hold nine times in ten; what the plaster still drinks; when to turn, lift or move it. Where a curve cannot be known, it says so.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      format: formatQuery(['json', 'csv']),
      table: tableQuery(['loads', 'bats']),
    }),
  },
  responses: {
    200: reportAnswer('The board', board, ['text/csv']),
    ...problemsOfReading,
  },
})

const loadRoute = createRoute({
  method: 'get',
  path: '/v1/reports/plaster/{lotId}',
  operationId: 'reportPlasterLoad',
  tags: [REPORT_TAG],
  summary: 'One load on plaster',
  description:
    'As on the board; of a load that has left its bat, the curve that it took. A curve that cannot be known is an answer in words.',
  request: { headers: studioHeader, params: z.object({ lotId: idText('The load.', 'load-1') }) },
  responses: {
    200: {
      description: 'The load',
      content: { 'application/json': { schema: plasterLoadSchema } },
    },
    ...problemsOfReading,
    404: problemAnswer('There is no such lot in this studio'),
    422: problemAnswer('The lot is no load, or was taken back'),
  },
})

/** GET /v1/reports/plaster and one load of it */
export const plaster = newRouter()
  .openapi(boardRoute, async (c) => {
    const { format, table = 'loads' } = c.req.valid('query')
    const { db, now } = c.get('services')
    const found = await plasterBoard(db, { studioId: c.get('studioId'), now: now() })
    if (format !== 'csv') return c.json(found, 200)
    if (table === 'bats') {
      const rows = found.emptyBats
      return answerCsv(c, { fileName: 'plaster-empty-bats', columns: BAT_COLUMNS, rows }) as never
    }
    return answerCsv(c, {
      fileName: 'plaster-loads',
      columns: LOAD_COLUMNS,
      rows: found.loads,
    }) as never
  })
  .openapi(loadRoute, async (c) => {
    const { db, now } = c.get('services')
    const { lotId } = c.req.valid('param')
    const found = await plasterOfLoad(db, { studioId: c.get('studioId'), lotId, now: now() })
    return c.json(found as never, 200)
  })

type Load = PlasterBoard['loads'][number]
type Bat = PlasterBoard['emptyBats'][number]

const LOAD_COLUMNS: Column<Load>[] = [
  { heading: 'bat', value: (one) => one.batId },
  { heading: 'load', value: (one) => one.lotId },
  { heading: 'body', value: (one) => one.bodyId },
  { heading: 'laid_at', value: (one) => one.laidAt },
  { heading: 'at', value: (one) => one.at },
  { heading: 'dry_grams', value: (one) => one.dryGrams },
  { heading: 'water_content_wet_basis', value: (one) => one.water?.median ?? null },
  { heading: 'water_content_from_90', value: (one) => one.water?.from ?? null },
  { heading: 'water_content_to_90', value: (one) => one.water?.to ?? null },
  { heading: 'water_to_go_grams', value: (one) => one.waterToGoGrams },
  { heading: 'water_to_go_from_90', value: (one) => one.waterToGoGramsFrom },
  { heading: 'water_to_go_to_90', value: (one) => one.waterToGoGramsTo },
  { heading: 'ready_at', value: (one) => one.readyAt?.median ?? null },
  { heading: 'ready_from_90', value: (one) => one.readyAt?.from ?? null },
  { heading: 'ready_to_90', value: (one) => one.readyAt?.to ?? null },
  { heading: 'too_dry_after', value: (one) => one.tooDryAfter?.median ?? null },
  { heading: 'too_dry_from_90', value: (one) => one.tooDryAfter?.from ?? null },
  { heading: 'too_dry_to_90', value: (one) => one.tooDryAfter?.to ?? null },
  { heading: 'advice', value: (one) => one.advice?.act ?? null },
  { heading: 'bat_holds_grams', value: (one) => one.bat.holdsGrams },
  { heading: 'bat_known_by', value: (one) => one.bat.standing },
  { heading: 'bat_drinks_still_grams_from', value: (one) => one.bat.drinksStillGramsFrom },
  { heading: 'bat_drinks_still_grams_to', value: (one) => one.bat.drinksStillGramsTo },
  { heading: 'rests_on', value: (one) => one.restsOn },
  { heading: 'why_not', value: (one) => one.why },
  { heading: 'trail', value: (one) => one.trail },
]

const BAT_COLUMNS: Column<Bat>[] = [
  { heading: 'bat', value: (one) => one.batId },
  { heading: 'dry_grams', value: (one) => one.dryGrams },
  { heading: 'weighed_at', value: (one) => one.weighedAt },
  { heading: 'weighed_grams', value: (one) => one.weighedGrams },
  { heading: 'held_grams', value: (one) => one.heldGrams },
  { heading: 'drinks_still_grams_from', value: (one) => one.drinksStillGramsFrom },
  { heading: 'drinks_still_grams_to', value: (one) => one.drinksStillGramsTo },
  { heading: 'empty_since', value: (one) => one.emptySince },
  { heading: 'words', value: (one) => one.words },
  { heading: 'trail', value: (one) => one.trail },
]
