import { createRoute, z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { ActAnswer, Occasion } from '../db/perform.ts'
import { actAnswerSchema } from './entry-schemas.ts'
import { usualProblems } from './problem.ts'
import { studioHeader } from './schemas.ts'
import type { Environment } from './services.ts'

const actHeaders = studioHeader.extend({
  'idempotency-key': z
    .string()
    .regex(/^[\x21-\x7e]{1,200}$/, {
      error: 'A key is 1 to 200 visible ASCII characters, without spaces.',
    })
    .optional()
    .openapi({
      description:
        'A key of your own for this request. A retry with the same key and content is done once and gets the first answer.',
      example: 'phone-3-0042',
    }),
})

const actQuery = z.strictObject({
  preview: z.enum(['true', 'false']).optional().openapi({
    description: 'true: say what would be recorded, with its cautions, and record nothing.',
    example: 'false',
  }),
})

const recorded = {
  content: { 'application/json': { schema: actAnswerSchema } },
}

/** What the description of an act's route says, given what is particular to it. */
export function actRoute(act: {
  name: string
  group: string
  summary: string
  description: string
  schema: z.ZodType
  example: unknown
}) {
  return createRoute({
    method: 'post',
    path: `/v1/acts/${act.name}`,
    operationId: operationOf(act.name),
    tags: [act.group],
    summary: act.summary,
    description: act.description,
    request: {
      headers: actHeaders,
      query: actQuery,
      body: {
        required: true,
        content: { 'application/json': { schema: act.schema, example: act.example } },
      },
    },
    responses: {
      200: { ...recorded, description: 'A preview: nothing was recorded' },
      201: {
        ...recorded,
        description: 'Recorded; a retry gets the first answer again',
        headers: z.object({
          'Idempotency-Replayed': z.string().optional().openapi({
            description: 'true where this is the answer to an earlier request of the same key.',
          }),
        }),
      },
      ...usualProblems,
    },
  })
}

function operationOf(name: string): string {
  return name.replaceAll(/-(.)/g, (_, letter: string) => letter.toUpperCase())
}

/** For whom and how an act is done: studio, key, or only a preview. */
export function occasionOf(c: Context<Environment>): Occasion {
  return {
    studioId: c.get('studioId'),
    idempotencyKey: c.req.header('idempotency-key'),
    preview: c.req.query('preview') === 'true',
  }
}

/** The answer to an act: 201 where it is recorded, 200 where it was only tried. */
export function answerAct(
  c: Context<Environment>,
  { answer, isRetry }: { answer: ActAnswer; isRetry: boolean },
): Response {
  if (isRetry) c.header('Idempotency-Replayed', 'true')
  return c.json(answer, answer.preview ? 200 : 201)
}
