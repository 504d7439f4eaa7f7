import { typedDecimal } from '../../shared/typed-decimal.ts'
import { massOfTypedPounds } from '../../shared/typed-pounds.ts'
import { MASS_UNITS, type Mass, type MassUnit } from '../../shared/units.ts'

const DIGITS = /^(\d+\.?\d*|\.\d+)$/

/** The mass that stands in a field, as the server will read it; undefined where it is none yet. */
export function typedMass(form: HTMLFormElement, name: string): Mass | undefined {
  const fields = new FormData(form)
  const text = (part: string) => String(fields.get(`${name}${part}`) ?? '').trim()
  const typed = massOfTypedPounds({ pounds: text('Pounds'), ounces: text('Ounces') })
  const mass =
    typed === undefined
      ? metricMass(text(''), unitNamed(text('Unit')))
      : 'mass' in typed
        ? typed.mass
        : undefined
  return mass !== undefined && DIGITS.test(mass.value) ? mass : undefined
}

function metricMass(text: string, unit: MassUnit): Mass | undefined {
  const typed = typedDecimal(text)
  return 'text' in typed ? { value: typed.text, unit } : undefined
}

function unitNamed(text: string): MassUnit {
  return MASS_UNITS.find((unit) => unit === text) ?? 'kg'
}
