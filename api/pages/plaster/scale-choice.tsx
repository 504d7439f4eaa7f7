import type { FormFaults } from '../field-words.tsx'
import { ChoiceField } from '../fields.tsx'
import type { Scale } from '../things.ts'
import type { Typed } from '../typed.ts'

interface ScaleChoiceProps {
  readonly scales: readonly Scale[]
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** Which scale it was, folded away: it only tells how sure a reading is. */
export function ScaleChoice({ scales, typed, faults }: ScaleChoiceProps) {
  if (scales.length === 0) return null
  const isFaulty = faults?.all.some(({ field }) => field === 'scaleId') === true
  return (
    <details class="more" open={isFaulty || typed.text('scaleId') !== undefined}>
      <summary>Which scale</summary>
      <ChoiceField
        name="scaleId"
        label="Scale"
        hint="Tells how sure the reading is."
        typed={typed}
        faults={faults}
        usual=""
        choices={[
          { value: '', name: 'Not said' },
          ...scales.map(({ scaleId, name }) => ({ value: scaleId, name })),
        ]}
      />
    </details>
  )
}
