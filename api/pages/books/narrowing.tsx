import type { Voice } from '../voice.ts'

/** One thing that a list or a report may be narrowed to. */
export interface Option {
  readonly value: string
  readonly name: string
}

interface NarrowingProps {
  readonly name: string
  readonly label: string
  readonly all: string
  readonly options: readonly Option[]
  readonly fields: ReadonlyMap<string, string>
}

/** A choice among many, where all of them is a choice too. */
export function Narrowing({ name, label, all, options, fields }: NarrowingProps) {
  const chosen = fields.get(name) ?? ''
  const isListed = chosen === '' || options.some(({ value }) => value === chosen)
  return (
    <div class="field">
      <label for={`narrow-${name}`}>{label}</label>
      <select id={`narrow-${name}`} name={name}>
        <option value="">{all}</option>
        {isListed ? null : (
          <option value={chosen} selected>
            As it is now
          </option>
        )}
        {options.map(({ value, name: words }) => (
          <option value={value} selected={value === chosen}>
            {words}
          </option>
        ))}
      </select>
    </div>
  )
}

interface MonthRangeProps {
  readonly voice: Voice
  readonly action: string
  readonly months: readonly string[]
  readonly from: string | undefined
  readonly to: string | undefined
  /** What happened in those months. */
  readonly did?: string
}

/** From which month to which: of the pots that were thrown in them, or of what else happened. */
export function MonthRange({ voice, action, months, from, to, did = 'Thrown' }: MonthRangeProps) {
  const options = months.map((month) => ({ value: month, name: voice.month(month) }))
  const fields = new Map([
    ['from', from ?? ''],
    ['to', to ?? ''],
  ])
  return (
    <details class="more narrow off-paper">
      <summary>Of which months</summary>
      <form method="get" action={action}>
        <Narrowing
          name="from"
          label={`${did} in this month or later`}
          all="From the beginning"
          options={options}
          fields={fields}
        />
        <Narrowing
          name="to"
          label={`${did} in this month or earlier`}
          all="Up to now"
          options={options}
          fields={fields}
        />
        <button>Show these</button>
      </form>
    </details>
  )
}

/** The month before and the month after, where there is anything in them. */
export function MonthsAround(props: {
  readonly voice: Voice
  readonly month: string
  readonly months: readonly string[]
  readonly hrefOf: (month: string) => string
}) {
  const { voice, month, months, hrefOf } = props
  const before = months.find((one) => one < month)
  const after = months.findLast((one) => one > month)
  return (
    <nav class="months-around off-paper" aria-label="Other months">
      {before === undefined ? (
        <span></span>
      ) : (
        <a class="button" href={hrefOf(before)}>
          ← {voice.month(before)}
        </a>
      )}
      {after === undefined ? null : (
        <a class="button" href={hrefOf(after)}>
          {voice.month(after)} →
        </a>
      )}
    </nav>
  )
}
