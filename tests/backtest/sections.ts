import { HABITS } from '../support/simulate-month.ts'
import { openLedger } from './ledger.ts'
import { habitNamings, namingLines } from './naming.ts'
import { READINESS_SEED, readinessRows, readinessTable } from './readiness.ts'
import { STOCK_SEED, stockStudios, stockTable } from './stock.ts'
import type { Batches } from './true-clay.ts'
import { YIELD_SEED, yieldStudios, yieldTable } from './yield.ts'

export const PARTS = ['readiness', 'stock', 'yield', 'naming'] as const
export type Part = (typeof PARTS)[number]

/** How much is simulated of each part: studios, and months in which a weigh-in is named. */
export type Sizes = Readonly<Record<Part, number>>

export interface SectionAsked {
  readonly part: Part
  readonly sizes: Sizes
  readonly batches: Batches
}

/** A part of the backtest as Markdown: what was simulated, and the table. */
export async function section(
  { part, sizes, batches }: SectionAsked,
  tell: (line: string) => void,
): Promise<string> {
  const size = sizes[part]
  switch (part) {
    case 'readiness': {
      const found = readinessTable(await readinessRows(size, tell))
      return written(`Readiness time, ${size} studios a law as believed`, READINESS_SEED, found)
    }
    case 'stock': {
      const found = await stockOf({ studios: size, batches }, tell)
      return written(`Dry mass in stock, ${size} studios, batches ${batches}`, STOCK_SEED, found)
    }
    case 'yield': {
      const found = yieldTable(await yieldStudios(size, tell))
      return written(`Share of pieces that pass, ${size} studios of a kind`, YIELD_SEED, found)
    }
    case 'naming': {
      const found = namingLines(await habitNamings(size, tell))
      const months = `${size} months of ${HABITS.length} habits`
      return written(`The planted bad weigh-in, ${months}`, 1, found)
    }
  }
}

async function stockOf(
  asked: { studios: number; batches: Batches },
  tell: (line: string) => void,
): Promise<string> {
  const ledger = await openLedger(`slakebook_backtest_${String(process.pid)}`, tell)
  try {
    const studios = await stockStudios({ ledger, ...asked }, tell)
    const refused = studios.flatMap((studio) => studio.refused ?? [])
    const left = refused.length === 0 ? 'none' : `${refused.length}: ${refused.join(', ')}`
    return `${stockTable(studios)}\n\nStudios left out because the ledger refused an act: ${left}.`
  } finally {
    await ledger.close()
  }
}

function written(title: string, seed: number, found: string): string {
  return `### ${title}; seed ${String(seed)}\n\n${found}\n`
}
