import { Decimal, ZERO } from '../../../shared/decimal.ts'
import type { PlaceInside } from '../../../shared/place.ts'
import { LOOP, SPINE, type BandWay, type Part } from './stream-parts.ts'

/** A band where it meets a node, and how far from the node's left end, in grams. */
export interface Slot {
  readonly part: Part
  readonly offsetGrams: Decimal
}

/** A place as the drawing has it: what comes and what goes, each from left to right. */
export interface StreamNode {
  readonly place: PlaceInside
  readonly isLoop: boolean
  readonly ins: readonly Slot[]
  readonly outs: readonly Slot[]
  readonly throughGrams: Decimal
  /** Its left end, in grams from where its column begins. */
  readonly leftGrams: Decimal
}

export interface Column {
  readonly nodes: readonly StreamNode[]
  readonly widthGrams: Decimal
}

type Order = Readonly<Record<BandWay, number>>

/** The spine has its stubs on the left, the loop on the right; what turns back lies between the two. */
const SPINE_ORDER: Order = {
  stub_in: 0,
  stub_out: 0,
  bought: 1,
  on: 1,
  sold: 1,
  other: 2,
  turn: 3,
  home: 3,
}
const LOOP_ORDER: Order = {
  turn: 0,
  home: 0,
  other: 1,
  bought: 2,
  sold: 2,
  on: 2,
  stub_in: 3,
  stub_out: 3,
}

/** Both columns, laid so that what leads on runs straight. Units: grams of dry clay. */
export function columnsOf(parts: readonly Part[]): { spine: Column; loop: Column } {
  return { spine: column(parts, SPINE, SPINE_ORDER), loop: column(parts, LOOP, LOOP_ORDER) }
}

function column(parts: readonly Part[], places: readonly PlaceInside[], order: Order): Column {
  const nodes: StreamNode[] = []
  for (const place of places) {
    const bare = bareNode(parts, { place, order })
    nodes.push({ ...bare, leftGrams: straightAfter(nodes.at(-1), bare) })
  }
  const least = nodes.reduce((low, { leftGrams }) => Decimal.min(low, leftGrams), ZERO)
  const rights = nodes.map((node) => node.leftGrams.plus(node.throughGrams))
  return {
    nodes: nodes.map((node) => ({ ...node, leftGrams: node.leftGrams.minus(least) })),
    widthGrams: Decimal.max(ZERO, ...rights).minus(least),
  }
}

type BareNode = Omit<StreamNode, 'leftGrams'>

function bareNode(
  parts: readonly Part[],
  { place, order }: { place: PlaceInside; order: Order },
): BareNode {
  const isLoop = order === LOOP_ORDER
  const from = inOrder(
    parts.filter((part) => part.to === place),
    order,
  )
  const to = inOrder(
    parts.filter((part) => part.from === place),
    order,
  )
  const ins = slots(from)
  const outs = slots(to)
  return { place, isLoop, ins, outs, throughGrams: Decimal.max(widthOf(from), widthOf(to)) }
}

/** Stock lies outermost; of what turns round, the one with the shorter way lies inside. */
function inOrder(parts: readonly Part[], order: Order): Part[] {
  const isLoop = order === LOOP_ORDER
  const rank = (part: Part) => {
    const isStock = part.look === 'stock'
    if (part.way === 'turn') return part.from === 'bench' ? 0 : 1
    if (part.way === 'home') return part.from === 'scrap' ? 1 : 0
    return isStock === isLoop ? 1 : 0
  }
  return [...parts].sort(
    (one, other) => order[one.way] - order[other.way] || rank(one) - rank(other),
  )
}

function slots(parts: readonly Part[]): Slot[] {
  let offsetGrams = ZERO
  return parts.map((part) => {
    const slot = { part, offsetGrams }
    offsetGrams = offsetGrams.plus(part.dryGrams)
    return slot
  })
}

function widthOf(parts: readonly Part[]): Decimal {
  return parts.reduce((sum, { dryGrams }) => sum.plus(dryGrams), ZERO)
}

/** Where a node has to lie for what comes on from the one before to run straight. */
function straightAfter(before: StreamNode | undefined, node: BareNode): Decimal {
  if (before === undefined) return ZERO
  const leaves = before.outs.find(({ part }) => part.way === 'on')
  const arrives = node.ins.find(({ part }) => part === leaves?.part)
  if (leaves === undefined || arrives === undefined) return before.leftGrams
  return before.leftGrams.plus(leaves.offsetGrams).minus(arrives.offsetGrams)
}
