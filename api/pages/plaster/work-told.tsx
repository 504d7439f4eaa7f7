import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { saidOnly, type Typed } from '../typed.ts'

interface WorkProps {
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  /** Where it can be done by hand or by a mill. */
  readonly asksWay?: boolean | undefined
}

/** How long hands were at it, folded: it costs nothing in the books, and tells whether reclaiming pays. */
export function WorkTold({ typed, faults, asksWay = false }: WorkProps) {
  const field = { typed, faults }
  const isOpen = typed.text('minutes') !== undefined || typed.text('way') !== undefined
  return (
    <details class="more" open={isOpen}>
      <summary>How long it took</summary>
      <TextField
        {...field}
        name="minutes"
        label="Minutes it took"
        hint="Hands at work, without drying and waiting. The books then say whether reclaiming pays."
        inputmode="decimal"
        after="min"
      />
      {asksWay ? (
        <ChoiceField
          {...field}
          name="way"
          label="How"
          choices={[
            { value: 'by_hand', name: 'By hand' },
            { value: 'by_mill', name: 'By mill' },
          ]}
        />
      ) : null}
    </details>
  )
}

/** What was said of the work, as the acts are told it. */
export function workSaid(typed: Typed): object {
  return saidOnly({ minutes: typed.decimal('minutes'), way: typed.text('way') })
}

/** Where its faults stand. */
export const WORK_FIELDS = { '/minutes': 'minutes', '/way': 'way' } as const
