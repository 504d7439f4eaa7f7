import type { KilnKnown, KilnsKnown } from '../../../db/reports/kilns.ts'
import type { KilnLoadView } from '../../../db/kiln-loads.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField } from '../fields.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { BesideFields, besideSaid, EnergyFields, energySaid } from './fire-fields.tsx'
import { kilnOf } from './kiln-choice.tsx'

interface FireOfLoad extends KilnsKnown {
  readonly load: KilnLoadView
}

/** The kiln of the load: as touched now, as it was loaded, or the only one. */
export function kilnOfLoad({ load, kilns }: FireOfLoad, typed: Typed): KilnKnown | undefined {
  const kilnId = typed.text('kilnId') ?? load.kilnId ?? kilnOf({ kilns }, typed)
  return kilns.find((one) => one.kilnId === kilnId)
}

/**
 * What the fire took, as unloading is told it. Where nothing was typed it is as usual for the kiln; it is
 * left out where nothing is usual, and where it was said that nobody knows.
 */
export function firingSaid(typed: Typed, data: FireOfLoad): object | undefined {
  if (typed.isYes('untold')) return undefined
  const kiln = kilnOfLoad(data, typed)
  const told = { ...energySaid(typed), ...besideSaid(typed, kiln) }
  const isTold = Object.keys(told).length > 0
  if (!isTold && (kiln === undefined || kiln.usual === null)) return undefined
  return kiln === undefined ? told : { kilnId: kiln.kilnId, ...told }
}

interface FireFoldProps extends FireOfLoad {
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

const TYPED_HERE = [
  ...['meterAfter', 'kilowattHours', 'hours', 'price', 'gasBefore', 'gasAfter', 'gasBeforePounds'],
  ...['gasAfterPounds', 'candlingKilowattHours', 'full', 'untold'],
] as const

/** What the fire took: what is taken where nothing is typed, and the rest folded below it. */
export function FireFold(props: FireFoldProps) {
  const { load, kilns, typed, faults, voice } = props
  if (kilns.length === 0) return null
  const kiln = kilnOfLoad(props, typed)
  const fields = { kiln, typed, faults, voice }
  const isOpen = TYPED_HERE.some((name) => typed.text(name) !== undefined)
  return (
    <section class="fire-took" aria-label="What the fire took">
      <p>
        <strong>The fire{kiln === undefined ? '' : `, ${kiln.name}`}:</strong> {takenWords(kiln)}
      </p>
      <details class="more" open={isOpen || faults !== undefined}>
        <summary>The meter, or what the fire took</summary>
        {kilns.length < 2 ? null : (
          <ChoiceField
            {...{ name: 'kilnId', label: 'Which kiln', typed, faults }}
            choices={kilns.map(({ kilnId, name }) => ({ value: kilnId, name }))}
            usual={load.kilnId ?? undefined}
          />
        )}
        <EnergyFields {...fields} />
        <label class="choice">
          <input type="checkbox" name="untold" value="yes" checked={typed.isYes('untold')} />
          <span>
            Not told
            <small>The pots then bear no cost of this fire.</small>
          </span>
        </label>
        <details class="more" open={isOpen}>
          <summary>Candling, how full, shared out</summary>
          <BesideFields {...fields} />
        </details>
      </details>
    </section>
  )
}

function takenWords(kiln: KilnKnown | undefined): string {
  if (kiln === undefined) return 'nothing is said of it, and the pots bear no cost of it yet.'
  if (kiln.usual !== null) return `${kiln.usual.words} Taken unless you say better.`
  return kiln.hasPrice || kiln.burnsGas
    ? 'nothing is usual yet. Read the meter, and the next time there is something to go by.'
    : 'it has no price a kilowatt-hour yet; the pots bear no cost of it.'
}
