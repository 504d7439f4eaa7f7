import { createRoute, z } from '@hono/zod-openapi'
import { glazeBuckets, type GlazeBuckets } from '../../../db/reports/glaze-buckets.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  howSureSchema,
  REPORT_TAG,
  reportAnswer,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { studioHeader } from '../../schemas.ts'

const covered = z
  .object({
    formId: figure('The form.', 'jug'),
    formName: figure('Its name.', 'Jug'),
    pieces: figure('How many more the bucket covers.', '73'),
    piecesFrom: figure('19 times in 20 not fewer than.', '62'),
    piecesTo: figure('Nor more than.', '84'),
    dryGramsPerPiece: figure('g dry a piece.', '80'),
    standardUncertaintyGramsPerPiece: figure('One standard deviation of that, g.', '6'),
    words: figure('How that is known.', 'Learned from one glazing, read by the bucket.'),
  })
  .openapi('FormCovered')

const bucket = z
  .object({
    holdingId: figure('Its holding.', 'id-000042'),
    vesselId: figure('The bucket.', 'bucket-4'),
    vesselName: figure('Its name.', 'White 20 litre'),
    materialId: figure('The glaze.', 'celadon'),
    materialName: figure('Its name.', 'Celadon'),
    dryGrams: figure('Glaze in it, g dry.', '8068'),
    sure: howSureSchema.openapi({ description: 'How sure dryGrams is, g.' }),
    waterGrams: figure('Water in it, g.', '7932'),
    slurryGrams: figure('Both together, g.', '16000'),
    grossGrams: figure('With the bucket, g.', '16400'),
    gramsPerMillilitreByBooks: figure('Its density by the books, g/mL.', '1.45'),
    lastRead: z
      .object({
        gramsPerMillilitre: figure('As it was read, g/mL.', '1.45'),
        at: figure('When.', '2026-05-14T18:00:00.000Z'),
        entryId: figure('In which entry.', 'id-000041'),
      })
      .nullable()
      .openapi({ description: 'The density as last read; null where it never was.' }),
    cost: figure('What is in it cost, in the studio’s currency.', '18.40'),
    costUncertainty: figure('One standard deviation of that.', '0.3'),
    costPerDryGram: z.string().nullable().openapi({ description: 'Money a dry gram.' }),
    lossOnIgnitionFraction: figure('What the fire takes of the dry mass.', '0.104'),
    covers: z.array(covered).openapi({
      description: 'How many more pots of each form it covers, where that is known.',
    }),
    words: figure('Of the last of a bucket.', 'The last of a bucket is too shallow to dip in.'),
    trail,
  })
  .openapi('GlazeBucket')

const report = z
  .object({
    studioId: figure('The studio.', 'wrenfold-yard'),
    items: z.array(bucket).openapi({ description: 'One a bucket that holds glaze.' }),
  })
  .openapi('GlazeBuckets')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/glaze-buckets',
  operationId: 'reportGlazeBuckets',
  tags: [REPORT_TAG],
  summary: 'What is in each glaze bucket, and how many pots it covers',
  description:
    'Each bucket: dry glaze and how sure, density, cost, and how many more pots of each form it covers, with what is carried off to sieve and wash bucket reckoned in.',
  request: {
    headers: studioHeader,
    query: z.strictObject({ format: formatQuery(['json', 'csv']) }),
  },
  responses: { 200: reportAnswer('The buckets', report, ['text/csv']), ...problemsOfReading },
})

/** GET /v1/reports/glaze-buckets */
export const glazeBucketsReport = newRouter().openapi(route, async (c) => {
  const { format } = c.req.valid('query')
  const found = await glazeBuckets(c.get('services').db, c.get('studioId'))
  if (format !== 'csv') return c.json(found, 200)
  const rows = found.items
  return answerCsv(c, { fileName: 'glaze-buckets', columns: COLUMNS, rows }) as never
})

const COLUMNS: Column<GlazeBuckets['items'][number]>[] = [
  { heading: 'bucket', value: (one) => one.vesselId },
  { heading: 'glaze', value: (one) => one.materialId },
  { heading: 'dry_grams', value: (one) => one.dryGrams },
  { heading: 'standard_uncertainty_grams', value: (one) => one.sure.standardUncertainty },
  { heading: 'water_grams', value: (one) => one.waterGrams },
  { heading: 'grams_per_millilitre_by_books', value: (one) => one.gramsPerMillilitreByBooks },
  {
    heading: 'grams_per_millilitre_read',
    value: (one) => one.lastRead?.gramsPerMillilitre ?? null,
  },
  { heading: 'read_at', value: (one) => one.lastRead?.at ?? null },
  { heading: 'cost', value: (one) => one.cost },
  {
    heading: 'covers',
    value: (one) => one.covers.map(({ formId, pieces }) => `${formId} ${pieces}`).join('; '),
  },
  { heading: 'trail', value: (one) => one.trail },
]
