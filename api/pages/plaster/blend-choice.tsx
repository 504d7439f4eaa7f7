import type { FormFaults } from '../field-words.tsx'
import { ChoiceField } from '../fields.tsx'
import type { Body } from '../things.ts'
import type { Typed } from '../typed.ts'

interface BlendChoiceProps {
  readonly bodies: readonly Body[]
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** What two clays become that meet on purpose, folded away: mostly they must not meet. */
export function BlendChoice({ bodies, typed, faults }: BlendChoiceProps) {
  const blends = bodies.filter(({ isBlend }) => isBlend)
  if (blends.length === 0) return null
  const wouldMix = faults?.code === 'bodies_must_not_mix_unless_declared'
  return (
    <details class="more" open={wouldMix || typed.text('blendBodyId') !== undefined}>
      <summary>Two clays meet, on purpose</summary>
      <ChoiceField
        name="blendBodyId"
        label="They become"
        typed={typed}
        faults={faults}
        usual=""
        choices={[
          { value: '', name: 'Nothing meets' },
          ...blends.map(({ bodyId, name }) => ({ value: bodyId, name })),
        ]}
      />
    </details>
  )
}
