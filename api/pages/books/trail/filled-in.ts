import type { Mass } from '../../../../shared/units.ts'
import type { MassSystem } from '../../../../shared/written-mass.ts'
import type { PlaceOfAct } from '../../act-page.tsx'

type Said = Readonly<Record<string, unknown>>

/** What every act is told, and every form has fields of its own for. */
const CIRCUMSTANCES = ['happenedAt', 'by', 'note']

interface Filling {
  readonly fieldOf: PlaceOfAct['fieldOf']
  /** What the page's address says already. */
  readonly inTheAddress: readonly string[]
  /** The vessel that the page is about. */
  readonly vesselId: string | undefined
  /** Fields for a mass: nothing else is ever typed into them. */
  readonly masses: ReadonlySet<string>
  readonly massUnits: MassSystem
  readonly fields: [string, string][]
}

/**
 * The fields of a page by which the same would be said again; nothing where the page cannot say all of
 * it, because what is left out would be lost.
 */
export function filledIn(
  said: Said,
  page: Pick<PlaceOfAct, 'path' | 'fieldOf'>,
  massUnits: MassSystem,
): [string, string][] | undefined {
  const inTheAddress = [...page.path.matchAll(/:(\w+)/g)].map(([, name]) => name ?? '')
  const filling: Filling = {
    fieldOf: page.fieldOf,
    inTheAddress,
    vesselId: inTheAddress.includes('vesselId') ? String(said['vesselId']) : undefined,
    masses: massFields(said, page.fieldOf),
    massUnits,
    fields: [],
  }
  const told = Object.entries(said).filter(
    ([name]) => !CIRCUMSTANCES.includes(name) && !inTheAddress.includes(name),
  )
  const isAllSaid = told.every(([name, value]) => put(filling, `/${name}`, value))
  return isAllSaid ? filling.fields : undefined
}

function massFields(said: Said, fieldOf: PlaceOfAct['fieldOf']): ReadonlySet<string> {
  const pointers = Object.entries(said)
    .filter(([, value]) => isReading(value) || isMass(value))
    .map(([name]) => `/${name}`)
  return new Set(pointers.flatMap((pointer) => fieldOf[pointer] ?? []))
}

/** Puts one thing that was said into its field. False where there is none. */
function put(filling: Filling, pointer: string, value: unknown): boolean {
  const field = filling.fieldOf[pointer]
  if (value === undefined || value === false) return true
  if (isReading(value)) return field !== undefined && putReading(filling, pointer, value)
  if (isMass(value)) return field !== undefined && putMass(filling, field, value)
  if (Array.isArray(value))
    return value.every((one) => typeof one === 'string' && put(filling, pointer, one))
  if (typeof value === 'object') {
    return Object.entries(value as Said).every(([name, part]) =>
      put(filling, `${pointer}/${name}`, part),
    )
  }
  if (field === undefined) return isOfThePage(filling, pointer, value)
  // A field of masses stands for other things too where they are at fault; nothing of them is typed there.
  if (filling.masses.has(field)) return isOfThePage(filling, pointer, value)
  filling.fields.push([field, value === true ? 'yes' : String(value)])
  return true
}

/** The lot of a page that is found by the bat it lies on; unfired pots, of which a page of a run is. */
function isOfThePage({ inTheAddress }: Filling, pointer: string, value: unknown): boolean {
  const isOfTheBat = pointer === '/lotId' && inTheAddress.includes('batId')
  return isOfTheBat || (pointer === '/place' && value === 'greenware')
}

interface Reading {
  readonly net?: Mass
  readonly gross?: Mass
  readonly tare?: Mass
  readonly inVesselId?: string
  readonly scaleId?: string
}

function putReading(filling: Filling, pointer: string, reading: Reading): boolean {
  const read = reading.gross ?? reading.net
  const field = filling.fieldOf[pointer] ?? ''
  return (
    read !== undefined &&
    putMass(filling, field, read) &&
    putTare(filling, { pointer, field, reading, read }) &&
    putVessel(filling, pointer, reading.inVesselId) &&
    (reading.scaleId === undefined || put(filling, `${pointer}/scaleId`, reading.scaleId))
  )
}

interface TareRead {
  readonly pointer: string
  readonly field: string
  readonly reading: Reading
  readonly read: Mass
}

function putTare(filling: Filling, { pointer, field, reading, read }: TareRead): boolean {
  const tareField = filling.fieldOf[`${pointer}/tare`]
  // A page that asks for the tare in a way of its own reads its digits in a way of its own.
  if (tareField !== undefined && tareField !== `${field}Tare`) return false
  const isOnItsOwn = reading.net !== undefined && filling.vesselId !== undefined
  // On the page of a vessel a mass is with the vessel, unless the tare is said to be nothing.
  const tare = isOnItsOwn ? { value: '0', unit: read.unit } : reading.tare
  if (tare === undefined) return true
  return tareField !== undefined && putMass(filling, tareField, tare)
}

function putVessel(filling: Filling, pointer: string, inVesselId: string | undefined): boolean {
  if (inVesselId === undefined || inVesselId === filling.vesselId) return true
  return put(filling, `${pointer}/inVesselId`, inVesselId)
}

/** A mass in the boxes of the studio's units. False where it was read in others. */
function putMass({ fields, massUnits }: Filling, field: string, { value, unit }: Mass): boolean {
  if (massUnits === 'metric') {
    if (unit !== 'g' && unit !== 'kg') return false
    fields.push([field, value], [`${field}Unit`, unit])
    return true
  }
  if (unit !== 'lb' && unit !== 'oz') return false
  fields.push([`${field}${unit === 'lb' ? 'Pounds' : 'Ounces'}`, value])
  return true
}

function isReading(value: unknown): value is Reading {
  return typeof value === 'object' && value !== null && ('net' in value || 'gross' in value)
}

function isMass(value: unknown): value is Mass {
  return typeof value === 'object' && value !== null && 'value' in value && 'unit' in value
}
