import type { Context } from 'hono'
import type { CatalogueItem } from '../../../db/catalogue.ts'
import { CLAY_STATES } from '../../../shared/moisture.ts'
import { Refusal } from '../../../shared/refusal.ts'
import { shortName } from '../../../shared/short-name.ts'
import type { CatalogueResource } from '../../catalogue/resource.ts'
import { FaultOfForm, faultsOf } from '../../faults.ts'
import type { Environment } from '../../services.ts'
import type { FormFaults } from '../field-words.tsx'
import { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import type { ThingKind } from './kinds.ts'
import { asTyped, readField, waterField, type ThingField } from './thing-field.ts'

/** A word that an address of the pages has taken, so that nothing of a studio can be called by it. */
const TAKEN_BY_THE_PAGES = ['new']

/** A thing as its form would be filled with it. */
export function typedOf(fields: readonly ThingField[], item: CatalogueItem, voice: Voice): Typed {
  const pairs = fields.flatMap((field) => asTyped(field, item[field.name], voice))
  return new Typed(new URLSearchParams(pairs))
}

/** What was typed of a new thing, with a short name of its own. Throws what is wrong with its form. */
export async function newThingSaid(
  c: Context<Environment>,
  { resource, fields }: ThingKind,
  typed: Typed,
): Promise<CatalogueItem> {
  const facts = fields.flatMap((field) => {
    const value = readField(field, typed)
    return value === undefined ? [] : [[field.name, value] as const]
  })
  const id = await freeShortName(c, resource, typed.text('name') ?? '')
  const read = resource.created.safeParse({ ...Object.fromEntries(facts), [resource.idName]: id })
  if (!read.success) throw new FaultOfForm(faultsOf(read.error.issues, 'json'))
  return read.data
}

/**
 * What was typed otherwise than the thing is; nothing where all is as it was. What was emptied counts as
 * usual again. Throws what is wrong with its form.
 */
export function changesSaid(
  { resource, fields }: ThingKind,
  typed: Typed,
  as: { item: CatalogueItem; voice: Voice },
): CatalogueItem {
  const before = typedOf(fields, as.item, as.voice)
  const changes = fields.flatMap((field) => {
    if (field.isFixed === true) return []
    const value = readField(field, typed)
    if (JSON.stringify(value) === JSON.stringify(readField(field, before))) return []
    const empty = field.usual ?? (field.isNeeded === true ? '' : null)
    return [[field.name, value ?? empty] as const]
  })
  if (changes.length === 0) return {}
  const read = resource.changed.safeParse(Object.fromEntries(changes))
  if (!read.success) throw new FaultOfForm(faultsOf(read.error.issues, 'json'))
  return read.data as CatalogueItem
}

/** The first short name made of these words that nothing of the kind has yet. */
async function freeShortName(
  c: Context<Environment>,
  resource: CatalogueResource,
  name: string,
): Promise<string> {
  const made = shortName(name)
  const wanted = made === '' ? shortName(resource.one) : made
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? wanted : `${wanted}-${String(number)}`
    if (!TAKEN_BY_THE_PAGES.includes(id) && !(await isThere(c, resource, id))) return id
  }
}

async function isThere(
  c: Context<Environment>,
  { catalogue }: CatalogueResource,
  id: string,
): Promise<boolean> {
  try {
    await catalogue.find(c.get('services').db, c.get('studioId'), id)
    return true
  } catch (error) {
    if (error instanceof Refusal) return false
    throw error
  }
}

/** As the API says it, in units of the books. */
const OUTSIDE = /outside what is possible/

/** The same faults in the units of the page: what is empty is asked for, what is outside has its range. */
export function faultsInPagesUnits(
  faults: FormFaults,
  { fields }: ThingKind,
  typed: Typed,
): FormFaults {
  const all = faults.all.map((fault) => {
    const field = fault.field
    if (field === undefined) return fault
    const isMass = fields.some(({ name, kind }) => name === field && kind === 'grams')
    const text = isMass ? massText(typed, field) : typed.text(field)
    if (text === undefined) return { field, detail: 'This is still empty.' }
    const range = rangeOf(fields, field)
    return OUTSIDE.test(fault.detail) && range !== undefined ? { field, detail: range } : fault
  })
  return { ...faults, all }
}

function massText(typed: Typed, name: string): string | undefined {
  return typed.text(name) ?? typed.text(`${name}Pounds`) ?? typed.text(`${name}Ounces`)
}

function rangeOf(fields: readonly ThingField[], name: string): string | undefined {
  const isWater = CLAY_STATES.some((state) => waterField(state) === name)
  if (isWater) return 'Between 0 and 100 per cent, without 100 itself.'
  if (name.startsWith('unsure-')) return 'Between 0 and 98 points.'
  return fields.find((field) => field.name === name)?.range
}
