import type { BookedEntry } from './balance-book.ts'
import { bagReading, madeReading } from './balance-readings.ts'
import { idOf, of, STATE_BY_PLACE } from './balance-telling.ts'
import type { BalanceWalk } from './balance-walk.ts'

const WHOLE_WORDS: Readonly<Record<string, string>> = {
  pots: 'The pots weighed on',
  counted: 'The count of',
  basin: 'The basin weighed on',
  lot: 'The dry test of',
  scrap: 'The whole vessel weighed on',
}

/** A stock is weighed as a whole: a reading of all that came and has not left. Units: grams of dry clay. Source: what the acts post. */
export function weighWhole(walk: BalanceWalk, entry: BookedEntry, what: string): void {
  for (const estimate of of(entry, what)) {
    const { holdingId, method } = estimate
    const stock = walk.stock(holdingId)
    // Clay whose dry mass was known tells its water and nothing else.
    if (stock === null || method === 'known_dry_weighed_again') continue
    const id = idOf(entry, estimate.estimateNo)
    const label = `${WHOLE_WORDS[what] ?? what} ${entry.day} (${stock.name})`
    const state = STATE_BY_PLACE[stock.place] ?? 'wedged'
    const made = madeReading(walk, { id, label, entry, estimate, outOf: holdingId, state })
    walk.nodes.weighsWhole(stock, { id, kind: entry.kind, label, ...made.reading })
    walk.wetness.becomes(holdingId, made.wetness)
  }
}

/** What is there is weighed, or its bags are counted. Units: grams of dry clay. Source: what the acts post. */
export function countStock(walk: BalanceWalk, entry: BookedEntry): void {
  weighWhole(walk, entry, 'counted')
  if (entry.estimates.length > 0) return
  const bags = entry.lines.find(({ holdingId }) => walk.holding(holdingId)?.place === 'store')
  const stock = walk.stock(bags?.holdingId ?? null)
  const count = entry.counts[0] ?? null
  if (bags === undefined || stock === null || count === null) return
  const held = walk.held(bags.holdingId)?.plus(bags.dryGrams).toNumber() ?? 0
  if (held <= 0) return
  const id = idOf(entry, 'bags')
  const label = `The count of bags of ${entry.day} (${stock.name})`
  const told = { id, label, entry, count, dryGrams: held, outOf: bags.holdingId }
  const { reading } = bagReading(walk, told)
  walk.nodes.weighsWhole(stock, { id, kind: entry.kind, label, ...reading })
}
