import type { Answered, Pottery } from './pottery.ts'

/** Sends a form as a browser does, from a page of the same studio. */
export function pressed(
  pottery: Pottery,
  path: string,
  fields: Readonly<Record<string, string>> | readonly [string, string][],
): Promise<Answered> {
  return pottery.ask('POST', path, {
    studio: null,
    raw: new URLSearchParams(fields as Record<string, string>).toString(),
    headers: {
      'content-type': 'application/x-www-form-urlencoded',
      origin: 'http://localhost',
      accept: 'text/html',
    },
  })
}

/** Opens a page as a browser does. */
export function opened(pottery: Pottery, path: string): Promise<Answered> {
  return pottery.ask('GET', path, { studio: null, headers: { accept: 'text/html' } })
}

/** The entry that a press has led to. */
export function entryOf(answer: Answered): string {
  const location = answer.headers.get('location') ?? ''
  const did = /[?&]did=([^&]+)/.exec(location)?.[1]
  if (answer.status !== 303 || did === undefined) {
    throw new Error(`nothing was recorded: ${String(answer.status)} ${answer.text.slice(0, 2000)}`)
  }
  return did
}

interface EntryRead {
  readonly said: unknown
  readonly lines: readonly Record<string, unknown>[]
  readonly weighings: readonly Record<string, unknown>[]
  readonly estimates: readonly Record<string, unknown>[]
}

/** What an entry says and moves, without the ids that are new each time. */
function toldBy({ said, lines, weighings, estimates }: EntryRead) {
  return {
    said,
    lines: lines
      .map((line) =>
        [
          line['place'],
          line['bodyId'],
          line['dryGrams'],
          line['waterGrams'],
          line['pieces'],
          line['cost'],
        ].join(' '),
      )
      .sort(),
    weighings: weighings.map(({ purpose, asRead, netGrams }) => ({ purpose, asRead, netGrams })),
    estimates: estimates.map(({ of, dryGrams, waterGrams, method, standing }) => [
      ...[of, dryGrams, waterGrams, method, standing],
    ]),
  }
}

/** What the API would record if it were told this, and what a press of the page has recorded. */
export async function bothWays(
  pottery: Pottery,
  { act, said }: { act: string; said: unknown },
  press: () => Promise<Answered>,
) {
  const tried = await pottery.ask('POST', `/v1/acts/${act}?preview=true`, { body: said })
  if (tried.status !== 200) throw new Error(`${act}: ${tried.text}`)
  const entryId = entryOf(await press())
  const recorded = await pottery.ask('GET', `/v1/entries/${entryId}`)
  return {
    entryId,
    byApi: toldBy(tried.body['entry'] as EntryRead),
    byPage: toldBy(recorded.body as unknown as EntryRead),
  }
}
