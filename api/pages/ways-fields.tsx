import type { StudioView } from '../../db/catalogue-studios.ts'
import type { Jurisdiction } from '../../shared/silica.ts'
import { JURISDICTIONS } from '../../shared/silica.ts'
import { tradeWord, TRADE_SPEECHES, type TradeSpeech } from '../../shared/trade-words.ts'
import { DATE_ORDERS, writtenDay } from '../../shared/written-day.ts'
import { MASS_SYSTEMS, writtenMass, type MassSystem } from '../../shared/written-mass.ts'
import { decimal } from '../../shared/decimal.ts'
import type { FormFaults } from './field-words.tsx'
import { ChoiceField } from './fields.tsx'
import type { Typed } from './typed.ts'

type Ways = Pick<StudioView, 'massUnits' | 'dateOrder' | 'tradeWords' | 'jurisdiction'>

interface WaysProps {
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  /** As the studio does now; none where it is still to begin. */
  readonly now?: Ways | undefined
  /** A day to show the orders by. */
  readonly today: string
}

/** A bucket of slops, to show the units by. */
const A_BUCKET_GRAMS = decimal(12_460)

const UNITS: Readonly<Record<MassSystem, string>> = {
  metric: 'Grams and kilograms',
  pounds_ounces: 'Pounds and ounces',
}
const WORDS: Readonly<Record<TradeSpeech, string>> = { UK: 'British', US: 'American' }
const PLACES: Readonly<Record<Jurisdiction, string>> = {
  GB: 'Great Britain',
  US: 'United States',
  EU: 'European Union',
  AU: 'Australia',
  other: 'Elsewhere',
}

/** How a studio writes masses, days and words, and whose limits for dust it is shown. */
export function WaysFields({ typed, faults, now, today }: WaysProps) {
  const said = { typed, faults }
  return (
    <>
      <ChoiceField
        {...said}
        name="massUnits"
        label="Masses"
        hint="As your scales read."
        usual={now?.massUnits}
        choices={MASS_SYSTEMS.map((value) => ({
          value,
          name: UNITS[value],
          hint: writtenMass(A_BUCKET_GRAMS, value),
        }))}
      />
      <ChoiceField
        {...said}
        name="dateOrder"
        label="Days"
        hint="As your calendar has them."
        usual={now?.dateOrder}
        choices={DATE_ORDERS.map((value) => ({ value, name: writtenDay(today, value) }))}
      />
      <ChoiceField
        {...said}
        name="tradeWords"
        label="Words"
        hint="As you say them."
        usual={now?.tradeWords}
        choices={TRADE_SPEECHES.map((value) => ({
          value,
          name: WORDS[value],
          hint: `${tradeWord('turnings', value)}, ${tradeWord('jug', value)}`,
        }))}
      />
      <ChoiceField
        {...said}
        name="jurisdiction"
        label="Limits for dust"
        hint="Whose are shown with cautions."
        usual={now?.jurisdiction}
        choices={JURISDICTIONS.map((value) => ({
          value,
          name: PLACES[value],
          hint: value === 'other' ? 'all of them' : undefined,
        }))}
      />
    </>
  )
}
