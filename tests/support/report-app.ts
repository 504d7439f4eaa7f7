import { newApp } from '../../api/app.ts'
import { connect } from '../../db/connection.ts'
import { fillSmallStudio } from './small-studio.ts'
import { furnish, openTestStudio, type TestStudio } from './studio.ts'

/** What answers hold, as far as the tests look into it. */
// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Json = any

/** The small studio behind its API, beside an empty neighbour, 'quay-side'. */
export interface ReportApp {
  readonly studio: TestStudio
  readonly soldEntryId: string
  readonly ask: (address: string, studioId?: string) => Promise<Response>
  readonly json: (address: string, studioId?: string) => Promise<Json>
  /** Asks for a page, or sends its form, as the browser of somebody at the studio would. */
  readonly page: (address: string, form?: Readonly<Record<string, string>>) => Promise<Page>
  readonly close: () => Promise<void>
}

/** A page as it was answered. */
export interface Page {
  readonly status: number
  readonly location: string | null
  readonly html: string
  /** What a person reads of it, without the tags. */
  readonly text: string
  /** Where its links and forms lead. */
  readonly links: readonly string[]
}

/** Opens both studios; the first is filled. */
export async function openReportApp(): Promise<ReportApp> {
  const studio = await openTestStudio()
  const { soldEntryId } = await fillSmallStudio(studio)
  return { ...(await reportAppOf(studio)), soldEntryId }
}

/** A studio, as it is filled, behind its API; beside it an empty neighbour, 'quay-side'. */
export async function reportAppOf(studio: TestStudio): Promise<Omit<ReportApp, 'soldEntryId'>> {
  const other = connect(studio.url)
  await furnish(other, 'quay-side')
  await other.close()
  const log = { info: () => undefined, error: () => undefined }
  const app = newApp({ ...studio.services, log })
  const ask = async (address: string, studioId = studio.studioId) =>
    app.request(address, { headers: { 'studio-id': studioId } })
  return {
    studio,
    ask,
    json: async (address, studioId) => (await ask(address, studioId)).json(),
    page: async (address, form) => pageOf(await app.request(address, asBrowser(studio, form))),
    close: studio.close,
  }
}

function asBrowser({ studioId }: TestStudio, form: Readonly<Record<string, string>> | undefined) {
  const headers = { accept: 'text/html', cookie: `studio=${studioId}; by=Ines` }
  if (form === undefined) return { headers }
  return {
    method: 'POST',
    headers: {
      ...headers,
      host: 'localhost',
      origin: 'http://localhost',
      'content-type': 'application/x-www-form-urlencoded',
    },
    body: new URLSearchParams(form).toString(),
  }
}

async function pageOf(response: Response): Promise<Page> {
  const html = await response.text()
  return {
    status: response.status,
    location: response.headers.get('location'),
    html,
    text: unescaped(html.replaceAll(/<[^>]*>/g, ' ')).replaceAll(/\s+/g, ' '),
    links: [...html.matchAll(/(?:href|action)="([^"]*)"/g)].map(([, href]) =>
      unescaped(href ?? ''),
    ),
  }
}

function unescaped(html: string): string {
  return html
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
}
