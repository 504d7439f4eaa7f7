import { createRoute, z } from '@hono/zod-openapi'
import { yieldReport, type YieldReport } from '../../../db/reports/yield.ts'
import { MASS_PARTS } from '../../../shared/yield-mass.ts'
import { GRADED_PARTS, STAGE_PARTS } from '../../../shared/yield-stages.ts'
import { answerCsv, type Column } from '../../csv.ts'
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
import { idText, monthText, studioHeader } from '../../schemas.ts'
import {
  estimatedStagesSchema,
  massSchema,
  piecesSchema,
  stagesSchema,
} from '../../yield-schemas.ts'

const figures = { pieces: piecesSchema, stages: stagesSchema, mass: massSchema, trail }

const together = {
  forms: z.int().openapi({ description: 'How many forms.', example: 3 }),
  runs: z.int().openapi({ description: 'How many runs.', example: 4 }),
  ...figures,
  words: figure('What they are.', 'Every run of every form once, one-offs among them.'),
}

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    from: idOrNull('The first month of throwing that was asked for.'),
    to: idOrNull('The last.'),
    forms: z.array(
      z
        .object({
          formId: z.string().openapi({ example: 'mug' }),
          formName: z.string().openapi({ example: 'Mug' }),
          runs: z.int().openapi({ description: 'How many runs.', example: 4 }),
          ...figures,
          stages: estimatedStagesSchema,
        })
        .openapi('FormYield'),
    ),
    runs: z
      .array(
        z
          .object({
            runId: z.string().openapi({ example: 'mugs-1' }),
            label: z.string().openapi({ example: 'Mug of 2026-03-02' }),
            formId: z.string().openapi({ example: 'mug' }),
            formName: z.string().openapi({ example: 'Mug' }),
            bodyId: z.string().openapi({ example: 'buff' }),
            thrownMonth: z.string().openapi({ example: '2026-03' }),
            ...figures,
          })
          .openapi('RunYield'),
      )
      .openapi({ description: 'Run by run, where a form was named.' }),
    oneOffs: z
      .object({
        ...together,
        runTrails: z.array(z.string()).openapi({ description: 'Where each of them is shown.' }),
      })
      .nullable()
      .openapi({
        description:
          'Runs of one piece together; they count in their forms and in all forms too. Null without any, or where a form was named.',
      }),
    allForms: z.object(together).nullable().openapi({
      description: 'Every run once. Null without any, or where a form was named.',
    }),
  })
  .openapi('YieldReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/yield',
  operationId: 'reportYield',
  tags: [REPORT_TAG],
  summary: 'How many pieces come through each stage, and where the clay goes',
  description:
    'Follows the batch: a run belongs to the month in which it was thrown, whenever its pots were fired and sold. Pieces that wait count neither as passed nor as lost, and the words say where a share may rise for that. Each stage is told in pieces and in dry mass, what the fire took apart from what was lost. A form with few pieces leans on all forms and says so; runs of one piece are told together too.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      formId: idText('Only this form, and its runs one by one.', 'mug').optional(),
      from: monthText('Thrown in this month or later.').optional(),
      to: monthText('Thrown in this month or earlier.').optional(),
      format: formatQuery(['json', 'csv']),
    }),
  },
  responses: {
    200: reportAnswer('The yields', report, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/yield */
export const yields = newRouter().openapi(route, async (c) => {
  const { format, ...asked } = c.req.valid('query')
  const studioId = c.get('studioId')
  const found = await yieldReport(c.get('services').db, { studioId, ...asked })
  if (format !== 'csv') return c.json(found, 200)
  return answerCsv(c, {
    fileName: 'yield',
    columns: columnsFor(found),
    rows: rowsOf(found),
  }) as never
})

type Figures = Pick<YieldReport['runs'][number], 'pieces' | 'stages' | 'mass' | 'trail'>
type Estimated = YieldReport['forms'][number]['stages'][number]

interface Row extends Omit<Figures, 'stages'> {
  readonly formId: string
  readonly formName: string
  readonly run: string
  readonly stages: readonly (Omit<Estimated, 'estimate'> & Partial<Pick<Estimated, 'estimate'>>)[]
}

/** Forms, then runs; one-offs together and the whole close the table, and belong to no form. */
function rowsOf({ forms, runs, oneOffs, allForms }: YieldReport): Row[] {
  const closing = (figures: Figures | null, formName: string): Row[] =>
    figures === null ? [] : [{ ...figures, formId: '', formName, run: 'all' }]
  return [
    ...forms.map((form): Row => ({ ...form, run: 'all' })),
    ...runs.map((run): Row => ({ ...run, run: run.runId })),
    ...closing(oneOffs, 'One-offs together'),
    ...closing(allForms, 'All forms'),
  ]
}

/** As many columns as a row has figures, each named after its figure. */
function columnsFor(found: YieldReport): Column<Row>[] {
  const [first] = found.forms
  const pieceNames = Object.keys(first?.pieces ?? {}) as (keyof Row['pieces'])[]
  const stages = (first?.stages ?? []).map(({ stage }) => stage)
  return [
    { heading: 'form', value: (row) => row.formId },
    { heading: 'form_name', value: (row) => row.formName },
    { heading: 'run', value: (row) => row.run },
    ...pieceNames.map((name): Column<Row> => ({
      heading: `${snake(name)}_pieces`,
      value: (row) => row.pieces[name],
    })),
    ...stages.map((stage): Column<Row> => ({
      heading: `${stage}_yield_fraction`,
      value: (row) => stageOf(row, stage)?.yieldFraction ?? null,
    })),
    ...stages.flatMap(stageIntervalColumns),
    ...stages.flatMap(stageMassColumns),
    ...MASS_PARTS.flatMap((part): Column<Row>[] => [
      { heading: `${snake(part)}_dry_grams`, value: (row) => row.mass[part].dryGrams },
      {
        heading: `${snake(part)}_fraction_of_begun`,
        value: (row) => row.mass[part].fractionOfBegun,
      },
      ...ENDS.map((end): Column<Row> => ({
        heading: `${snake(part)}_fraction_interval95_${end}`,
        value: (row) => row.mass[part].fractionInterval95?.[end] ?? null,
      })),
    ]),
    ...maybeNoneColumns('unexplained', (row) => row.mass.unexplained),
    { heading: 'trail', value: (row) => row.trail },
  ]
}

type StageName = Row['stages'][number]['stage']
type StageUnexplained = Row['stages'][number]['mass']['unexplained']

const ENDS = ['from', 'to'] as const

function stageOf(row: Row, stage: StageName) {
  return row.stages.find((one) => one.stage === stage)
}

function stageIntervalColumns(stage: StageName): Column<Row>[] {
  const estimateOf = (row: Row) => stageOf(row, stage)?.estimate
  return [
    ...ENDS.map((end): Column<Row> => ({
      heading: `${stage}_interval95_${end}`,
      value: (row) => stageOf(row, stage)?.interval95?.[end] ?? null,
    })),
    {
      heading: `${stage}_interval_basis`,
      value: (row) => stageOf(row, stage)?.intervalBasis ?? null,
    },
    { heading: `${stage}_estimate_basis`, value: (row) => estimateOf(row)?.basis ?? null },
    {
      heading: `${stage}_estimate_fraction`,
      value: (row) => estimateOf(row)?.yieldFraction ?? null,
    },
    ...ENDS.map((end): Column<Row> => ({
      heading: `${stage}_estimate_interval95_${end}`,
      value: (row) => estimateOf(row)?.interval95?.[end] ?? null,
    })),
  ]
}

function stageMassColumns(stage: StageName): Column<Row>[] {
  const massOf = (row: Row) => stageOf(row, stage)?.mass
  const parts = [...STAGE_PARTS, ...GRADED_PARTS].flatMap((part): Column<Row>[] => [
    {
      heading: `${stage}_${snake(part)}_dry_grams`,
      value: (row) => massOf(row)?.[part].dryGrams ?? null,
    },
    {
      heading: `${stage}_${snake(part)}_fraction_of_begun`,
      value: (row) => massOf(row)?.[part].fractionOfBegun ?? null,
    },
  ])
  return [...parts, ...maybeNoneColumns(`${stage}_unexplained`, (row) => massOf(row)?.unexplained)]
}

/** Of a part that may as well be none: its interval and whether it can be told from zero. */
function maybeNoneColumns(
  heading: string,
  partOf: (row: Row) => Row['mass']['unexplained'] | StageUnexplained | undefined,
): Column<Row>[] {
  return [
    ...ENDS.map((end): Column<Row> => ({
      heading: `${heading}_dry_interval95_${end}`,
      value: (row) => partOf(row)?.dryInterval95[end] ?? null,
    })),
    {
      heading: `${heading}_is_distinguishable_from_zero`,
      value: (row) => partOf(row)?.isDistinguishableFromZero ?? null,
    },
  ]
}

function snake(name: string): string {
  return name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
}
