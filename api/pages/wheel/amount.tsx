import type { FormFaults } from '../field-words.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { refuseMissing } from '../missing.ts'
import type { Scale, Vessel } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

interface AmountProps {
  /** What is weighed: 'turnings'. */
  readonly what: string
  /** Where the pots before and after tell it as well: the boards that they may stand on. */
  readonly boards?: readonly Vessel[] | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

/** What went into a bucket, weighed in the way that is at hand. Only the fields of that way are shown. */
export function AmountFields({ what, boards, typed, faults, voice }: AmountProps) {
  const field = { typed, faults, voice }
  return (
    <div class="amount">
      <ChoiceField
        typed={typed}
        faults={faults}
        name="way"
        label="What was weighed"
        usual={wayOf(typed)}
        choices={[
          { value: 'alone', name: voice.words(`The ${what} alone`) },
          { value: 'filled', name: 'The bucket, empty before' },
          { value: 'bucket', name: 'The bucket before and after' },
          ...(boards === undefined ? [] : [{ value: 'pots', name: 'The pots before and after' }]),
        ]}
      />
      <div class="by-amount">
        <MassField {...field} name="amount" label="The scale shows" hasKeys />
      </div>
      <div class="by-bucket">
        <MassField {...field} name="bucketBefore" label="The bucket before" />
        <MassField {...field} name="bucketAfter" label="The bucket after" />
      </div>
      {boards === undefined ? null : (
        <div class="by-pots">
          <MassField {...field} name="potsBefore" label="The pots before" />
          <MassField {...field} name="potsAfter" label="The pots after" />
          {boards.length === 0 ? null : (
            <ChoiceField
              typed={typed}
              faults={faults}
              name="boardId"
              label="They stand on"
              usual=""
              choices={[
                { value: '', name: 'No board, or the scale was set to zero with it' },
                ...boards.map(({ vesselId, name, tareGrams }) => ({
                  value: vesselId,
                  name,
                  hint: voice.mass(tareGrams),
                })),
              ]}
            />
          )}
        </div>
      )}
    </div>
  )
}

/** How it was weighed: as it was chosen, or else as the masses that are filled in tell. */
export function wayOf(typed: Typed): string {
  return typed.text('way') ?? (typed.hasMass('potsBefore') ? 'pots' : 'alone')
}

/** What a bucket gained, as an act is told it: the bucket before counts as the tare of the bucket after. */
export function amountSaid(typed: Typed): object {
  const scale = saidOnly({ scaleId: typed.text('scaleId') })
  if (typed.text('way') === 'bucket') {
    const gross = typed.mass('bucketAfter') ?? refuseMissing('bucketAfter', 'And after?')
    const tare = typed.mass('bucketBefore') ?? refuseMissing('bucketBefore', 'And before?')
    return { gross, tare, ...scale }
  }
  const amount = typed.mass('amount') ?? refuseMissing('amount', 'What does the scale show?')
  if (typed.text('way') !== 'filled') return { net: amount, ...scale }
  return { gross: amount, inVesselId: typed.text('vesselId'), ...scale }
}

/** What turning took off, by the pots before and after. */
export function potsSaid(typed: Typed): { before: object; after: object } {
  const boardId = typed.text('boardId')
  const before = typed.gross('potsBefore', boardId) ?? refuseMissing('potsBefore', 'And before?')
  const after = typed.gross('potsAfter', boardId) ?? refuseMissing('potsAfter', 'And after?')
  return { before, after }
}

/** Which scale was read, folded away. */
export function WhichScale(props: {
  scales: readonly Scale[]
  typed: Typed
  faults: FormFaults | undefined
}) {
  const { scales, typed, faults } = props
  if (scales.length === 0) return null
  return (
    <details class="more" open={typed.text('scaleId') !== undefined}>
      <summary>Which scale</summary>
      <ChoiceField
        typed={typed}
        faults={faults}
        name="scaleId"
        label="Scale"
        hint="Tells how sure the reading is."
        usual=""
        choices={[
          { value: '', name: 'Not said' },
          ...scales.map(({ scaleId, name }) => ({ value: scaleId, name })),
        ]}
      />
    </details>
  )
}
