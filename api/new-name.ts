import type { Context } from 'hono'
import type { Catalogue, CatalogueItem } from '../db/catalogue.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Environment } from './services.ts'

interface Named {
  readonly resource: {
    readonly one: string
    readonly idName: string
    readonly catalogue: Catalogue
  }
  readonly said: CatalogueItem
}

/**
 * What was entered or changed; where its name or its id is taken, the refusal says which of the two.
 *
 * The database knows only that one of them is. The id is taken where something answers to it, and
 * otherwise it is the name.
 */
export async function newNameOf(
  c: Context<Environment>,
  named: Named,
  write: () => Promise<CatalogueItem>,
): Promise<CatalogueItem> {
  try {
    return await write()
  } catch (error) {
    if (!(error instanceof Refusal) || error.code !== 'name_must_be_new') throw error
    const { resource, said } = named
    const field = (await isThere(c, named)) ? resource.idName : 'name'
    throw taken(error, { one: resource.one, field, value: String(said[field]) })
  }
}

/** The same refusal, saying which field of it is taken and by which value. */
export function taken(
  refusal: Refusal,
  { one, field, value }: { one: string; field: string; value: string },
): Refusal {
  return new Refusal(
    refusal.code,
    `There is a ${one} with the ${field} '${value}' already. Choose another, or change the one there is.`,
    { pointer: `/${field}`, facts: { field, value }, cause: refusal },
  )
}

async function isThere(c: Context<Environment>, { resource, said }: Named): Promise<boolean> {
  const id = said[resource.idName]
  if (typeof id !== 'string') return false
  try {
    await resource.catalogue.find(c.get('services').db, c.get('studioId'), id)
    return true
  } catch (error) {
    if (error instanceof Refusal) return false
    throw error
  }
}
