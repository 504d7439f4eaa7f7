import { Narrowing, type Option } from '../narrowing.tsx'
import type { Voice } from '../../voice.ts'
import { KIND_WORDS } from '../../entry-words.ts'
import { ENTRY_KINDS } from '../../../../shared/entry-kind.ts'

export interface NarrowFormProps {
  readonly voice: Voice
  readonly action: string
  /** What the address says already. */
  readonly fields: ReadonlyMap<string, string>
  readonly months: readonly string[]
  readonly people: readonly string[]
  readonly bodies: readonly Option[]
  readonly forms: readonly Option[]
}

const IN_THE_FORM = ['month', 'kind', 'bodyId', 'formId', 'by', 'cursor', 'limit']

/** What the trail may be narrowed to; what else it is narrowed to already stays. */
export function NarrowForm(props: NarrowFormProps) {
  const { voice, action, fields, months, people, bodies, forms } = props
  const others = [...fields].filter(([name]) => !IN_THE_FORM.includes(name))
  const kinds = ENTRY_KINDS.map((kind) => ({ value: kind, name: voice.words(KIND_WORDS[kind]) }))
  return (
    <details class="more narrow">
      <summary>Show less of it</summary>
      <form method="get" action={action}>
        {others.map(([name, value]) => (
          <input type="hidden" name={name} value={value} />
        ))}
        <Narrowing
          name="month"
          label="Month"
          all="All months"
          options={months.map((month) => ({ value: month, name: voice.month(month) }))}
          fields={fields}
        />
        <Narrowing
          name="kind"
          label="What happened"
          all="All of it"
          options={kinds}
          fields={fields}
        />
        <Narrowing name="bodyId" label="Clay" all="All clays" options={bodies} fields={fields} />
        <Narrowing name="formId" label="Form" all="All forms" options={forms} fields={fields} />
        <Narrowing
          name="by"
          label="Who"
          all="All of us"
          options={people.map((by) => ({ value: by, name: by }))}
          fields={fields}
        />
        <button>Show these</button>
      </form>
    </details>
  )
}
