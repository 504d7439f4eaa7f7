import type { Answered, Pottery } from './pottery.ts'

const HOST = 'localhost'
const HTML = { Accept: 'text/html' }

/** The page at that address, as a browser asks for it. */
export const get = (at: Pottery, path: string, cookie = '') =>
  at.ask('GET', path, { studio: null, headers: { ...HTML, Cookie: cookie } })

/** What is in a form; a list where a name comes more than once. */
export type Fields = Record<string, string> | [string, string][]

/** A form sent to an address, as a browser sends it from our own page unless told. */
export const post = (
  at: Pottery,
  path: string,
  { headers = {}, ...form }: { headers?: Record<string, string>; fields: Fields },
) =>
  at.ask('POST', path, {
    studio: null,
    raw: new URLSearchParams(form.fields).toString(),
    headers: {
      ...HTML,
      Host: HOST,
      Origin: `http://${HOST}`,
      'Content-Type': 'application/x-www-form-urlencoded',
      ...headers,
    },
  })

/** What the answer would have the browser remember under that name. */
export const cookieOf = ({ headers }: Answered, name: string) =>
  headers.getSetCookie().find((cookie) => cookie.startsWith(`${name}=`))

/** True where the choice of that name and value is there and made. */
export const chosen = (text: string, name: string, value: string) =>
  new RegExp(`<input[^>]*name="${name}"[^>]*value="${value}"[^>]*checked=""`).test(text)

/** How a studio writes, and what else its page of settings can change but makers. */
export async function settingsOf(at: Pottery, studioId: string): Promise<Record<string, string>> {
  const { body } = await at.ask('GET', `/v1/studios/${studioId}`, { studio: null })
  const { name, massUnits, dateOrder, tradeWords, jurisdiction } = body as Record<string, string>
  return { name, massUnits, dateOrder, tradeWords, jurisdiction } as Record<string, string>
}

/** The studios there are, as the API lists them. */
export const studiosOf = async (at: Pottery) =>
  (await at.ask('GET', '/v1/studios', { studio: null })).body['items'] as Record<string, unknown>[]
