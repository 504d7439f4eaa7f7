import { newRouter } from '../../router.ts'
import { catalogue } from '../catalogue/catalogue.tsx'
import { clayIn } from '../clay-in/clay-in.tsx'
import { counting } from '../counting/counting.tsx'
import { contents } from './contents.tsx'
import { stock } from './stock.tsx'

/** The books: their contents, what is here, what comes in, and how it is counted. */
export const theBooks = newRouter()

for (const part of [contents, stock, catalogue, clayIn, counting]) theBooks.route('/', part)
