import type { Context } from 'hono'
import type { HoldingView } from '../../../db/holding-view.ts'
import { listEntries, traceEntry } from '../../../db/reports/entries.ts'
import { listHoldings } from '../../../db/reports/holdings.ts'
import { VOLUME_UNITS, type Volume } from '../../../shared/units.ts'
import type { Environment } from '../../services.ts'
import type { Choice } from '../fields.tsx'
import { allBodies, allVessels, type Vessel } from '../things.ts'
import type { Voice } from '../voice.ts'

/** A vessel in which clay lies in water, or could. */
export interface Basin {
  readonly vesselId: string
  readonly name: string
  readonly tareGrams: string
  readonly bodyId: string | null
  readonly bodyName: string | null
  /** What is in it; null where nothing is. */
  readonly holding: HoldingView | null
}

const HOLDINGS_MAX = 500
/** So many of the last entries are looked at for which basin was used last. */
const ENTRIES_LOOKED_AT = 20

/** Every basin, full or empty; the one that was used last comes first, then the full ones. */
export async function allBasins(c: Context<Environment>): Promise<readonly Basin[]> {
  const { db } = c.get('services')
  const studioId = c.get('studioId')
  const [vessels, bodies, held, lastUsed] = await Promise.all([
    allVessels(c),
    allBodies(c),
    listHoldings(db, { studioId, place: 'basin', nonEmpty: true, page: { limit: HOLDINGS_MAX } }),
    basinsLastUsed(c),
  ])
  const nameOf = new Map(bodies.map(({ bodyId, name }) => [bodyId, name]))
  const contentOf = ({ vesselId }: Vessel) =>
    held.items.find((one) => one.vesselId === vesselId && one.dryGrams !== '0') ?? null
  const rank = ({ vesselId, holding }: Basin) => {
    const used = lastUsed.indexOf(vesselId)
    return (holding === null ? ENTRIES_LOOKED_AT : 0) + (used === -1 ? ENTRIES_LOOKED_AT : used)
  }
  return vessels
    .map((vessel) => ({ vessel, holding: contentOf(vessel) }))
    .filter(({ vessel, holding }) => vessel.kind === 'basin' || holding !== null)
    .map(({ vessel: { vesselId, name, tareGrams }, holding }): Basin => {
      const bodyId = holding?.bodyId ?? null
      const bodyName = bodyId === null ? null : (nameOf.get(bodyId) ?? null)
      return { vesselId, name, tareGrams, bodyId, bodyName, holding }
    })
    .toSorted((one, other) => rank(one) - rank(other))
}

/** The basins that something is in, the one that was used last first. */
export async function fullBasins(c: Context<Environment>): Promise<readonly Basin[]> {
  return (await allBasins(c)).filter(({ holding }) => holding !== null)
}

async function basinsLastUsed(c: Context<Environment>): Promise<string[]> {
  const { items } = await listEntries(c.get('services').db, {
    studioId: c.get('studioId'),
    kinds: ['slake', 'decant', 'read_slurry', 'pour'],
    page: { limit: ENTRIES_LOOKED_AT },
  })
  const used = items.flatMap(({ lines }) => lines.filter(({ place }) => place === 'basin'))
  return [...new Set(used.flatMap(({ vesselId }) => vesselId ?? []))]
}

/** The jug that a slurry was read with the last time; nothing where none was read yet. */
export async function jugLastUsed(c: Context<Environment>): Promise<Volume | undefined> {
  const { db } = c.get('services')
  const studioId = c.get('studioId')
  const page = { limit: 1 }
  const { items } = await listEntries(db, { studioId, kinds: ['read_slurry'], page })
  const [last] = items
  if (last === undefined) return undefined
  const { said } = await traceEntry(db, { studioId, entryId: last.entryId })
  const { volume } = said as { volume?: Partial<Volume> }
  const unit = VOLUME_UNITS.find((known) => known === volume?.unit)
  const value = volume?.value
  return unit === undefined || value === undefined ? undefined : { value, unit }
}

/** Basins to choose from, each with what is in it by the books. */
export function basinChoices(basins: readonly Basin[], voice: Voice): Choice[] {
  return basins.map(({ vesselId, name, bodyName, holding }) => ({
    value: vesselId,
    name,
    hint: holding === null ? 'empty' : `${bodyName ?? ''}, ${slurryWords(holding, voice)}`,
  }))
}

/** So much slurry, and how wet it is. */
export function slurryWords(holding: HoldingView, voice: Voice): string {
  const { wetGrams, waterContentWetBasis: water } = holding
  const share = water === null ? '' : `, ${voice.share(water, 0)} water`
  return `${voice.mass(wetGrams)}${share}`
}
