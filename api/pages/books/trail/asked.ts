import type { Context } from 'hono'
import type { z } from '@hono/zod-openapi'
import type { PageAsked } from '../../../../db/page-keys.ts'
import { FaultOfForm, faultsOf } from '../../../faults.ts'
import type { Environment } from '../../../services.ts'
import { pageAsked } from '../../../trail-page.ts'

/** What pages add to an address and no list is narrowed by. */
const NOT_FILTERS = ['did', 'studio']

/** So many lines stand on one page of the trail. */
const LINES_USUALLY = 40

type Narrowed<Schema extends z.ZodType> = Omit<z.output<Schema>, 'limit' | 'cursor'>

export interface ListAsked<Schema extends z.ZodType> {
  readonly filters: Narrowed<Schema>
  readonly page: PageAsked
}

/**
 * What a page of a list is asked for: the filters of the API, as its address has them. A field of a form
 * that was left empty narrows nothing.
 *
 * Throws what is wrong with the address, as the API does.
 */
export function listAsked<Schema extends z.ZodType>(
  c: Context<Environment>,
  schema: Schema,
): ListAsked<Schema> {
  const read = schema.safeParse(Object.fromEntries(filledFields(c)))
  if (!read.success) throw new FaultOfForm(faultsOf(read.error.issues, 'query'))
  const { limit, cursor, ...filters } = read.data as { limit?: number; cursor?: string }
  return {
    filters: filters as Narrowed<Schema>,
    page: pageAsked({ limit: limit ?? LINES_USUALLY, cursor }),
  }
}

/** The fields of the address that say something. */
export function filledFields(c: Context<Environment>): [string, string][] {
  const { searchParams } = new URL(c.req.url)
  return [...searchParams].filter(([name, text]) => text !== '' && !NOT_FILTERS.includes(name))
}

/** The same page with other filters; what is set to undefined is left out, and so is the place in the list. */
export function addressWith(
  c: Context<Environment>,
  changes: Readonly<Record<string, string | undefined>>,
): string {
  const fields = new Map(filledFields(c))
  fields.delete('cursor')
  for (const [name, text] of Object.entries(changes)) {
    if (text === undefined) fields.delete(name)
    else fields.set(name, text)
  }
  const query = new URLSearchParams([...fields]).toString()
  return query === '' ? c.req.path : `${c.req.path}?${query}`
}
