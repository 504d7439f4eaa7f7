import { boardsReport } from '../../../db/reports/boards.ts'
import { throwingChoices } from '../../../db/reports/throwing.ts'
import { turningReport } from '../../../db/reports/turning.ts'
import { newRouter } from '../../router.ts'
import { actPage } from '../act-page.tsx'
import { show } from '../show.tsx'
import { Boards } from './boards.tsx'
import { joinPage } from './join.tsx'
import { losePage } from './lose.tsx'
import { runHere } from './run-here.ts'
import { RunPage } from './run.tsx'
import { slopsPage } from './slops.tsx'
import { ChooseForm, throwPage } from './throw.tsx'
import { turnPage } from './turn.tsx'

/** The wheel: what is on the boards, and what is done to it until it goes into the kiln. */
export const wheel = newRouter()

wheel.get('/wheel', async (c) => {
  const { db, now } = c.get('services')
  const studioId = c.get('studioId')
  const boards = await boardsReport(db, { studioId, now: now() })
  const { forms } = await throwingChoices(db, studioId)
  return show(
    c,
    { title: 'The wheel', here: 'wheel' },
    <Boards boards={boards} forms={forms} voice={c.get('voice')} />,
  )
})

wheel.get('/wheel/throw', async (c) => {
  const { forms } = await throwingChoices(c.get('services').db, c.get('studioId'))
  return show(
    c,
    { title: 'Throw what?', here: 'wheel' },
    <ChooseForm forms={forms} voice={c.get('voice')} />,
  )
})

wheel.get('/wheel/run/:runId', async (c) => {
  const { db } = c.get('services')
  const here = await runHere(c)
  const { formId, label } = here.run
  const turning = await turningReport(db, { studioId: c.get('studioId'), formId })
  return show(
    c,
    { title: label, here: 'wheel' },
    <RunPage {...here} turning={turning} voice={c.get('voice')} />,
  )
})

actPage(wheel, throwPage)
actPage(wheel, slopsPage)
actPage(wheel, turnPage)
actPage(wheel, joinPage)
actPage(wheel, losePage)
