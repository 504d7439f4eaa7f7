import type { BalanceBook } from './balance-book.ts'
import { tellEntry } from './balance-entries.ts'
import { openingReading } from './balance-readings.ts'
import { toldApart } from './balance-labels.ts'
import { BalanceWalk, type Origin, type SourceOrigin } from './balance-walk.ts'
import type { MonthDescription } from './month-network.ts'
import type { Stock } from './month-nodes.ts'

/** A month of the books as a network, and where each of its readings comes from. */
export interface MonthBalance {
  readonly description: MonthDescription
  readonly origins: ReadonlyMap<string, Origin>
  readonly sources: ReadonlyMap<string, SourceOrigin>
  /** Which stock each node is of. */
  readonly stocks: ReadonlyMap<string, Stock>
  /** The nodes that were weighed whole at their end, or emptied. */
  readonly settled: ReadonlySet<string>
}

/**
 * A month of one clay as a network of flows with their readings.
 *
 * Lots, runs, vessels and loads are nodes, each anew after it was weighed as a whole. Readings that rest
 * on one water content share it. Clay is followed up to the bisque; beyond, glaze is weighed with it.
 *
 * Shape: entries in the order in which they happened. Units: grams of dry clay.
 * Source: conservation of dry clay; what the acts post.
 */
export function monthBalance(book: BalanceBook): MonthBalance {
  const walk = new BalanceWalk(book)
  for (const holding of book.holdings) openWith(walk, holding)
  for (const entry of book.entries) tellEntry(walk, entry)
  const { origins, sources } = walk
  const described = [...sources].map(([id, { label, isNeverNamed = false }]) => {
    return { id, label, isNeverNamed }
  })
  const { nodes } = walk
  const stocks = nodes.stocks()
  const named = { entries: book.entries, origins, sources, stocks }
  return {
    description: toldApart(nodes.description(described), named),
    ...{ origins, sources },
    ...{ stocks, settled: nodes.settled() },
  }
}

function openWith(walk: BalanceWalk, holding: BalanceBook['holdings'][number]): void {
  const { holdingId, name, openingDryGrams } = holding
  const stock = walk.stock(holdingId)
  if (stock === null || openingDryGrams.lessThanOrEqualTo(0)) return
  const { reading, wetness } = openingReading(walk, {
    ...{ holdingId, name, dryGrams: openingDryGrams },
    dryDoubt: holding.openingDryDoubt,
  })
  const id = `opening ${holdingId}`
  walk.nodes.opens(stock, {
    id,
    label: `What the books had of ${name} when the month began`,
    ...reading,
  })
  walk.wetness.holds(holdingId, openingDryGrams.toNumber())
  walk.wetness.becomes(holdingId, wetness)
  walk.origins.set(id, {
    ...{ entryId: null, holdingId, weighing: null, dryFraction: 1, mistakes: [] },
  })
}
