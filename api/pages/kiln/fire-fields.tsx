import type { KilnKnown } from '../../../db/reports/kilns.ts'
import { fractionOfPoints } from '../../../shared/percent.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { begunWith } from '../begun-with.ts'
import { MassField } from '../mass-field.tsx'
import { refuseMissing } from '../missing.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

interface FireFieldsProps {
  /** The kiln it was in, where that is known. */
  readonly kiln: KilnKnown | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

/** What a fire took, by whatever somebody read: the meter, kilowatt-hours, or the cylinder. */
export function EnergyFields({ kiln, typed, faults, voice }: FireFieldsProps) {
  const field = { typed, faults }
  const begun = begunWith(typed, { meterBefore: kiln?.meterLast ?? undefined })
  const isPriced = kiln === undefined || kiln.hasPrice
  return (
    <>
      <div class="side-by-side">
        <TextField
          {...{ name: 'meterBefore', label: 'Meter before', faults, typed: begun }}
          inputmode="decimal"
          hint={kiln?.meterLast == null ? undefined : `As it was last read: ${kiln.name}.`}
        />
        <TextField {...field} name="meterAfter" label="Meter after" inputmode="decimal" />
      </div>
      <TextField
        {...field}
        name="kilowattHours"
        label="Or what it took"
        inputmode="decimal"
        after="kWh"
      />
      {kiln?.hasPower === false ? null : (
        <TextField
          {...field}
          name="hours"
          label="Or how long it took"
          hint="A rule of thumb then tells, from its power."
          inputmode="decimal"
          after="h"
        />
      )}
      {isPriced && typed.text('price') === undefined && !isAt(faults, 'price') ? null : (
        <TextField
          {...field}
          name="price"
          label="What a kilowatt-hour cost"
          hint="Enter it with the kiln, and nobody is asked again."
          inputmode="decimal"
          after="a kWh"
        />
      )}
      {kiln !== undefined && !kiln.burnsGas ? null : (
        <details class="more" open={typed.hasMass('gasBefore') || typed.hasMass('gasAfter')}>
          <summary>The gas was weighed</summary>
          <MassField {...field} voice={voice} name="gasBefore" label="Cylinder before" />
          <MassField {...field} voice={voice} name="gasAfter" label="Cylinder after" />
        </details>
      )}
    </>
  )
}

function isAt(faults: FormFaults | undefined, name: string): boolean {
  return faults?.all.some(({ field }) => field === name) ?? false
}

/** Candling apart, how full it was, and by what it is shared out. */
export function BesideFields({ kiln, typed, faults }: FireFieldsProps) {
  const field = { typed, faults }
  return (
    <>
      <TextField
        {...field}
        name="candlingKilowattHours"
        label="Candling before it, apart"
        hint="Drying the ware overnight; beside what the fire itself took."
        inputmode="decimal"
        after="kWh"
      />
      <TextField
        {...field}
        name="full"
        label="How full it was"
        hint="As you saw it. Left empty, the sizes of the forms tell."
        inputmode="decimal"
        after="%"
      />
      <ChoiceField
        {...field}
        name="shareBy"
        label="What it cost is shared out by"
        usual={kiln?.shareBy}
        choices={[
          { value: 'shelf_space', name: 'Shelf space' },
          { value: 'mass', name: 'Mass' },
          { value: 'count', name: 'Count' },
        ]}
      />
    </>
  )
}

/** What was read of the energy, as an act is told it; nothing where nobody read anything. */
export function energySaid(typed: Typed): object {
  return saidOnly({
    meter: meterSaid(typed),
    kilowattHours: typed.decimal('kilowattHours'),
    hours: typed.decimal('hours'),
    fuel: fuelSaid(typed),
    pricePerKilowattHour: typed.decimal('price'),
  })
}

/** The meter before is offered: only the one after tells that somebody read it. */
function meterSaid(typed: Typed): object | undefined {
  const after = typed.decimal('meterAfter')
  if (after === undefined) return undefined
  const before =
    typed.decimal('meterBefore') ?? refuseMissing('meterBefore', 'What did the meter read before?')
  return { before, after }
}

function fuelSaid(typed: Typed): object | undefined {
  const before = typed.net('gasBefore')
  const after = typed.net('gasAfter')
  if (before === undefined && after === undefined) return undefined
  return saidOnly({ before, after })
}

/** Candling, how full, and the rule of sharing where another was touched than the kiln's. */
export function besideSaid(typed: Typed, kiln: KilnKnown | undefined): object {
  const candling = typed.decimal('candlingKilowattHours')
  const full = typed.decimal('full')
  const shareBy = typed.text('shareBy')
  return saidOnly({
    candling: candling === undefined ? undefined : { kilowattHours: candling },
    fullFraction: full === undefined ? undefined : fractionOfPoints(full),
    shareBy: shareBy === kiln?.shareBy ? undefined : shareBy,
  })
}

/** Where the faults of a fire stand on its page, below where the act has it. */
export function fireFieldsOf(at: '' | '/firing'): Record<string, string> {
  return {
    [`${at}/kilnId`]: 'kilnId',
    [`${at}/meter`]: 'meterAfter',
    [`${at}/meter/before`]: 'meterBefore',
    [`${at}/kilowattHours`]: 'kilowattHours',
    [`${at}/hours`]: 'hours',
    [`${at}/pricePerKilowattHour`]: 'price',
    [`${at}/fuel`]: 'gasAfter',
    [`${at}/fuel/before`]: 'gasBefore',
    ...(at === ''
      ? {}
      : {
          [`${at}/candling`]: 'candlingKilowattHours',
          [`${at}/fullFraction`]: 'full',
          [`${at}/shareBy`]: 'shareBy',
        }),
  }
}
