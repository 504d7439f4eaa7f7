import { shelfReport } from '../../../db/reports/shelf.ts'
import { newRouter } from '../../router.ts'
import { actPage } from '../act-page.tsx'
import { show } from '../show.tsx'
import { partWithPages } from './part-with.tsx'
import { sellPage } from './sell-page.tsx'
import { Shelf } from './shelf.tsx'

/** What leaves: sold, given away, kept, broken. */
export const sellRoom = newRouter()

sellRoom.get('/books/sell', async (c) => {
  const rows = await shelfReport(c.get('services').db, c.get('studioId'))
  return show(
    c,
    { title: 'What was sold?', here: 'books' },
    <Shelf rows={rows} voice={c.get('voice')} />,
  )
})

actPage(sellRoom, sellPage)
for (const page of partWithPages) actPage(sellRoom, page)
