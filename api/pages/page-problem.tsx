import type { Context } from 'hono'
import { Refusal } from '../../shared/refusal.ts'
import { FaultOfForm } from '../faults.ts'
import { answerError, answerProblem } from '../problem.ts'
import { PROBLEM_KINDS, type ProblemCode } from '../problem-kinds.ts'
import type { Environment } from '../services.ts'
import { show } from './show.tsx'
import type { Voice } from './voice.ts'

/** True where a person looks at the answer; scripts and other programs ask for something else. */
export function isForPerson(c: Context<Environment>): boolean {
  return c.req.header('accept')?.includes('text/html') ?? false
}

/** What went wrong with a page: the same as the API says it, with the way on. */
export async function pageOfError(error: Error, c: Context<Environment>): Promise<Response> {
  if (!isForPerson(c)) return answerError(error, c)
  if (error instanceof Refusal) return showProblem(c, error.code, error.message)
  if (error instanceof FaultOfForm) {
    const detail = error.faults.map((fault) => fault.detail).join(' ')
    return showProblem(c, 'fields_must_be_right', detail)
  }
  // Logged by the one place that answers errors; the person gets a page instead of its words.
  const { status } = answerError(error, c)
  if (status === 403) return showProblem(c, 'form_must_be_of_this_site')
  if (status === 413) return pageOfLargeBody(c)
  if (status === 503) return showProblem(c, 'ledger_must_be_reached')
  return showProblem(c, 'program_must_not_fail')
}

/** For who stands at a page there are no keys of requests and no logs. */
const INSTEAD_OF_LOGS: Partial<Record<ProblemCode, string>> = {
  ledger_must_be_reached: 'Wait a moment and press once more: it is recorded once.',
  program_must_not_fail:
    'Press once more. If it happens again, write it on paper, and tell whoever keeps the program.',
}

/** Nothing is at that address, for whoever asked. */
export async function nothingHere(c: Context<Environment>): Promise<Response> {
  if (!isForPerson(c) || c.req.method !== 'GET') {
    return answerProblem(c, { code: 'address_must_exist' })
  }
  return showProblem(c, 'address_must_exist')
}

/** What a person sent is larger than anything that a form needs. */
export function pageOfLargeBody(c: Context<Environment>): Promise<Response> {
  const detail = 'What was sent is too long for any form here. Nothing of it was recorded.'
  return showProblem(c, 'body_must_be_small', detail)
}

function showProblem(c: Context<Environment>, code: ProblemCode, detail?: string) {
  const { status, title, whatHappened, whatToDo } = PROBLEM_KINDS[code]
  const voice: Voice | undefined = c.get('voice')
  const said = detail ?? whatHappened
  return show(
    c,
    { title, status },
    <>
      <h1>{title}</h1>
      <p>{voice === undefined ? said : voice.words(said)}</p>
      <p>{INSTEAD_OF_LOGS[code] ?? whatToDo}</p>
      <ul class="targets">
        <li>
          <a class="target" href="/">
            <strong>Today</strong>
            <span>what waits, and what is here</span>
          </a>
        </li>
      </ul>
    </>,
  )
}
