import { nameMeant } from '../../../../shared/piece-names.ts'
import { GRADES, type Grade } from '../../../../shared/place.ts'
import type { Meaning, PieceName } from '../../../../shared/sales-reading.ts'
import { keyOfName, pieceNamesIn } from '../../../../shared/sales-rows.ts'
import type { Form } from '../../things.ts'
import type { Typed } from '../../typed.ts'
import type { Brought } from './brought.ts'

/** What is chosen for a name of nothing that this studio makes. */
export const NOT_OURS = 'not-ours'
/** What stands where nothing is chosen yet. */
export const OPEN = 'open'

/** A name in the file, with what it is said or guessed to mean. */
export interface NameAsked extends PieceName {
  readonly key: string
  readonly rows: number
  /** What is chosen for it: `first mug`, not ours, or nothing yet. */
  readonly chosen: string
  /** True where that is our guess, from a name that is only like it. */
  readonly isLike: boolean
}

/** The names in the file with what each is said to mean, or most likely means. */
export function namesAsked(brought: Brought, typed: Typed, forms: readonly Form[]): NameAsked[] {
  const said = meaningsSaid(typed)
  return pieceNamesIn(brought.rows, brought.columns).map((piece) => {
    const key = keyOfName(piece)
    const chosen = said.get(key)
    if (chosen !== undefined) return { ...piece, key, chosen, isLike: false }
    const guess = nameMeant(piece, forms)
    return {
      ...piece,
      key,
      chosen: guess === undefined ? OPEN : valueOf(guess.formId, guess.grade),
      isLike: guess?.how === 'similar',
    }
  })
}

/** A form and grade as one value of a choice. */
export function valueOf(formId: string, grade: Grade): string {
  return `${grade} ${formId}`
}

/** The meaning that a value stands for; nothing where it stands for none of these forms. */
export function meaningOf(value: string, forms: readonly Form[]): Meaning | undefined {
  if (value === NOT_OURS) return 'not_ours'
  const [said, formId] = value.split(' ')
  const grade = GRADES.find((one) => one === said)
  const isThere = forms.some((form) => form.formId === formId)
  return grade === undefined || formId === undefined || !isThere ? undefined : { formId, grade }
}

/** Names and choices come as two lists, in step. */
function meaningsSaid(typed: Typed): ReadonlyMap<string, string> {
  const choices = typed.all('is')
  return new Map(typed.all('called').map((key, place) => [key, choices[place] ?? OPEN]))
}
