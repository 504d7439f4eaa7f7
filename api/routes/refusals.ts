import { createRoute, z } from '@hono/zod-openapi'
import { REFUSAL_CODES } from '../../shared/refusal.ts'
import { PROBLEM_CODES, PROBLEM_KINDS } from '../problem-kinds.ts'
import { newRouter } from '../router.ts'

const answer = z
  .object({
    items: z.array(
      z
        .object({
          code: z.string().openapi({ example: 'clay_must_be_enough' }),
          kind: z.enum(['refusal', 'request']).openapi({
            description: 'refusal: of the ledger or the trade. request: of how it was asked.',
          }),
          status: z.int().openapi({ example: 409 }),
          title: z.string(),
          whatHappened: z.string(),
          whatToDo: z.string(),
          page: z.string().openapi({ example: '/problems/clay_must_be_enough' }),
        })
        .openapi('ProblemKind'),
    ),
  })
  .openapi('Refusals')

const route = createRoute({
  method: 'get',
  path: '/v1/refusals',
  operationId: 'listRefusals',
  tags: ['To look things up'],
  summary: 'Every problem that may be answered',
  description: 'Each with its code, its status, and what to do about it.',
  responses: {
    200: {
      description: 'The closed list',
      content: { 'application/json': { schema: answer } },
    },
  },
})

export const refusals = newRouter().openapi(route, (c) => {
  const items = PROBLEM_CODES.map((code) => ({
    code,
    kind: (REFUSAL_CODES as readonly string[]).includes(code)
      ? ('refusal' as const)
      : ('request' as const),
    ...PROBLEM_KINDS[code],
    page: `/problems/${code}`,
  }))
  return c.json({ items }, 200)
})
