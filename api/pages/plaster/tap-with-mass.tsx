import type { Child } from 'hono/jsx'
import type { FormFaults } from '../field-words.tsx'
import { MassField } from '../mass-field.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

/** Something that is tapped, and then weighed. */
export interface Tappable {
  readonly id: string
  readonly name: string
  readonly hint: string
  /** Below its mass: what else may be said of it. */
  readonly more?: Child
}

interface TapWithMassProps {
  /** Under which what was tapped is sent: `bats`. */
  readonly name: string
  readonly legend: string
  readonly hint?: string | undefined
  readonly things: readonly Tappable[]
  /** Those that are tapped where nobody has tapped yet. */
  readonly usual?: readonly string[] | undefined
  readonly massLabel: (thing: Tappable) => string
  readonly massHint?: string | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

/** The field of the mass of one of the things. */
export function massFieldOf(name: string, id: string): string {
  return `${name}-${id}`
}

/** Those that were tapped or weighed, in the order in which they were offered. */
export function tapped(typed: Typed, name: string): string[] {
  const chosen = typed.all(name)
  return typed
    .all(`${name}-offered`)
    .filter((id) => chosen.includes(id) || typed.hasMass(massFieldOf(name, id)))
}

/** Tiles to tap; the field for its mass belongs to each, and waits until it is tapped. */
export function TapWithMass(props: TapWithMassProps) {
  const { name, legend, hint, things, typed, faults } = props
  const wasOffered = typed.all(`${name}-offered`).length > 0
  const chosen = wasOffered ? tapped(typed, name) : typed.all(name)
  const isUsual = chosen.length === 0 && !wasOffered
  const details = faults?.all.filter(({ field }) => field === name) ?? []
  return (
    <fieldset class="field taps" id={name} aria-describedby={`${name}-words`}>
      <legend>{legend}</legend>
      <div id={`${name}-words`}>
        {hint === undefined ? null : <p class="hint">{hint}</p>}
        {details.map(({ detail }) => (
          <p class="fault">{detail}</p>
        ))}
      </div>
      {things.map((thing) => (
        <Tap
          {...props}
          thing={thing}
          isTapped={
            chosen.includes(thing.id) || (isUsual && props.usual?.includes(thing.id) === true)
          }
        />
      ))}
    </fieldset>
  )
}

function Tap(props: TapWithMassProps & { thing: Tappable; isTapped: boolean }) {
  const { name, thing, isTapped, typed, faults, voice } = props
  const { id } = thing
  const ofThis = faults?.all.filter(({ field }) => field === `${name}-tap-${id}`) ?? []
  return (
    <div class="tap">
      <input type="hidden" name={`${name}-offered`} value={id} />
      <label class="choice">
        <input
          type="checkbox"
          name={name}
          value={id}
          id={`${name}-tap-${id}`}
          checked={isTapped}
          aria-describedby={ofThis.length === 0 ? undefined : `${name}-fault-${id}`}
        />
        <span>
          {thing.name}
          <small>{thing.hint}</small>
        </span>
      </label>
      {ofThis.length === 0 ? null : (
        <p class="fault" id={`${name}-fault-${id}`}>
          {ofThis.map(({ detail }) => detail).join(' ')}
        </p>
      )}
      <div class="of-tap">
        <MassField
          name={massFieldOf(name, id)}
          label={props.massLabel(thing)}
          hint={props.massHint}
          typed={typed}
          faults={faults}
          voice={voice}
        />
        {thing.more}
      </div>
    </div>
  )
}
