import { weighList } from '../../../db/reports/weigh-list.ts'
import { newRouter } from '../../router.ts'
import { actPage } from '../act-page.tsx'
import { show } from '../show.tsx'
import { WeighList } from './list.tsx'
import { weighLoad } from './load.tsx'
import { weighLot } from './lot.tsx'
import { weighRun } from './run.tsx'
import { weighVessel } from './vessel.tsx'

/** Weighing in: what is on the scale, and what it reads. */
export const weigh = newRouter()

weigh.get('/weigh', async (c) => {
  const things = await weighList(c.get('services').db, c.get('studioId'))
  return show(
    c,
    { title: 'Weigh in', here: 'weigh' },
    <WeighList things={things} voice={c.get('voice')} />,
  )
})

actPage(weigh, weighVessel)
actPage(weigh, weighLoad)
actPage(weigh, weighLot)
actPage(weigh, weighRun)
