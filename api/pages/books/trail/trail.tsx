import { newRouter } from '../../../router.ts'
import { showEntries } from './entries.tsx'
import { showEntry } from './entry.tsx'
import { takeBack } from './take-back.tsx'

/** From any figure to what is behind it, and from there to where that came from. */
export const trail = newRouter()

trail.get('/books/trail', showEntries)
trail.get('/books/trail/entries', showEntries)
trail.get('/books/trail/entry/:entryId', showEntry)
trail.post('/books/trail/entry/:entryId/take-back', takeBack)
