import { newRouter } from '../../../router.ts'
import { showEntries } from './entries.tsx'
import { showEntry } from './entry.tsx'
import { showHolding } from './holding.tsx'
import { showHoldings, showLots, showRuns, showSales } from './lists.tsx'
import { showLot } from './lot.tsx'
import { showRun } from './run.tsx'
import { takeBack } from './take-back.tsx'

/** From any figure to what is behind it, and from there to where that came from. */
export const trail = newRouter()

trail.get('/books/trail', showEntries)
trail.get('/books/trail/entries', showEntries)
trail.get('/books/trail/entry/:entryId', showEntry)
trail.post('/books/trail/entry/:entryId/take-back', takeBack)
trail.get('/books/trail/holdings', showHoldings)
trail.get('/books/trail/holding/:holdingId', showHolding)
trail.get('/books/trail/lots', showLots)
trail.get('/books/trail/lot/:lotId', showLot)
trail.get('/books/trail/runs', showRuns)
trail.get('/books/trail/run/:runId', showRun)
trail.get('/books/trail/sales', showSales)
