import { and, eq, inArray } from 'drizzle-orm'
import type { Decimal } from '../shared/decimal.ts'
import type { Transaction } from './connection.ts'
import { quantitiesOf } from './quantity-columns.ts'
import { holding } from './schema.ts'

/** What lies on the shelf of each material, dry. */
export type Shelf = ReadonlyMap<string, { readonly dryGrams: Decimal; readonly cost: Decimal }>

/** Grain: one holding a material on the shelf. Those that never lay there are left out. */
export async function shelfOf(
  ledger: Transaction,
  studioId: string,
  materialIds: readonly string[],
): Promise<Shelf> {
  if (materialIds.length === 0) return new Map()
  const rows = await ledger
    .select()
    .from(holding)
    .where(
      and(
        eq(holding.studioId, studioId),
        eq(holding.place, 'materials'),
        inArray(holding.materialId, [...new Set(materialIds)]),
      ),
    )
  return new Map(
    rows.map((row) => {
      const { materialGrams: dryGrams, cost } = quantitiesOf(row)
      return [row.materialId ?? '', { dryGrams, cost }]
    }),
  )
}

/** A powder costs thousandths of a penny a gram. */
const DIGITS_OF_A_GRAM = 9

/** What a gram costs, as it is shown. Units: money a dry gram. */
export function perGram(cost: Decimal | undefined): Decimal | null {
  return cost?.toDecimalPlaces(DIGITS_OF_A_GRAM) ?? null
}
