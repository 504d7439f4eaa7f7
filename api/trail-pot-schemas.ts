import { z } from '@hono/zod-openapi'
import { figure, idOrNull, trail } from './report-schemas.ts'
import { holdingSchema, passageSchema } from './trail-schemas.ts'
import { massSchema, piecesSchema, stagesSchema } from './yield-schemas.ts'

const moment = (description: string) =>
  z.string().openapi({ description, format: 'date-time', example: '2026-03-14T08:30:00.000Z' })

const run = {
  runId: z.string().openapi({ example: 'mugs-1' }),
  formId: z.string().openapi({ example: 'mug' }),
  formName: z.string().openapi({ example: 'Mug' }),
  bodyId: z.string().openapi({ example: 'buff' }),
  label: z.string().openapi({ example: 'Mug of 2026-03-14' }),
  thrownAt: moment('When it was thrown.'),
  maker: idOrNull('Who threw it.'),
  madeByEntryId: z.string().openapi({ example: '0199c1de-0000-7000-8000-000000000000' }),
  piecesHere: figure('Pieces of it still in the studio.', '11'),
  links: z
    .object({
      self: figure('This run.', '/v1/runs/mugs-1'),
      madeBy: figure('The entry that began it.', '/v1/entries/0199c1de'),
      body: figure('Its clay.', '/v1/bodies/buff'),
      form: figure('Its form.', '/v1/forms/mug'),
      holdings: figure('Where it is or was.', '/v1/holdings?runId=mugs-1&nonEmpty=false'),
      entries: figure('What happened to it.', '/v1/entries?runId=mugs-1'),
    })
    .openapi('RunLinks'),
}

export const runSchema = z.object(run).openapi('Run')

export const runTracedSchema = z
  .object({
    ...run,
    pieces: piecesSchema,
    stages: stagesSchema,
    mass: massSchema,
    isNow: z.array(holdingSchema).openapi({ description: 'Pieces and clay at each place.' }),
    cameFrom: z.array(passageSchema).openapi({
      description: 'The lots and vessels that its clay came from, net of off-cuts of that moment.',
    }),
    losses: z.array(
      z
        .object({
          entryId: z.string(),
          happenedAt: moment('When.'),
          pieces: z.int().openapi({ example: 1 }),
          stage: z.string().openapi({ example: 'glaze_firing' }),
          cause: z.string().openapi({ example: 'crawled' }),
          costLeft: figure('What they cost and left to the survivors.', '0.56'),
          isTakenBack: z
            .boolean()
            .openapi({ description: 'True: a later entry took it back.', example: false }),
          trail,
        })
        .openapi('RunLoss'),
    ),
  })
  .openapi('TracedRun')

export const saleSchema = z
  .object({
    entryId: z.string(),
    happenedAt: moment('When it was sold.'),
    formId: z.string().openapi({ example: 'mug' }),
    formName: z.string().openapi({ example: 'Mug' }),
    grade: z.string().openapi({ example: 'first' }),
    pieces: z.int().openapi({ example: 3 }),
    priceEach: figure('Paid for each.', '24'),
    paid: figure('Paid for all.', '72'),
    channel: z.string().openapi({ example: 'shop' }),
    cost: figure('What they had cost in clay.', '1.89'),
    costUncertainty: figure('One standard deviation of that.', '0.04'),
    runIds: z
      .array(z.string())
      .openapi({ description: 'The runs that they were of.', example: ['mugs-1'] }),
    reversedByEntryId: idOrNull('The entry that took it back.'),
    links: z
      .object({
        entry: figure('Its entry.', '/v1/entries/0199c1de'),
        form: figure('Its form.', '/v1/forms/mug'),
        runs: z.array(z.string()).openapi({ example: ['/v1/runs/mugs-1'] }),
        reversedBy: z.string().nullable().openapi({ example: null }),
      })
      .openapi('SaleLinks'),
  })
  .openapi('Sale')
