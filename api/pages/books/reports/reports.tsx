import { newRouter } from '../../../router.ts'
import { showBalance } from './balance.tsx'
import { showDust } from './dust.tsx'
import { showFirings } from './firings.tsx'
import { showStockValue } from './stock-value.tsx'
import { showReclaim } from './reclaim.tsx'
import { showTurning, showTurningOf } from './turning.tsx'
import { showWhatIf } from './what-if.tsx'
import { showYield } from './yield.tsx'

/** The reports that are read at the table. */
export const reports = newRouter()

reports.get('/books/yield', showYield)
reports.get('/books/turning', showTurning)
reports.get('/books/turning/:formId', showTurningOf)
reports.get('/books/balance', showBalance)
reports.get('/books/dust', showDust)
reports.get('/books/stock-value', showStockValue)
reports.get('/books/firings', showFirings)
reports.get('/books/what-if', showWhatIf)
reports.get('/books/reclaim', showReclaim)
