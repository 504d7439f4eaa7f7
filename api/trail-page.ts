import type { Page, PageAsked } from '../db/page-keys.ts'
import { cursorOf, keyOfCursor, pageItems } from './schemas.ts'

/** The page that a request asks for. */
export function pageAsked(query: {
  limit?: number | undefined
  cursor?: string | undefined
}): PageAsked {
  return { limit: pageItems(query.limit), after: keyOfCursor(query.cursor) }
}

/** A page as it is answered, its key wrapped into a cursor. */
export function pageAnswer<Item>(page: Page<Item>) {
  const { items, nextKey } = page
  return { items: [...items], nextCursor: nextKey === null ? null : cursorOf(nextKey) }
}
