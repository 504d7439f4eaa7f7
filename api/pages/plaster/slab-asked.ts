import type { Context } from 'hono'
import { plasterOfLoad } from '../../../db/reports/plaster.ts'
import { present } from '../../../shared/assert.ts'
import type { Environment } from '../../services.ts'
import type { Slab } from './slab-figures.tsx'

/** The slab that the address names, also where it has left its bat. Refuses: as `plasterOfLoad`. */
export async function slabAsked(c: Context<Environment>): Promise<Slab> {
  const { db, now } = c.get('services')
  const lotId = present(c.req.param('lotId'), 'the address names a slab')
  return plasterOfLoad(db, { studioId: c.get('studioId'), lotId, now: now() })
}
