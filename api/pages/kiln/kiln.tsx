import { kilns } from '../../../db/catalogue.ts'
import { boardsReport } from '../../../db/reports/boards.ts'
import { firingsReport } from '../../../db/reports/firings.ts'
import { kilnReport } from '../../../db/reports/kiln.ts'
import { newRouter } from '../../router.ts'
import { actPage } from '../act-page.tsx'
import { show } from '../show.tsx'
import { emptyPage } from './empty.tsx'
import { gradePage } from './grade.tsx'
import { KilnPage } from './kiln-page.tsx'
import { loading } from './load.tsx'
import { unloadPage } from './unload.tsx'

/** The kiln: what is in it, what waits for it, and what came out of it. */
export const kiln = newRouter()

kiln.get('/kiln', async (c) => {
  const { db, now } = c.get('services')
  const studioId = c.get('studioId')
  const report = await kilnReport(db, studioId)
  const boards = await boardsReport(db, { studioId, now: now() })
  const firings = await firingsReport(db, { studioId })
  const hasKilns = (await kilns.list(db, studioId, { limit: 1 })).length > 0
  return show(
    c,
    { title: 'The kiln', here: 'kiln' },
    <KilnPage {...report} {...{ boards, firings, hasKilns }} voice={c.get('voice')} />,
  )
})

kiln.route('/', loading)
actPage(kiln, unloadPage)
actPage(kiln, gradePage)
actPage(kiln, emptyPage)
