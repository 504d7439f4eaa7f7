import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import { isOutOfReach } from '../db/refusals.ts'
import { Refusal } from '../shared/refusal.ts'
import { describeCause } from './cause.ts'
import { FaultOfForm, type Fault } from './faults.ts'
import { PROBLEM_KINDS, type ProblemCode } from './problem-kinds.ts'
import type { Environment } from './services.ts'

/** Every answer that is not a success. Source: RFC 9457, with `errors` in the form of its section 3. */
export const problemSchema = z
  .object({
    type: z.string().openapi({
      description: 'The address of the page about this kind of problem; its end is the code.',
      example: '/problems/clay_must_be_enough',
    }),
    title: z.string().openapi({ example: 'There is not so much clay' }),
    status: z.int().openapi({ example: 409 }),
    detail: z.string().openapi({
      description: 'What was wrong and what would be right.',
      example: 'There are 3200 g of dry clay here; 4000 g were to leave.',
    }),
    instance: z.string().openapi({
      description: 'The id of this request, as in the header X-Request-Id and in the log.',
      example: '0199c1de-0000-7000-8000-000000000000',
    }),
    errors: z
      .array(
        z.object({
          pointer: z
            .string()
            .optional()
            .openapi({ description: 'The field of the body.', example: '#/reading/gross' }),
          parameter: z.string().optional().openapi({
            description: 'The parameter of the address, or the header.',
            example: 'limit',
          }),
          detail: z.string().openapi({ example: 'It must be at least 1.' }),
        }),
      )
      .optional()
      .openapi({ description: 'Each field that is at fault.' }),
    facts: z
      .record(z.string(), z.string())
      .optional()
      .openapi({ description: 'What the ledger knows that led to the refusal.' }),
  })
  .openapi('Problem')

/** A problem among the answers of a route, for its description. */
export function problemAnswer(description: string) {
  return { description, content: { 'application/problem+json': { schema: problemSchema } } }
}

/** The problems that any route with a body and a studio may answer with. */
export const usualProblems = {
  400: problemAnswer('The body is not JSON, or the studio is not named'),
  404: problemAnswer('Something that is named does not exist in this studio'),
  409: problemAnswer('The state of the studio does not allow it'),
  413: problemAnswer('The body has more than 262 144 bytes'),
  415: problemAnswer('The content type is not JSON'),
  422: problemAnswer('A field is faulty, or the readings contradict each other'),
  500: problemAnswer('The fault is ours; nothing was recorded'),
}

/** The problems that a route without a body may answer with. */
export const problemsOfReading = {
  400: problemAnswer('The studio is not named'),
  404: problemAnswer('Something that is named does not exist in this studio'),
  422: problemAnswer('A parameter is faulty'),
  500: problemAnswer('The fault is ours'),
}

interface ProblemFacts {
  readonly code: ProblemCode
  readonly detail?: string
  readonly errors?: readonly Fault[]
  readonly facts?: Readonly<Record<string, string>>
}

/** The one place where an answer that is not a success is made. */
export function answerProblem(c: Context<Environment>, problem: ProblemFacts): Response {
  const { status, title, whatHappened } = PROBLEM_KINDS[problem.code]
  const { errors, facts } = problem
  const body = {
    type: `/problems/${problem.code}`,
    title,
    status,
    detail: problem.detail ?? whatHappened,
    instance: c.get('requestId'),
    ...(errors === undefined || errors.length === 0 ? {} : { errors }),
    ...(facts === undefined || Object.keys(facts).length === 0 ? {} : { facts }),
  }
  return c.body(JSON.stringify(body), status, { 'Content-Type': 'application/problem+json' })
}

/** Answers what was thrown: a fault of form, a refusal, or a defect of ours. */
export function answerError(error: Error, c: Context<Environment>): Response {
  if (error instanceof FaultOfForm) {
    return answerProblem(c, { code: 'fields_must_be_right', errors: error.faults })
  }
  if (error instanceof Refusal) return answerRefusal(c, error)
  if (error instanceof HTTPException) {
    if (error.status === 400) return answerProblem(c, { code: 'body_must_be_json' })
    if (error.status === 403) return answerProblem(c, { code: 'form_must_be_of_this_site' })
    if (error.status === 413) return answerProblem(c, { code: 'body_must_be_small' })
    if (error.status === 415) return answerProblem(c, { code: 'content_type_must_be_json' })
  }
  c.get('services').log.error('defect', {
    requestId: c.get('requestId'),
    method: c.req.method,
    path: c.req.path,
    cause: describeCause(error),
  })
  const code = isOutOfReach(error) ? 'ledger_must_be_reached' : 'program_must_not_fail'
  return answerProblem(c, { code })
}

function answerRefusal(c: Context<Environment>, refusal: Refusal): Response {
  const pointer = refusal.pointer ?? usualPointer(refusal)
  return answerProblem(c, {
    code: refusal.code,
    detail: refusal.message,
    ...(pointer === undefined
      ? {}
      : { errors: [{ pointer: `#${pointer}`, detail: refusal.message }] }),
    facts: refusal.facts,
  })
}

/** The database keeps closed months closed and knows no fields; there is only one that it can mean. */
function usualPointer(refusal: Refusal): string | undefined {
  return refusal.code === 'month_must_be_open' ? '/happenedAt' : undefined
}
