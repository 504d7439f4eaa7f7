import { countryOf, type Country } from '../../../shared/countries.ts'
import { Typed } from '../typed.ts'

/** Where somebody is whose country is not in the list. */
export const ELSEWHERE = 'elsewhere'

/** The fields of the form with which a studio begins. */
const FIELDS = [
  ...(['key', 'name', 'country', 'currency', 'timeZone'] as const),
  ...(['massUnits', 'dateOrder', 'tradeWords', 'jurisdiction'] as const),
]

type Usual = Partial<Omit<Country, 'code' | 'name'>>

const USUAL_ELSEWHERE: Usual = {
  massUnits: 'metric',
  dateOrder: 'day_month_year',
  tradeWords: 'UK',
  jurisdiction: 'other',
}

/** What was typed, with what is usual in its country where that says more. */
export interface FilledIn {
  readonly typed: Typed
  /** Where that is usual: "in Ireland". Nothing where nothing was filled in. */
  readonly where: string | undefined
}

/**
 * What was typed, with the gaps filled by what is usual in its country.
 *
 * Asked anew, the country says everything again but the clock, which a phone knows better.
 */
export function filledIn(typed: Typed, choices: { anew: boolean }): FilledIn {
  const code = typed.text('country')
  const country = countryOf(code)
  const usual = country ?? (code === ELSEWHERE ? USUAL_ELSEWHERE : undefined)
  if (usual === undefined) return { typed, where: undefined }
  const fields = FIELDS.map((field) => {
    const said = typed.text(field)
    const isKept = said !== undefined && (!choices.anew || field === 'timeZone')
    return { field, said, text: isKept ? said : (usualFor(usual, field) ?? said) }
  })
  const all = new URLSearchParams()
  for (const { field, text } of fields) if (text !== undefined) all.set(field, text)
  if (fields.every(({ said, text }) => said === text)) return { typed, where: undefined }
  const where = country === undefined ? 'in most places' : `in ${country.name}`
  return { typed: new Typed(all), where }
}

function usualFor(usual: Usual, field: (typeof FIELDS)[number]): string | undefined {
  if (field === 'key' || field === 'name' || field === 'country') return undefined
  return usual[field]
}
