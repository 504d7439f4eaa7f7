import type { FormFaults } from './field-words.tsx'
import { ChoiceField, TextField } from './fields.tsx'
import type { Typed } from './typed.ts'

interface SaidBeforeProps {
  readonly name: string
  readonly label: string
  /** What was said here before, the latest first. */
  readonly before: readonly string[]
  /** What is chosen at once, where it is mostly the same. */
  readonly usual?: string | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** Words that were said before, each one touch; or others, typed. What is typed counts. */
export function SaidBeforeField(props: SaidBeforeProps) {
  const { name, label, before, usual, typed, faults } = props
  if (before.length === 0)
    return <TextField name={name} label={label} typed={typed} faults={faults} />
  return (
    <div class="said-before">
      <ChoiceField
        name={`${name}Before`}
        label={label}
        usual={usual}
        choices={before.map((words) => ({ value: words, name: words }))}
        typed={typed}
      />
      <TextField name={name} label={`${label}, in other words`} typed={typed} faults={faults} />
    </div>
  )
}

/** What was typed, else what was touched. */
export function wordsSaid(typed: Typed, name: string): string | undefined {
  return typed.text(name) ?? typed.text(`${name}Before`)
}
