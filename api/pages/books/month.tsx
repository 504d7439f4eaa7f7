import { monthReport } from '../../../db/reports/month.ts'
import { isMonth } from '../../../shared/month.ts'
import { answerMonthCsv } from '../../month-csv.ts'
import { newRouter } from '../../router.ts'
import { show } from '../show.tsx'
import { CostsSheet } from './costs/month-costs-sheet.tsx'
import { latestOf, readMonth } from './month-read.ts'
import { MonthSheet } from './month-sheet.tsx'

/** The sheet of a month, for the table and for whoever keeps the accounts. */
export const monthPages = newRouter()

monthPages.get('/books/month', (c) => c.redirect(`/books/month/${latestOf(c)}`, 303))

monthPages.get('/books/month-costs', (c) => c.redirect(`/books/month/${latestOf(c)}/costs`, 303))

monthPages.get('/books/month/:month', async (c) => {
  const month = c.req.param('month')
  if (!isMonth(month)) return c.notFound()
  const voice = c.get('voice')
  const read = await readMonth(c, month)
  return show(
    c,
    { title: `${voice.month(month)}, the clay`, here: 'books' },
    <MonthSheet read={read} voice={voice} by={c.get('by')} />,
  )
})

monthPages.get('/books/month/:month/costs', async (c) => {
  const month = c.req.param('month')
  if (!isMonth(month)) return c.notFound()
  const voice = c.get('voice')
  const report = await monthReport(c.get('services').db, { studioId: c.get('studioId'), month })
  return show(
    c,
    { title: `${voice.month(month)}, what it cost`, here: 'books' },
    <CostsSheet report={report} voice={voice} latest={latestOf(c)} />,
  )
})

monthPages.get('/books/month/:month/csv', async (c) => {
  const month = c.req.param('month')
  if (!isMonth(month)) return c.notFound()
  const asked = { studioId: c.get('studioId'), month, bodyId: c.req.query('bodyId') }
  return answerMonthCsv(c, await monthReport(c.get('services').db, asked), 'summary')
})
