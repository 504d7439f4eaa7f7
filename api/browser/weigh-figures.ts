import { decimal, type Decimal } from '../../shared/decimal.ts'
import { doubtBy } from '../../shared/doubt.ts'
import { dryMassFromWet, dryMassKnown } from '../../shared/dry-mass.ts'
import { netOfReading, readingUncertaintyGrams } from '../../shared/reading.ts'
import { divisionGramsFromLastDigit, gramsFrom, type Mass } from '../../shared/units.ts'
import { writtenMass, writtenMassSure, type MassSystem } from '../../shared/written-mass.ts'
import { typedMass } from './typed-mass.ts'

/** From here on a scale shows tens of grams, and its masses are written so. */
const COARSE_DIVISION_GRAMS = 10
const DIGITS_OF_A_GRAM = 3

const NOTHING_YET = '–'

/** Writes gross, tare, net and dry beside the field while it is typed, without asking anybody. */
export function showWeighFigures(): void {
  for (const weigh of document.querySelectorAll<HTMLElement>('[data-weigh]')) {
    const form = weigh.closest('form')
    if (form === null) continue
    const write = () => writeFigures(weigh, form)
    form.addEventListener('input', write)
    // The fields are empty only after the event.
    form.addEventListener('reset', () => setTimeout(write))
    write()
  }
}

interface Figures {
  readonly gross: string
  readonly tare: string
  readonly net: string
  readonly dry: string
}

function writeFigures(weigh: HTMLElement, form: HTMLFormElement): void {
  const figures = figuresOf(weigh, form)
  for (const name of ['gross', 'tare', 'net', 'dry'] as const) {
    const place = weigh.querySelector(`[data-${name}]`)
    if (place !== null) place.textContent = figures[name]
  }
  const takenAs = weigh.querySelector('[data-taken-as]')
  const words = chosenIn(form).find(({ dataset }) => dataset['takenAs'] !== undefined)
  if (takenAs !== null && words !== undefined) takenAs.textContent = words.dataset['takenAs'] ?? ''
}

function chosenIn(form: HTMLFormElement): HTMLInputElement[] {
  return [...form.querySelectorAll<HTMLInputElement>('input:checked')]
}

function figuresOf(weigh: HTMLElement, form: HTMLFormElement): Figures {
  const system: MassSystem = weigh.dataset['units'] === 'pounds_ounces' ? 'pounds_ounces' : 'metric'
  const gross = typedMass(form, 'gross')
  const tareGrams = tareOf(weigh, form)
  const tare = tareGrams.isZero() ? 'none' : writtenMass(tareGrams, system)
  if (gross === undefined) return { gross: NOTHING_YET, tare, net: NOTHING_YET, dry: NOTHING_YET }
  const divisionGrams = divisionOf(gross, form)
  const digits = divisionGrams.lessThan(COARSE_DIVISION_GRAMS) ? DIGITS_OF_A_GRAM : undefined
  const write = (grams: Decimal) => writtenMass(grams, system, digits)
  const grossGrams = gramsFrom(gross)
  if (grossGrams.lessThanOrEqualTo(tareGrams)) {
    return { gross: write(grossGrams), tare, net: NOTHING_YET, dry: NOTHING_YET }
  }
  const netGrams = netOfReading({ grossGrams, tareGrams })
  const readings = tareGrams.isZero() ? 1 : 2
  const netUncertaintyGrams = readingUncertaintyGrams({ divisionGrams, readings })
  const dry = dryWords({ weigh, form, system }, { netGrams, netUncertaintyGrams })
  return { gross: write(grossGrams), tare, net: write(netGrams), dry }
}

interface Place {
  readonly weigh: HTMLElement
  readonly form: HTMLFormElement
  readonly system: MassSystem
}

interface Net {
  readonly netGrams: Decimal
  readonly netUncertaintyGrams: Decimal
}

/** The dry clay where its water is known; the water where its dry clay is. */
function dryWords({ weigh, form, system }: Place, { netGrams, netUncertaintyGrams }: Net): string {
  if (chosenIn(form).some(({ dataset }) => dataset['tellsNothing'] !== undefined))
    return NOTHING_YET
  const netDoubt = doubtBy('reading', netUncertaintyGrams)
  const knownDry = weigh.dataset['knownDryGrams']
  if (knownDry !== undefined) {
    const knownDryGrams = decimal(knownDry)
    if (netGrams.lessThan(knownDryGrams)) return NOTHING_YET
    const { waterGrams } = dryMassKnown({ knownDryGrams, knownDoubt: new Map(), netGrams })
    return writtenMass(waterGrams, system)
  }
  const { water, waterU } = said(weigh, form, 'water')
  if (water === undefined) return NOTHING_YET
  const { dryGrams, standardUncertaintyGrams } = dryMassFromWet({
    netGrams,
    netDoubt,
    waterContentWetBasis: decimal(water),
    waterDoubt: doubtBy('moisture', decimal(waterU ?? 0)),
    method: 'body_figure',
    standing: 'estimated',
  })
  return writtenMassSure({ grams: dryGrams, standardUncertaintyGrams }, system)
}

function tareOf(weigh: HTMLElement, form: HTMLFormElement): Decimal {
  const byHand = typedMass(form, 'grossTare')
  if (byHand !== undefined) return gramsFrom(byHand)
  return decimal(said(weigh, form, 'tareGrams').tareGrams ?? 0)
}

/** The division of the scale that is chosen, or what the last digit tells. */
function divisionOf(gross: Mass, form: HTMLFormElement): Decimal {
  const chosen = form.querySelector<HTMLInputElement>('input:checked[data-division-grams]')
  const divisionGrams = chosen?.dataset['divisionGrams']
  return divisionGrams === undefined ? divisionGramsFromLastDigit(gross) : decimal(divisionGrams)
}

/** What the chosen thing says, otherwise what the form says. */
function said(weigh: HTMLElement, form: HTMLFormElement, name: 'water' | 'tareGrams') {
  return chosenIn(form).find(({ dataset }) => dataset[name] !== undefined)?.dataset ?? weigh.dataset
}
