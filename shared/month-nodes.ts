import { ZERO } from './decimal.ts'
import { OUTSIDE } from './month-network.ts'
import type {
  FlowReading,
  MonthDescription,
  MonthFlow,
  MonthNode,
  SharedSource,
} from './month-network.ts'
import type { PlaceInside } from './place.ts'

/** Where clay is: one holding, or a heap between two acts of one entry. */
export interface Stock {
  readonly id: string
  readonly place: PlaceInside
  readonly name: string
}

type Reading = Omit<FlowReading, 'id' | 'label'>
type Moved = Pick<MonthFlow, 'id' | 'label' | 'kind' | 'again'>

/** Nobody weighed it. */
export const UNWEIGHED: Reading = { dryGrams: null, standardUncertaintyGrams: ZERO }

interface Node {
  readonly node: MonthNode
  readonly stock: Stock
  isEmptied: boolean
}

/**
 * The nodes of a month, told in the order in which things happened.
 *
 * A stock that is weighed as a whole is one node before it and another one after: what is carried over
 * is what was weighed, so that the weigh-in checks what came before and what comes after. A stock that
 * was emptied begins anew. What is left at the end of the month is its closing, which nobody weighed
 * but by weighing the whole.
 *
 * Units: grams of dry clay. Source: conservation of dry clay.
 */
export class MonthNodes {
  readonly #flows: MonthFlow[] = []
  readonly #nodes = new Map<string, Node[]>()

  /** What the month begins with. */
  opens(stock: Stock, reading: FlowReading): void {
    this.#flows.push({ ...reading, kind: 'opening', from: OUTSIDE, to: this.#now(stock).node })
  }

  /** What moved from one stock to another, either of which may be the world outside. */
  moves(from: Stock | null, to: Stock | null, moved: Moved & Reading): void {
    if (from === null && to === null) return
    this.#flows.push({
      ...moved,
      from: from === null ? OUTSIDE : this.#now(from).node,
      to: to === null ? OUTSIDE : this.#now(to).node,
    })
  }

  /** The whole of a stock was weighed, or counted. */
  weighsWhole(stock: Stock, weighed: Moved & Reading): void {
    const before = this.#now(stock)
    before.isEmptied = true
    this.#flows.push({ ...weighed, from: before.node, to: this.#now(stock).node })
  }

  /** Nothing is left. */
  empties(stock: Stock): void {
    const last = this.#nodes.get(stock.id)?.at(-1)
    if (last !== undefined) last.isEmptied = true
  }

  /** The month as a network can be made of it: every node has something that comes and that leaves. */
  description(sources: readonly SharedSource[]): MonthDescription {
    const nodes = [...this.#nodes.values()].flat()
    const comes = new Set(this.#flows.map(({ to }) => to))
    const leaves = new Set(this.#flows.map(({ from }) => from))
    const unknown = nodes.filter(({ node }) => !comes.has(node)).map(unknownBefore)
    const closings = nodes
      .filter(({ node, isEmptied }) => !isEmptied || !leaves.has(node))
      .map(closingOf)
    return { flows: [...this.#flows, ...unknown, ...closings], sources }
  }

  /** Which stock each node is of. */
  stocks(): Map<string, Stock> {
    return new Map(
      [...this.#nodes.values()].flat().map(({ node, stock }) => [node, stock] as const),
    )
  }

  /** The nodes that were weighed whole at their end, or emptied: whatever was wrong there is settled. */
  settled(): Set<string> {
    const all = [...this.#nodes.values()].flat()
    return new Set(all.filter(({ isEmptied }) => isEmptied).map(({ node }) => node))
  }

  #now(stock: Stock): Node {
    const nodes = this.#nodes.get(stock.id) ?? []
    const last = nodes.at(-1)
    if (last !== undefined && !last.isEmptied) return last
    const node: MonthNode = `${stock.place}/${stock.id}/${String(nodes.length)}`
    const next = { node, stock, isEmptied: false }
    this.#nodes.set(stock.id, [...nodes, next])
    return next
  }
}

function closingOf({ node, stock }: Node): MonthFlow {
  const label = `What was left of ${stock.name}`
  return {
    ...{ id: `closing of ${node}`, kind: 'closing', label, from: node, to: OUTSIDE },
    ...UNWEIGHED,
  }
}

/** By the books nothing was there, or nobody knows where it came from. */
function unknownBefore({ node, stock }: Node): MonthFlow {
  const label = `What was in ${stock.name} before`
  return {
    ...{ id: `before ${node}`, kind: 'opening', label, from: OUTSIDE, to: node },
    ...UNWEIGHED,
  }
}
