import { openLedger } from './ledger.ts'
import { stockStudios, stockTable } from './stock.ts'
const l = await openLedger('slakebook_backtest_1', (x) => console.error(x))
try {
  const s = await stockStudios(l, Number(process.argv[2] ?? 4), (x) => console.error(x))
  console.error(s.map((x) => x.refused).filter(Boolean))
  console.log(stockTable(s))
} finally {
  await l.close()
}
