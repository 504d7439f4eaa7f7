import { plasterBoard } from '../../../db/reports/plaster.ts'
import { newRouter } from '../../router.ts'
import { actPage } from '../act-page.tsx'
import { firstNeeded } from '../first-needed.tsx'
import { show } from '../show.tsx'
import { Board } from './board.tsx'
import { decantPage } from './decant.tsx'
import * as lacks from './lacks.ts'
import { liftPage } from './lift.tsx'
import { movePage } from './move.tsx'
import { pourPage } from './pour.tsx'
import { rewetPage } from './rewet.tsx'
import { slabAsked } from './slab-asked.ts'
import { SlabPage } from './slab-page.tsx'
import { slakePage } from './slake.tsx'
import { slurryPage } from './slurry.tsx'
import { wedgePage } from './wedge.tsx'

/** The plaster room: slabs on their bats, and all of reclaim. */
export const plaster = newRouter()

plaster.get('/plaster', async (c) => {
  const { db, now } = c.get('services')
  const board = await plasterBoard(db, { studioId: c.get('studioId'), now: now() })
  const voice = c.get('voice')
  return show(c, { title: 'Plaster', here: 'plaster' }, <Board board={board} voice={voice} />)
})

firstNeeded(plaster, slakePage.path, lacks.lacksOfSlaking)
firstNeeded(plaster, decantPage.path, lacks.lacksOfDrawingOff)
firstNeeded(plaster, slurryPage.path, lacks.lacksOfReading)
firstNeeded(plaster, pourPage.path, lacks.lacksOfPouring)
firstNeeded(plaster, rewetPage.path, lacks.lacksOfRewetting)
firstNeeded(plaster, wedgePage.path, lacks.lacksOfWedging)

// The names of what is done stand before the slabs, whose ids stand in the same place of an address.
actPage(plaster, pourPage)
actPage(plaster, slakePage)
actPage(plaster, decantPage)
actPage(plaster, slurryPage)
actPage(plaster, rewetPage)
actPage(plaster, wedgePage)

plaster.get('/plaster/:lotId', async (c) => {
  const slab = await slabAsked(c)
  const title = `Slab on ${slab.batName}`
  return show(c, { title, here: 'plaster' }, <SlabPage slab={slab} voice={c.get('voice')} />)
})

actPage(plaster, liftPage)
actPage(plaster, movePage)
