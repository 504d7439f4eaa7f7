import { decimal } from '../../shared/decimal.ts'
import { gramsFrom, type Mass } from '../../shared/units.ts'
import type { MassSystem } from '../../shared/written-mass.ts'
import { Typed } from './typed.ts'

/** What fields begin with on a fresh form. Once something was typed, an emptied field stays empty. */
export function begunWith(
  typed: Typed,
  usual: Readonly<Record<string, string | undefined>>,
): Typed {
  if (typed.text('key') !== undefined) return typed
  const fields = new URLSearchParams()
  for (const [name, value] of Object.entries(usual)) {
    const text = typed.text(name) ?? value
    if (text !== undefined) fields.append(name, text)
  }
  return new Typed(fields)
}

/** A mass as the fields of a studio show it: in the unit that it was read in where that fits. */
export function fieldsOfMass(
  name: string,
  mass: Mass | undefined,
  units: MassSystem,
): Record<string, string | undefined> {
  if (mass === undefined) return {}
  const { value, unit } = mass
  if (units === 'metric') {
    const isMetric = unit === 'g' || unit === 'kg'
    const grams = isMetric ? value : gramsFrom(mass).toFixed(0)
    return { [name]: grams, [`${name}Unit`]: isMetric ? unit : 'g' }
  }
  if (unit === 'lb') return { [`${name}Pounds`]: value }
  if (unit === 'oz') return { [`${name}Ounces`]: value }
  const ounces = gramsFrom(mass).dividedBy(gramsFrom({ value: '1', unit: 'oz' }))
  return { [`${name}Ounces`]: ounces.toDecimalPlaces(1).toFixed() }
}

/** A mass of the catalogue, which keeps grams. */
export function massOfGrams(grams: string | null): Mass | undefined {
  return grams === null ? undefined : { value: decimal(grams).toFixed(), unit: 'g' }
}
