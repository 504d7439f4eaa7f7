import type { Context } from 'hono'
import type { CatalogueItem } from '../../db/catalogue.ts'
import { refuseFinerThanCoin } from '../money-of-studio.ts'
import { newNameOf } from '../new-name.ts'
import type { Environment } from '../services.ts'
import type { CatalogueResource } from './resource.ts'

/** Enters a thing. Refuses: `name_must_be_new`, `amount_must_be_in_coin`. */
export async function enterThing(
  c: Context<Environment>,
  resource: CatalogueResource,
  said: CatalogueItem,
): Promise<CatalogueItem> {
  await refuseFinerThanCoin(c, said)
  return newNameOf(c, { resource, said }, () =>
    resource.catalogue.create(c.get('services'), c.get('studioId'), said),
  )
}

/** Changes a thing in what is named. Refuses: as `enterThing`, and the kind's own `…_not_found`. */
export async function changeThing(
  c: Context<Environment>,
  resource: CatalogueResource,
  { id, changes }: { id: string; changes: CatalogueItem },
): Promise<CatalogueItem> {
  await refuseFinerThanCoin(c, changes)
  return newNameOf(c, { resource, said: changes }, () =>
    resource.catalogue.change(c.get('services'), { studioId: c.get('studioId'), id }, changes),
  )
}
