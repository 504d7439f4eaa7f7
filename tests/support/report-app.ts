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
  readonly close: () => Promise<void>
}

/** Opens both studios; the first is filled. */
export async function openReportApp(): Promise<ReportApp> {
  const studio = await openTestStudio()
  const { soldEntryId } = await fillSmallStudio(studio)
  const other = connect(studio.url)
  await furnish(other, 'quay-side')
  await other.close()
  const log = { info: () => undefined, error: () => undefined }
  const app = newApp({ ...studio.services, log })
  const ask = async (address: string, studioId = studio.studioId) =>
    app.request(address, { headers: { 'studio-id': studioId } })
  return {
    studio,
    soldEntryId,
    ask,
    json: async (address, studioId) => (await ask(address, studioId)).json(),
    close: studio.close,
  }
}
