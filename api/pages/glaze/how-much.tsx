import type { WaitingForGlaze } from '../../../db/reports/glaze-waiting.ts'
import { USUAL_DIPPING_GRAMS_PER_MILLILITRE } from '../../../shared/glaze-batch.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, FaultSummary, Press, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { VolumeField } from '../plaster/volume-field.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import type { GlazeBucket } from './here.ts'

interface HowMuchProps {
  readonly glazeId: string
  readonly waiting: readonly WaitingForGlaze[]
  readonly bucket: GlazeBucket | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

/** How much glaze is to be mixed, said in one of three ways. Nothing is recorded by it. */
export function HowMuch({ glazeId, waiting, bucket, typed, faults, voice }: HowMuchProps) {
  const field = { typed, faults, voice }
  const bare = waiting.filter(({ glazes }) => glazes === null)
  return (
    <>
      <FaultSummary faults={faults} />
      <form method="get" action={`/glaze/mix/${glazeId}`}>
        <p class="hint">Fill in one of them. You see what to weigh out before anything counts.</p>
        <VolumeField {...field} name="volume" label="So much glaze" usual={{ unit: 'l' }} />
        <MassField {...field} name="dry" label="Or so much dry powder" unit="g" />
        {bare.length === 0 ? null : (
          <ChoiceField
            {...field}
            name="runIds"
            label="Or enough for these"
            isMany
            choices={bare.map(({ runId, label, pieces }) => ({
              value: runId,
              name: label,
              hint: String(pieces),
            }))}
          />
        )}
        {bucket === undefined ? null : (
          <ChoiceField
            {...field}
            name="vesselId"
            label={`What is in ${bucket.vesselName} serves first`}
            hint="Only for pots."
            usual={bucket.vesselId}
            choices={[
              { value: bucket.vesselId, name: 'Yes', hint: `${voice.mass(bucket.dryGrams)} dry` },
              { value: '', name: 'No' },
            ]}
          />
        )}
        <TextField
          {...field}
          name="density"
          label="To a density of"
          hint={`Empty: ${USUAL_DIPPING_GRAMS_PER_MILLILITRE.toFixed()}, which is usual for dipping.`}
          inputmode="decimal"
          after="g/ml"
        />
        <input type="hidden" name="asked" value="yes" />
        <Press>What to weigh out</Press>
      </form>
    </>
  )
}
