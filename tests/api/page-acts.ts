import { expect } from 'vitest'
import { kg } from '../support/studio.ts'
import { get, post } from './page-forms.ts'
import { NEIGHBOUR, STUDIO, type Answered, type Body, type Pottery } from './pottery.ts'

/** Which studio a browser remembers: the pages of the tests are all its. */
const COOKIE = { Cookie: `studio=${STUDIO}` }

export type Fields = Readonly<Record<string, string>>

interface Line {
  readonly place: string
  readonly grade: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly dryGrams: string
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
}

/** An entry as the trail of a studio shows it. */
export interface EntryShown {
  readonly kind: string
  readonly said: Record<string, unknown>
  readonly note: string | null
  readonly recordedBy: string | null
  readonly lines: readonly Line[]
  readonly losses: readonly { readonly pieces: number; readonly cause: string }[]
}

/** The page at an address, of the studio whose pages these are. */
export const pageAt = (at: Pottery, path: string) => get(at, path, COOKIE.Cookie)

/** A form sent as a browser sends it. */
export function send(at: Pottery, path: string, fields: Fields) {
  return post(at, path, { fields, headers: COOKIE })
}

/** The same as the phone's own queue sends it. */
export function sendKept(at: Pottery, path: string, fields: Fields) {
  return post(at, path, { fields, headers: { ...COOKIE, Accept: 'application/json' } })
}

/** Presses a form and gives what it recorded. Insists that it went through. */
export async function pressed(
  at: Pottery,
  path: string,
  fields: Fields,
): Promise<{ entry: EntryShown; entryId: string; to: string }> {
  const answer = await send(at, path, { seen: 'yes', ...fields })
  expect([answer.status, answer.text.match(/class="faults".*?<\/ul>/s)?.[0]]).toEqual([
    303,
    undefined,
  ])
  const [to = '', query = ''] = (answer.headers.get('location') ?? '').split('?')
  const entryId = new URLSearchParams(query).get('did') ?? ''
  return { entry: await entryOf(at, entryId), entryId, to }
}

export async function entryOf(at: Pottery, entryId: string, studio = STUDIO): Promise<EntryShown> {
  const { body } = await at.ask('GET', `/v1/entries/${entryId}`, { studio })
  return body as unknown as EntryShown
}

/** What an entry moved, in whatever studio: amounts by what tells their holdings apart. */
export function moved({ kind, lines }: EntryShown) {
  // A run that is thrown gets an id of its own in each studio.
  const idOf = (runId: string | null) => (kind === 'throw' && runId !== null ? 'its run' : runId)
  return lines
    .map(({ place, grade, runId, vesselId, ...amounts }) => {
      const { dryGrams, materialGrams, waterGrams, pieces, cost } = amounts
      const moved = [dryGrams, materialGrams, waterGrams, pieces, cost]
      return [place, grade, idOf(runId), vesselId, ...moved].join(' ')
    })
    .sort()
}

/** What the act of the API records in the neighbouring studio, which has the same things. */
export async function twin(at: Pottery, act: string, said: unknown): Promise<EntryShown> {
  const { entry } = (await at.does(act, said, { studio: NEIGHBOUR })) as Body & {
    entry: { entryId: string }
  }
  return entryOf(at, entry.entryId, NEIGHBOUR)
}

/** A press recorded what the API records when it is told the same. */
export async function sameAs(
  at: Pottery,
  entry: EntryShown,
  { act, said }: { act: string; said: Record<string, unknown> },
): Promise<void> {
  const other = await twin(at, act, said)
  expect(entry.said).toEqual(other.said)
  expect(moved(entry)).toEqual(moved(other))
  expect(entry.losses.map(({ cause, pieces }) => [cause, pieces])).toEqual(
    other.losses.map(({ cause, pieces }) => [cause, pieces]),
  )
}

/** What a page says is wrong, and that the words lead to their field. */
export function faultsIn({ text }: Answered): string[] {
  const summary = /<div class="faults".*?<\/ul>/s.exec(text)?.[0] ?? ''
  return [...summary.matchAll(/<li>(.*?)<\/li>/gs)].map(([, words = '']) => words)
}

/** What stands in a field of a page; undefined where it is empty. */
export function valueIn(text: string, name: string): string | undefined {
  const field = new RegExp(`<input[^>]*name="${name}"[^>]*>`).exec(text)?.[0]
  return /value="([^"]*)"/.exec(field ?? '')?.[1]
}

/** Bags of buff opened on the bench of both studios, two as 'o1' and one as 'o2', two weeks ago. */
export async function openBags({ does }: Pottery): Promise<void> {
  const delivery = { bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }
  const early = { happenedAt: '2026-06-01T10:00:00Z' }
  for (const studio of [STUDIO, NEIGHBOUR]) {
    await does('receive-delivery', { clays: [delivery], ...early }, { studio })
    await does('open-bag', { lotId: 'd1', bags: 2, newLotId: 'o1', ...early }, { studio })
    await does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o2', ...early }, { studio })
  }
}
