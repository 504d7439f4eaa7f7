import type { Context } from 'hono'
import type { EntryTraced } from '../../../../db/reports/entries.ts'
import type { Environment } from '../../../services.ts'

/** The page on which an entry is told again, with what was said filled in; nothing where there is none. */
export function mendAddress(
  _c: Context<Environment>,
  _entry: EntryTraced,
): Promise<string | undefined> {
  return Promise.resolve(undefined)
}
