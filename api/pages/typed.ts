import { typedDecimal } from '../../shared/typed-decimal.ts'
import { massOfTypedPounds, type TypedMass } from '../../shared/typed-pounds.ts'
import type { Mass, MassUnit } from '../../shared/units.ts'
import { FaultOfForm } from '../faults.ts'

/** A reading as an act is told it. */
export interface TypedReading {
  readonly net?: Mass
  readonly gross?: Mass
  readonly tare?: Mass
  readonly inVesselId?: string
  readonly scaleId?: string
}

/** Before the name of a field, in the pointer of a fault that is in the typing itself. */
export const TYPED_FIELD = '/typed/'

/** What a person typed into a form: text by the names of its fields, and what of it an act is told. */
export class Typed {
  readonly #fields: URLSearchParams
  /** What may have been read otherwise than it was meant. */
  readonly remarks: string[] = []

  constructor(fields: URLSearchParams | FormData | string = '') {
    this.#fields = new URLSearchParams()
    const all = typeof fields === 'string' ? new URLSearchParams(fields) : fields
    for (const [name, value] of all) {
      if (typeof value === 'string') this.#fields.append(name, value)
    }
  }

  /** What stands in a field, without the blanks around it; nothing where it is empty. */
  text(name: string): string | undefined {
    const text = this.#fields.get(name)?.trim()
    return text === undefined || text === '' ? undefined : text
  }

  /** Everything that was chosen under one name. */
  all(name: string): string[] {
    return this.#fields.getAll(name).filter((text) => text.trim() !== '')
  }

  isYes(name: string): boolean {
    return this.text(name) === 'yes'
  }

  /** A whole number; what is none goes on as it was typed, and the act's form says what it must be. */
  count(name: string): number | undefined {
    const text = this.text(name)
    if (text === undefined) return undefined
    return /^\d{1,9}$/.test(text) ? Number(text) : (text as unknown as number)
  }

  /** Digits with a point, also where a comma was typed. */
  decimal(name: string): string | undefined {
    const text = this.text(name)
    if (text === undefined) return undefined
    const typed = typedDecimal(text)
    if ('text' in typed) return typed.text
    throw new FaultOfForm([{ pointer: `#${TYPED_FIELD}${name}`, detail: typed.fault }])
  }

  /** Whether anything was typed as a mass, right or not. */
  hasMass(name: string): boolean {
    return ['', 'Pounds', 'Ounces'].some((part) => this.text(`${name}${part}`) !== undefined)
  }

  /** A mass as it was read: digits in one unit, or pounds and ounces. */
  mass(name: string): Mass | undefined {
    const pounds = this.text(`${name}Pounds`) ?? ''
    const ounces = this.text(`${name}Ounces`) ?? ''
    const inPounds = massOfTypedPounds({ pounds, ounces })
    if (inPounds !== undefined) return this.#readAs(inPounds, name)
    const value = this.decimal(name)
    if (value === undefined) return undefined
    return { value, unit: (this.text(`${name}Unit`) ?? 'kg') as MassUnit }
  }

  #readAs(typed: TypedMass, name: string): Mass {
    if ('fault' in typed) {
      throw new FaultOfForm([{ pointer: `#${TYPED_FIELD}${name}`, detail: typed.fault }])
    }
    if (typed.caution !== undefined) this.remarks.push(typed.caution)
    return typed.mass
  }

  /** A weigh-in of a mass that has its vessel taken off already. */
  net(name: string): TypedReading | undefined {
    const net = this.mass(name)
    return net === undefined ? undefined : { net, ...this.#scale() }
  }

  /** A weigh-in of a vessel as it stands: on record, or with the tare that was typed. */
  gross(name: string, vesselId?: string): TypedReading | undefined {
    const gross = this.mass(name)
    if (gross === undefined) return undefined
    const tare = this.mass(`${name}Tare`)
    if (tare !== undefined) return { gross, tare, ...this.#scale() }
    if (vesselId === undefined) return { net: gross, ...this.#scale() }
    return { gross, inVesselId: vesselId, ...this.#scale() }
  }

  #scale(): { scaleId?: string } {
    const scaleId = this.text('scaleId')
    return scaleId === undefined ? {} : { scaleId }
  }
}

/** An object without what nobody said, as an act is told it. */
export function saidOnly<T extends object>(all: T): T {
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as T
}
