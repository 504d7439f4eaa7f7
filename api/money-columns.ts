import { MONEY_COLUMNS, type MoneyByLayer } from '../shared/money-accounted.ts'
import type { Written } from '../shared/written.ts'
import type { Column } from './csv.ts'

/** A column for each layer of some money, and one for what they come to. */
export function moneyColumns<Row>(
  of: string,
  currency: string,
  moneyOf: (row: Row) => Written<MoneyByLayer> | null,
): Column<Row>[] {
  return MONEY_COLUMNS.map((layer) => ({
    heading: `${of}${layer}_${currency}`,
    value: (row) => moneyOf(row)?.[layer] ?? null,
  }))
}
