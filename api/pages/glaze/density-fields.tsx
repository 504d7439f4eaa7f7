import type { Volume } from '../../../shared/units.ts'
import type { ActFormProps } from '../act-page.tsx'
import { MassField } from '../mass-field.tsx'
import { usualJug, VolumeField, volumeTyped } from '../plaster/volume-field.tsx'
import { saidOnly, type Typed } from '../typed.ts'

interface DensityProps extends Omit<ActFormProps<unknown>, 'data'> {
  /** Stands before the names of its fields. */
  readonly name: string
  readonly jug: Volume | undefined
  readonly isNeeded?: boolean
}

/** A jug of stirred glaze: how much it holds, and what that weighs. */
export function DensityFields({ name, jug, isNeeded, ...said }: DensityProps) {
  return (
    <>
      <VolumeField
        {...said}
        name={`${name}Volume`}
        label={said.voice.words('The jug holds')}
        usual={jug ?? usualJug(said.voice)}
      />
      <MassField
        {...said}
        name={`${name}Jug`}
        label={said.voice.words('The jug of stirred glaze weighs')}
        hint={said.voice.words(
          'Taken as without the jug: set the scale to zero with it. A dipping glaze weighs 1.35 to 1.55 times as much as water.',
        )}
        unit="g"
        isNeeded={isNeeded}
      />
    </>
  )
}

/** The density as an act is told it; nothing where no jug was weighed. */
export function densitySaid(typed: Typed, name: string) {
  const slurry = typed.net(`${name}Jug`)
  if (slurry === undefined) return undefined
  return saidOnly({ slurry, volume: volumeTyped(typed, `${name}Volume`) })
}

/** Which field a fault of a density belongs to. */
export function densityFields(pointer: string, name: string): Record<string, string> {
  return {
    [pointer]: `${name}Jug`,
    [`${pointer}/slurry`]: `${name}Jug`,
    [`${pointer}/volume`]: `${name}Volume`,
  }
}
