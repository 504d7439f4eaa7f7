import { present } from '../../../shared/assert.ts'
import type { PlaceInside } from '../../../shared/place.ts'
import { bend, turnBack, type Point } from './ribbon.ts'
import {
  BAR,
  LINE,
  placed,
  stubEnd,
  type Grid,
  type PlacedNode,
  type StreamRibbon,
} from './stream-grid.ts'
import type { Slot } from './stream-nodes.ts'
import { isTold, type Part } from './stream-parts.ts'

const TIP = 12
const CORNER = 5
const BETWEEN = 3

/** Every band as a line with a width. */
export function ribbonsOf(parts: readonly Part[], grid: Grid): StreamRibbon[] {
  const ends = parts.map((part) => ({ part, ends: endsOf(part, grid) }))
  return ends.map(({ part, ends: { from, to } }) => ({
    part,
    width: part.dryGrams.times(grid.scale),
    centre: centreOf({ part, from, to }, { parts, grid }),
  }))
}

type Facing = Point & { readonly down: number }

/** Where a band leaves and arrives; a stub has its free end where its label stands. */
function endsOf(part: Part, grid: Grid): { from: Facing; to: Facing } {
  const { way } = part
  const leaves = way === 'stub_in' || way === 'bought' ? undefined : faceOf(part, grid, 'outs')
  const arrives = way === 'stub_out' || way === 'sold' ? undefined : faceOf(part, grid, 'ins')
  const one = present(leaves ?? arrives, 'a band has an end at a place')
  return { from: leaves ?? freeEnd(part, one), to: arrives ?? freeEnd(part, one) }
}

interface Face extends Facing {
  readonly node: PlacedNode
  readonly stubY: number
}

function faceOf(part: Part, grid: Grid, side: 'ins' | 'outs'): Face {
  const node = grid.node((side === 'ins' ? part.to : part.from) as PlaceInside)
  const slot = present(
    node[side].find((one) => one.part === part),
    'a band has its slot',
  )
  const isBelow = (side === 'outs') !== node.isLoop
  const { centre } = placed(slot, node, grid.scale)
  const stubY = stubEnd(node, slot)
  return { x: centre, y: node.y + (isBelow ? BAR : 0), down: node.isLoop ? -1 : 1, node, stubY }
}

function freeEnd({ way }: Part, { x, y, down, node, stubY }: Face): Facing {
  if (way === 'bought') return { x, y: y - TIP - toldStubs(node.ins) * LINE, down }
  if (way === 'sold') return { x, y: y + TIP + (toldStubs(node.outs) + 1) * LINE, down }
  return { x, y: stubY, down }
}

/** So many lines of words stand there before what leads on. */
function toldStubs(slots: readonly Slot[]): number {
  return slots.filter(({ part }) => part.way.startsWith('stub') && isTold(part)).length
}

interface Led {
  readonly part: Part
  readonly from: Facing
  readonly to: Facing
}

function centreOf(
  { part, from, to }: Led,
  { parts, grid }: { parts: readonly Part[]; grid: Grid },
): Point[] {
  if (part.way === 'turn' || part.way === 'home') {
    return turned({ part, from, to }, { parts, grid })
  }
  if (part.way === 'other') return bend(from, to)
  return [from, to]
}

/** Down, across and up again; what lies outside takes the longer way round. */
function turned(
  { part, from, to }: Led,
  { parts, grid }: { parts: readonly Part[]; grid: Grid },
): Point[] {
  const width = part.dryGrams.times(grid.scale).toNumber()
  const radius = width / 2 + CORNER
  const inner = parts.find(
    (one) => one.way === part.way && one !== part && isInnerOf(one) && !isInnerOf(part),
  )
  const within = inner === undefined ? 0 : inner.dryGrams.times(grid.scale).toNumber() + BETWEEN
  if (part.way === 'home') {
    const runY = to.y - CORNER - within - radius
    return turnBack(from, to, { runY, radius })
  }
  const runY = Math.max(from.y, to.y) + CORNER + within + radius
  if (!isInnerOf(part)) return turnBack(from, to, { runY, radius })
  const besideY = Math.min(grid.node('greenware').y, runY - radius)
  const beside = { x: grid.spineRight + CORNER + width / 2, y: besideY, down: 1 }
  return [...bend(from, beside), ...turnBack(beside, to, { runY, radius })]
}

/** From the bench, or from the scrap straight home: the shorter way round. */
function isInnerOf({ way, from }: Part): boolean {
  return way === 'turn' ? from === 'bench' : from === 'scrap'
}
