import { REFUSAL_CODES, type RefusalCode } from '../shared/refusal.ts'
import type { ProblemKind } from './problem-kind.ts'
import { REFUSAL_KINDS } from './refusal-kinds.ts'

/** Problems that are none of the studio's: with the request, or with the program. */
export const REQUEST_PROBLEMS = {
  fields_must_be_right: {
    status: 422,
    title: 'Something in the request is not right',
    whatHappened: 'One field or several are missing, unknown, or hold what they cannot hold.',
    whatToDo: 'The list errors names each of them and says what would be right.',
  },
  body_must_be_json: {
    status: 400,
    title: 'The body is not JSON',
    whatHappened: 'The body of the request could not be read as JSON.',
    whatToDo: 'Look for a missing quote, comma or brace, and for a body that was cut off.',
  },
  content_type_must_be_json: {
    status: 415,
    title: 'The content type is not JSON',
    whatHappened: 'The request has a body, and its header does not say that it is JSON.',
    whatToDo: 'Send the header Content-Type: application/json.',
  },
  body_must_be_small: {
    status: 413,
    title: 'The body is too large',
    whatHappened: 'The body of the request has more than 262 144 bytes.',
    whatToDo: 'Send it in parts. No act of a studio needs so much.',
  },
  form_must_be_of_this_site: {
    status: 403,
    title: 'This form came from elsewhere',
    whatHappened:
      'The form was sent from a page of another address, or the browser did not say from which.',
    whatToDo: 'Open the page here and send it again. Nothing was recorded.',
  },
  address_must_exist: {
    status: 404,
    title: 'Nothing is at this address',
    whatHappened: 'No page and no resource has this address.',
    whatToDo: 'Look the address up at /v1, which lists all of them.',
  },
  method_must_be_allowed: {
    status: 405,
    title: 'This address does not answer that method',
    whatHappened: 'The address is right and the method is not.',
    whatToDo: 'The header Allow of the answer names the methods that it takes.',
  },
  ledger_must_be_reached: {
    status: 503,
    title: 'The ledger cannot be reached just now',
    whatHappened: 'The database did not answer, or its connection was lost on the way.',
    whatToDo: 'Try again in a moment, with the same Idempotency-Key: it is done once.',
  },
  program_must_not_fail: {
    status: 500,
    title: 'The fault is ours',
    whatHappened: 'The program broke one of its own promises. Nothing was recorded.',
    whatToDo:
      'Try once more, with the same Idempotency-Key. If it happens again, look the request id up in the log of the server.',
  },
} as const satisfies Readonly<Record<string, ProblemKind>>

export type ProblemCode = RefusalCode | keyof typeof REQUEST_PROBLEMS

/** Every problem that is ever answered, in the order of their pages. */
export const PROBLEM_CODES: readonly ProblemCode[] = [
  ...(Object.keys(REQUEST_PROBLEMS) as (keyof typeof REQUEST_PROBLEMS)[]),
  ...REFUSAL_CODES,
]

export const PROBLEM_KINDS: Readonly<Record<ProblemCode, ProblemKind>> = {
  ...REQUEST_PROBLEMS,
  ...REFUSAL_KINDS,
}

/** True for the code of a problem that has a page. */
export function isProblemCode(text: string): text is ProblemCode {
  return (PROBLEM_CODES as readonly string[]).includes(text)
}
