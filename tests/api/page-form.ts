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
