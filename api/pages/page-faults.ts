import { Refusal, type RefusalCode } from '../../shared/refusal.ts'
import { FaultOfForm, type Fault } from '../faults.ts'
import { PROBLEM_KINDS } from '../problem-kinds.ts'
import type { FormFaults } from './field-words.tsx'
import { TYPED_FIELD } from './typed.ts'
import type { Voice } from './voice.ts'

type FaultStatus = 404 | 409 | 422

/** Fields that every form of an act has, by what the act calls them. */
const ALWAYS: Readonly<Record<string, string>> = {
  '/happenedAt': 'when',
  '/by': 'by',
  '/note': 'note',
}

/** What the API says of a field that is not there; a person sees that it is empty. */
const MISSING = /^This field is missing\./

/**
 * What was thrown, as a page says it: the same words as the API's, at the field that was typed into,
 * and in the studio's own words and units where there is a studio.
 *
 * Whatever is neither a fault of form nor a refusal is thrown on: it is ours.
 */
export function faultsForPage(
  error: unknown,
  fieldOf: Readonly<Record<string, string>>,
  voice?: Voice,
): { faults: FormFaults; status: FaultStatus } {
  const { faults, status } = faultsOfError(error, fieldOf)
  return { faults: voice === undefined ? faults : faultsInVoice(faults, voice), status }
}

/** The same faults in the words and units of a studio. */
export function faultsInVoice(faults: FormFaults, voice: Voice): FormFaults {
  const { title, all, whatToDo } = faults
  return {
    ...faults,
    title: voice.words(title),
    all: all.map((fault) => ({ ...fault, detail: voice.words(fault.detail) })),
    whatToDo: whatToDo === undefined ? undefined : voice.words(whatToDo),
  }
}

function faultsOfError(
  error: unknown,
  fieldOf: Readonly<Record<string, string>>,
): { faults: FormFaults; status: FaultStatus } {
  const fields = { ...fieldOf, ...ALWAYS }
  if (error instanceof FaultOfForm) {
    const all = error.faults.map((fault) => ({
      field: fieldFor(fault.pointer?.slice(1), fields),
      detail: plainly(fault),
    }))
    return { faults: { title: 'Something is missing or not right', all }, status: 422 }
  }
  if (!(error instanceof Refusal)) throw error
  const { status, title, whatToDo } = PROBLEM_KINDS[error.code]
  const plain = PLAIN_REFUSALS[error.code]
  const pointer = error.pointer ?? (error.code === 'month_must_be_open' ? '/happenedAt' : undefined)
  return {
    faults: {
      title,
      all: [{ field: fieldFor(pointer, fields), detail: plain?.detail ?? error.message }],
      whatToDo: plain?.whatToDo ?? whatToDo,
      code: error.code,
    },
    status: status === 404 || status === 422 ? status : 409,
  }
}

const STILL_EMPTY = 'This is still empty.'
const NO_MOMENT = 'Write the day and the time.'

/** Refusals whose own words show a program how a moment is written; a person has a clock on the wall. */
const PLAIN_REFUSALS: Partial<Record<RefusalCode, { detail: string; whatToDo: string }>> = {
  date_must_not_be_in_the_future: {
    detail: 'That is still to come by the studio’s clock.',
    whatToDo: 'Put the day and the time right, or leave them empty for now.',
  },
}

/** A schema speaks of objects and lists to programs; who stands at the wheel left something empty. */
function plainly({ pointer, detail }: Fault): string {
  if (MISSING.test(detail)) return STILL_EMPTY
  return pointer === '#/happenedAt' ? NO_MOMENT : detail
}

/** Throws on what was wrong, with the words that a page of the studio has for it. */
export function throwPlainly(error: unknown, voice: Voice): never {
  if (error instanceof FaultOfForm) {
    const said = (fault: Fault) => ({ ...fault, detail: voice.words(plainly(fault)) })
    throw new FaultOfForm(error.faults.map(said))
  }
  if (!(error instanceof Refusal)) throw error
  const { code, message, pointer, facts } = error
  const more = pointer === undefined ? { facts } : { facts, pointer }
  throw new Refusal(code, voice.words(PLAIN_REFUSALS[code]?.detail ?? message), {
    ...more,
    cause: error,
  })
}

/** The field whose name in the act is the longest beginning of the pointer. */
function fieldFor(
  pointer: string | undefined,
  fields: Readonly<Record<string, string>>,
): string | undefined {
  if (pointer === undefined) return undefined
  if (pointer.startsWith(TYPED_FIELD)) return pointer.slice(TYPED_FIELD.length)
  const fits = Object.keys(fields).filter(
    (name) => pointer === name || pointer.startsWith(`${name}/`),
  )
  const longest = fits.sort((one, other) => other.length - one.length)[0]
  return longest === undefined ? undefined : fields[longest]
}
