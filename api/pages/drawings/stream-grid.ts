import type { Decimal } from '../../../shared/decimal.ts'
import type { PlaceInside } from '../../../shared/place.ts'
import type { Point } from './ribbon.ts'
import type { Slot, StreamNode } from './stream-nodes.ts'
import { isTold, type Part } from './stream-parts.ts'

/** The height of a line of words, of a node's name, and of the bar of a node. */
export const LINE = 15
export const NAME = 20
export const BAR = 4

/** A node where it is drawn. */
export interface PlacedNode extends StreamNode {
  readonly x: number
  readonly y: number
  readonly width: number
}

export interface PlacedSlot extends Slot {
  readonly x: number
  /** The middle of the band there. */
  readonly centre: number
}

export interface StreamRibbon {
  readonly part: Part
  /** Of the drawing's units; the same number of them for each gram in every band. */
  readonly width: Decimal
  readonly centre: readonly Point[]
}

/** What the parts of the layout are placed by. */
export interface Grid {
  readonly scale: Decimal
  readonly node: (place: PlaceInside) => PlacedNode
  readonly spineRight: number
}

/** A slot where it is drawn. */
export function placed(slot: Slot, node: PlacedNode, scale: Decimal): PlacedSlot {
  const x = node.x + slot.offsetGrams.times(scale).toNumber()
  return { ...slot, x, centre: x + slot.part.dryGrams.times(scale).toNumber() / 2 }
}

/** The middle of the line that a stub reaches to: the outermost is the shortest. */
export function stubEnd(node: PlacedNode, slot: Slot): number {
  const isIn = slot.part.way === 'stub_in'
  // What has no words beside it reaches no further than the name.
  if (!isTold(slot.part)) return lineAt(node, { rank: -1 / 2, isBefore: isIn })
  const stubs = (isIn ? node.ins : node.outs).filter(({ part }) => part.way === slot.part.way)
  const index = stubs.findIndex(({ part }) => part === slot.part)
  const outside = node.isLoop ? stubs.slice(index + 1) : stubs.slice(0, index)
  const rank = outside.filter(({ part }) => isTold(part)).length
  return lineAt(node, { rank, isBefore: isIn })
}

/** The middle of a line of words beside a node, counted away from it. */
export function lineAt(node: PlacedNode, of: { rank: number; isBefore: boolean }): number {
  const away = NAME / 2 + LINE * of.rank + LINE / 2
  const isAbove = of.isBefore !== node.isLoop
  return isAbove ? node.y - away : node.y + BAR + away
}
