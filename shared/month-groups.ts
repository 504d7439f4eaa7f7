import { decimal, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { innerProduct, timesVector } from './linear-algebra.ts'
import { OUTSIDE, type MonthNetwork } from './month-network.ts'
import type { Reconciliation } from './reconciliation.ts'

/** All flows that entries of one kind made between two places. */
export interface FlowGroup {
  readonly kind: string
  readonly from: string
  readonly to: string
  /** Null where one of them was not weighed. */
  readonly dryGrams: Decimal | null
  /** Null where nothing determines their sum, one of them being open. */
  readonly reconciledDryGrams: Decimal | null
  readonly standardUncertaintyGrams: Decimal | null
}

type Name = Pick<FlowGroup, 'kind' | 'from' | 'to'>

/**
 * The flows of a month by kind of entry and by the places that they lead from and to.
 *
 * A flow that was read twice counts once, with its first reading. The uncertainty of a sum counts what
 * its flows share.
 *
 * Shape: a reconciliation of this month; a group a kind and pair of places, in order of appearance.
 * Units: grams of dry clay at ledger scale. Source: GUM, JCGM 100:2008, 5.2.2 (from memory).
 */
export function flowGroups(month: MonthNetwork, fitted: Reconciliation): FlowGroup[] {
  const groups = new Map<string, { name: Name; columns: number[] }>()
  month.flows.forEach((flow, column) => {
    if (month.flows.indexOf(flow) !== column) return
    const name = { kind: flow.kind, from: placeOf(flow.from), to: placeOf(flow.to) }
    const key = [name.kind, name.from, name.to].join(' ')
    const kept = groups.get(key) ?? { name, columns: [] }
    kept.columns.push(column)
    groups.set(key, kept)
  })
  return [...groups.values()].map(({ name, columns }) => ({
    ...name,
    dryGrams: measuredSum(month, columns),
    ...reconciledSum(fitted, columns),
  }))
}

function measuredSum(month: MonthNetwork, columns: readonly number[]): Decimal | null {
  return columns.reduce<Decimal | null>((sum, column) => {
    const one = month.readings[column]?.dryGrams ?? null
    return sum === null || one === null ? null : sum.plus(one)
  }, ZERO)
}

function reconciledSum(
  { flows, covariance }: Reconciliation,
  columns: readonly number[],
): Pick<FlowGroup, 'reconciledDryGrams' | 'standardUncertaintyGrams'> {
  const values = columns.map((column) => flows[column]?.value ?? null)
  if (values.includes(null)) return { reconciledDryGrams: null, standardUncertaintyGrams: null }
  const chosen = flows.map((_, column) => (columns.includes(column) ? 1 : 0))
  const variance = innerProduct(chosen, timesVector(covariance, chosen))
  return {
    reconciledDryGrams: grams(values.reduce<number>((sum, one) => sum + (one ?? 0), 0)),
    standardUncertaintyGrams: grams(Math.sqrt(Math.max(0, variance))),
  }
}

function placeOf(node: string): string {
  return node === OUTSIDE ? OUTSIDE : (node.split('/')[0] ?? node)
}

function grams(value: number): Decimal {
  return toLedgerScale(decimal(value))
}
