import type { Typed } from './typed.ts'

/** What is wrong with a form: words for the whole, and words by field. */
export interface FormFaults {
  readonly title: string
  readonly all: readonly { readonly field?: string | undefined; readonly detail: string }[]
  /** What to do about it, and where that is explained. */
  readonly whatToDo?: string | undefined
  readonly code?: string | undefined
}

export interface FieldProps {
  readonly name: string
  readonly label: string
  readonly typed: Typed
  readonly faults?: FormFaults | undefined
  /** A few words below the label. */
  readonly hint?: string | undefined
  readonly isNeeded?: boolean | undefined
}

/** The words that belong to one field, tied to it for whoever hears the page. */
export function about({ name, hint, faults }: Pick<FieldProps, 'name' | 'hint' | 'faults'>) {
  const details = faults?.all.filter((fault) => fault.field === name) ?? []
  const isFaulty = details.length > 0
  const ids = [hint === undefined ? '' : `${name}-hint`, isFaulty ? `${name}-fault` : '']
  const describedBy = ids.filter((id) => id !== '').join(' ')
  return {
    attributes: {
      id: name,
      'aria-describedby': describedBy === '' ? undefined : describedBy,
      'aria-invalid': isFaulty ? ('true' as const) : undefined,
    },
    Words: () => (
      <>
        {hint === undefined ? null : (
          <p class="hint" id={`${name}-hint`}>
            {hint}
          </p>
        )}
        {isFaulty ? (
          <p class="fault" id={`${name}-fault`}>
            {details.map(({ detail }) => detail).join(' ')}
          </p>
        ) : null}
      </>
    ),
  }
}
