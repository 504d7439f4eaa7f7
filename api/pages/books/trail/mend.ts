import type { Context } from 'hono'
import { traceLot } from '../../../../db/reports/lots.ts'
import { wallMinute } from '../../../../shared/studio-clock.ts'
import type { Environment } from '../../../services.ts'
import { pagesOfActs, type PlaceOfAct } from '../../act-page.tsx'
import { filledIn } from './filled-in.ts'

/** What is to be told again, and of what. */
export interface ToldWrong {
  readonly entryId: string
  readonly kind: string
  readonly happenedAt: string
  readonly recordedBy: string | null
  readonly note: string | null
  readonly said: unknown
}

type Said = Readonly<Record<string, unknown>>

const PARAMETER = /:(\w+)/g

/**
 * The page on which an entry is told again instead, with what was said filled in; nothing where no page
 * could say all of it.
 */
export async function mendAddress(
  c: Context<Environment>,
  entry: ToldWrong,
): Promise<string | undefined> {
  const said = entry.said as Said
  const known = { ...said, batId: await batOf(c, entry) }
  const { massUnits, timeZone } = c.get('voice').studio
  for (const page of pagesOfActs().filter(({ act }) => act.act.kind === entry.kind)) {
    const path = pathOf(page, known)
    const fields =
      path === undefined ? undefined : filledIn(said, { ...page, path: page.path }, massUnits)
    if (path === undefined || fields === undefined) continue
    const when = wallMinute(new Date(entry.happenedAt), timeZone)
    const others = [
      ['when', when],
      ['wasAt', entry.happenedAt],
      ['by', entry.recordedBy],
      ['note', entry.note],
      ['instead', entry.entryId],
    ].filter((pair): pair is [string, string] => typeof pair[1] === 'string')
    return `${path}?${new URLSearchParams([...fields, ...others]).toString()}`
  }
  return undefined
}

/** The address of a page about these things; nothing where one of them is not known. */
function pathOf({ path }: PlaceOfAct, known: Said): string | undefined {
  const names = [...path.matchAll(PARAMETER)].map(([, name]) => name ?? '')
  if (names.some((name) => typeof known[name] !== 'string')) return undefined
  return path.replaceAll(PARAMETER, (_, name: string) => encodeURIComponent(String(known[name])))
}

/** A slab is weighed on the page of its bat. */
async function batOf(c: Context<Environment>, { kind, said }: ToldWrong): Promise<string | null> {
  if (kind !== 'weigh_on_plaster') return null
  const { lotId } = said as { lotId: string }
  const studioId = c.get('studioId')
  return (await traceLot(c.get('services').db, { studioId, lotId })).batId
}
