import { present } from '../../../shared/assert.ts'
import { Decimal, decimal } from '../../../shared/decimal.ts'
import type { PlaceInside } from '../../../shared/place.ts'
import { ribbonsOf } from './stream-ribbons.ts'
import {
  BAR,
  LINE,
  lineAt,
  NAME,
  placed,
  stubEnd,
  type Grid,
  type PlacedNode,
  type StreamRibbon,
} from './stream-grid.ts'
import { columnsOf, type Slot, type StreamNode } from './stream-nodes.ts'
import { isTold, partsOf, type Part, type StreamDrawn } from './stream-parts.ts'

const LEFT = 112
const RIGHT = 104
/** Room for what turns from the one column to the other. */
const GAP = 28
const TOP = 6
const FOOT = 8
const SCALE_DIGITS = 9
/** A spoonful is not drawn over the whole width: fifty grams are 45 units at most. */
const SCALE_MAX = decimal('0.9')

export interface StreamLabel {
  readonly words: string
  readonly dryGrams: Decimal | null
  readonly x: number
  readonly y: number
  readonly anchor: 'start' | 'end'
  /** To where the line from the label leads; null where it stands beside what it names. */
  readonly leadsToX: number | null
}

export interface StreamPicture {
  readonly width: number
  readonly height: number
  /** Units of the drawing for a gram. */
  readonly scale: Decimal
  readonly nodes: readonly PlacedNode[]
  readonly ribbons: readonly StreamRibbon[]
  readonly labels: readonly StreamLabel[]
}

/**
 * Where everything of a month's stream is drawn, one scale for all bands; null where there is nothing.
 *
 * Shape: what leads on runs straight down; stock and what comes and goes lies on the outer side, each
 * band one line longer than the one outside it, so that no label's line crosses a band; the way back
 * round runs upwards on the right.
 */
export function streamPicture(drawn: StreamDrawn, width: number): StreamPicture | null {
  const parts = partsOf(drawn)
  if (parts.length === 0) return null
  const { spine, loop } = columnsOf(parts)
  const room = width - LEFT - RIGHT - GAP
  const grams = spine.widthGrams.plus(loop.widthGrams).plus(innerTurn(parts))
  const widest = Decimal.min(SCALE_MAX, decimal(room).dividedBy(grams))
  const scale = widest.toDecimalPlaces(SCALE_DIGITS, Decimal.ROUND_DOWN)
  const pixels = (some: Decimal) => some.times(scale).toNumber()
  const spineRight = LEFT + pixels(spine.widthGrams)
  const loopLeft = spineRight + GAP + pixels(innerTurn(parts))
  const at = (node: StreamNode, y: number): PlacedNode => ({
    ...node,
    x: (node.isLoop ? loopLeft : LEFT) + pixels(node.leftGrams),
    y,
    width: pixels(node.throughGrams),
  })
  const down = spineRows(spine.nodes, pixels)
  const bench = present(down[1], 'the bench is a row')
  const up = loopRows(loop.nodes, bench)
  const nodes = [
    ...spine.nodes.map((node, index) => at(node, down[index] ?? 0)),
    ...loop.nodes.map((node, index) => at(node, up[index] ?? 0)),
  ]
  const grid: Grid = {
    scale,
    spineRight,
    node: (place) =>
      present(
        nodes.find((one) => one.place === place),
        'each place is a node',
      ),
  }
  const ribbons = ribbonsOf(parts, grid)
  const lowest = Math.max(...ribbons.flatMap(lowestOf))
  const labels = nodes.flatMap((node) => labelsOf(node, { scale, width }))
  const ends = [lowest, ...labels.map(({ y }) => y), ...nodes.map(({ y }) => y)]
  return { width, height: Math.max(...ends) + FOOT, scale, nodes, ribbons, labels }
}

/** How far down a band reaches; where it runs across, its lower side. */
function lowestOf({ part, centre, width }: StreamRibbon): number[] {
  const isStraight = ['stub_in', 'stub_out', 'on', 'bought', 'sold'].includes(part.way)
  return centre.map(({ y }) => y + (isStraight ? 0 : width.toNumber() / 2))
}

/** What comes from the bench to the scrap runs down beside all other nodes. */
function innerTurn(parts: readonly Part[]): Decimal {
  const inner = parts.find(({ way, from }) => way === 'turn' && from === 'bench')
  return inner?.dryGrams ?? decimal(0)
}

const isStub = ({ part }: Slot) => part.way === 'stub_in' || part.way === 'stub_out'
const stubsOf = (slots: readonly Slot[]) =>
  slots.filter((slot) => isStub(slot) && isTold(slot.part)).length
const leadsOn = ({ part }: Slot) => ['on', 'sold', 'home', 'bought', 'turn'].includes(part.way)

/** How high the lines above and below a node's name are. */
function linesOf(node: StreamNode): { before: number; after: number } {
  const isBought = node.ins.some(({ part }) => part.way === 'bought')
  const isTurned = node.isLoop && node.ins.some(({ part }) => part.way === 'turn')
  const isLeading = node.outs.some((slot) => leadsOn(slot) && slot.part.way !== 'turn')
  return {
    before: (stubsOf(node.ins) + (isBought || isTurned ? 1 : 0)) * LINE,
    after: (stubsOf(node.outs) + (isLeading ? 1 : 0)) * LINE,
  }
}

/** The bars of the spine, from the top. */
function spineRows(nodes: readonly StreamNode[], pixels: (grams: Decimal) => number): number[] {
  let y = TOP
  return nodes.map((node) => {
    const { before, after } = linesOf(node)
    const homes = node.ins.filter(({ part }) => part.way === 'home')
    const arches = homes.reduce((sum, { part }) => sum + pixels(part.dryGrams) + 8, 0)
    const bar = y + Math.max(before, homes.length > 0 ? arches + 16 : 0) + NAME / 2
    y = bar + BAR + NAME / 2 + after + 6
    return bar
  })
}

/** The bars of the loop, its last node beside the bench. */
function loopRows(nodes: readonly StreamNode[], bench: number): number[] {
  let y = bench
  const rows = [...nodes].reverse().map((node) => {
    const { before, after } = linesOf(node)
    const bar = y + after + NAME / 2 + 6
    y = bar + BAR + NAME / 2 + before
    return bar
  })
  return rows.reverse()
}

interface Column {
  readonly scale: Decimal
  readonly width: number
}

function labelsOf(node: PlacedNode, { scale, width }: Column): StreamLabel[] {
  const x = node.isLoop ? width - RIGHT + 6 : LEFT - 6
  const anchor = node.isLoop ? 'start' : 'end'
  const label = (slot: Slot, y: number): StreamLabel => {
    const { x: left } = placed(slot, node, scale)
    const reach = node.isLoop ? slot.part.dryGrams.times(scale).toNumber() : 0
    const { words, dryGrams } = slot.part
    return { words, dryGrams, x, y, anchor, leadsToX: left + reach }
  }
  const stubs = [...node.ins, ...node.outs]
    .filter((slot) => isStub(slot) && isTold(slot.part))
    .map((slot) => label(slot, stubEnd(node, slot)))
  const name = { words: NODE_WORDS[node.place], dryGrams: null, x, anchor, leadsToX: null } as const
  return [...stubs, ...leadingLabels(node, label), { ...name, y: node.y + BAR / 2 }]
}

/** Of what leads on, one line beyond the stubs; what turns to the scrap is told as one, there. */
function leadingLabels(
  node: PlacedNode,
  label: (slot: Slot, y: number) => StreamLabel,
): StreamLabel[] {
  const told: StreamLabel[] = []
  const bought = node.ins.find(({ part }) => part.way === 'bought')
  const before = () => lineAt(node, { rank: stubsOf(node.ins), isBefore: true })
  if (bought !== undefined) told.push(label(bought, before()))
  const turned = node.isLoop ? node.ins.filter(({ part }) => part.way === 'turn') : []
  const last = turned.at(-1)
  if (last !== undefined) {
    const dryGrams = turned.reduce((sum, { part }) => sum.plus(part.dryGrams), decimal(0))
    told.push({ ...label(last, before()), dryGrams })
  }
  const onward = node.outs.filter((slot) => leadsOn(slot) && slot.part.way !== 'turn')
  const after = lineAt(node, { rank: stubsOf(node.outs), isBefore: false })
  const [first] = node.isLoop ? onward.slice(-1) : onward
  if (first !== undefined) told.push(label(first, after))
  return told
}

/** What each place is called beside the drawing. */
export const NODE_WORDS: Readonly<Record<PlaceInside, string>> = {
  store: 'Bags',
  bench: 'Ready to throw',
  greenware: 'Greenware',
  bisque: 'Bisque',
  glazed: 'Glaze-fired',
  finished: 'On the shelf',
  scrap: 'Scrap',
  basin: 'Slaking',
  plaster: 'On plaster',
  materials: 'Materials',
  glaze_bucket: 'Glaze buckets',
}
