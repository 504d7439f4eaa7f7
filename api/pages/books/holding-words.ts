import type { StockReport } from '../../../db/reports/stock.ts'
import type { Voice } from '../voice.ts'

/** What is in a holding, in a line. */
export function holdingWords(held: StockReport['holdings'][number], voice: Voice): string {
  const { label, bodyName, grade, dryGrams, standardUncertaintyGrams, wetGrams } = held
  const words = [
    label === bodyName ? '' : bodyName,
    grade === null ? '' : `${grade}s`,
    counted(held.bags, 'bag'),
    counted(held.pots, 'piece'),
    wetGrams === dryGrams ? '' : `${voice.mass(wetGrams)} as it is`,
    `${voice.massSure(dryGrams, standardUncertaintyGrams)} dry`,
    voice.money(held.cost),
  ]
  return words.filter((word) => word !== '').join(' · ')
}

function counted(number: string, one: string): string {
  if (number === '0') return ''
  return `${number} ${number === '1' ? one : `${one}s`}`
}
