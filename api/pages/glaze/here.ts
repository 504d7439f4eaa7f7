import type { Context } from 'hono'
import { listEntries, traceEntry } from '../../../db/reports/entries.ts'
import { glazeBuckets, type GlazeBuckets } from '../../../db/reports/glaze-buckets.ts'
import { Refusal } from '../../../shared/refusal.ts'
import { VOLUME_UNITS, type Volume } from '../../../shared/units.ts'
import type { Environment } from '../../services.ts'

export type GlazeBucket = GlazeBuckets['items'][number]

/** All buckets that hold glaze. */
export async function bucketsHere(c: Context<Environment>): Promise<GlazeBucket[]> {
  const { items } = await glazeBuckets(c.get('services').db, c.get('studioId'))
  return [...items]
}

/** The bucket that the address names, with the glaze in it. */
export async function bucketHere(c: Context<Environment>): Promise<GlazeBucket> {
  const vesselId = c.req.param('vesselId')
  const bucket = (await bucketsHere(c)).find((one) => one.vesselId === vesselId)
  if (bucket !== undefined) return bucket
  throw new Refusal('holding_not_found', 'By the books there is no glaze in that bucket.')
}

/** The jug that a glaze was read with the last time; nothing where none was read yet. */
export async function glazeJug(c: Context<Environment>): Promise<Volume | undefined> {
  const { db } = c.get('services')
  const studioId = c.get('studioId')
  const kinds = ['read_glaze'] as const
  const { items } = await listEntries(db, { studioId, kinds: [...kinds], page: { limit: 1 } })
  const [last] = items
  if (last === undefined) return undefined
  const { said } = await traceEntry(db, { studioId, entryId: last.entryId })
  const { density } = said as { density?: { volume?: Partial<Volume> } }
  const unit = VOLUME_UNITS.find((known) => known === density?.volume?.unit)
  const value = density?.volume?.value
  return unit === undefined || value === undefined ? undefined : { value, unit }
}
