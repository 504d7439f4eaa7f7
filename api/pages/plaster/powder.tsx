import { CautionBox } from '../act-form.tsx'
import type { ActFormProps } from '../act-page.tsx'
import { TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { saidOnly, type Typed, type TypedReading } from '../typed.ts'
import { powderCautions } from './dust.ts'

interface PowderSaid {
  readonly name?: string | undefined
  readonly reading?: TypedReading | undefined
  readonly price?: string | undefined
}

/** A powder that was wedged in; nothing where none was named nor weighed. */
export function powderTyped(typed: Typed): PowderSaid[] | undefined {
  const name = typed.text('powderName')
  if (name === undefined && !typed.hasMass('powder')) return undefined
  return [saidOnly({ name, reading: typed.gross('powder'), price: typed.decimal('powderPrice') })]
}

/** A powder, folded away, with what to know of its dust before anybody opens the bag. */
export function Powder({ typed, voice, faults }: Omit<ActFormProps<unknown>, 'data'>) {
  const field = { typed, faults }
  const isTyped = typed.text('powderName') !== undefined || typed.hasMass('powder')
  return (
    <details class="more" open={isTyped}>
      <summary>Grog or another powder, wedged in</summary>
      {powderCautions(voice.studio.jurisdiction).map((caution) => (
        <CautionBox caution={caution} />
      ))}
      <TextField {...field} name="powderName" label="What it is" />
      <MassField
        {...field}
        voice={voice}
        name="powder"
        label="How much, dry"
        hint="It changes how the clay shrinks and fires: fire a test first."
        unit="g"
      />
      <TextField
        {...field}
        name="powderPrice"
        label={`What it cost, in ${voice.studio.currency}`}
        hint="Nothing where it cost nothing, or nobody knows."
        inputmode="decimal"
      />
    </details>
  )
}
