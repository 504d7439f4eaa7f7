import { scaleLinear } from 'd3-scale'
import { scaleOver, type Frame } from './plot.ts'

export interface CurveDrawn {
  readonly curve: readonly {
    readonly at: Date
    readonly median: number
    readonly from: number
    readonly to: number
  }[]
  readonly weighIns: readonly {
    readonly at: Date
    readonly water: number
    /** Half of the interval that the reading alone leaves. */
    readonly giveOrTake: number
  }[]
  readonly targets: readonly {
    readonly name: 'ready' | 'too-dry'
    readonly words: string
    readonly share: number
    /** When, in words; null where it never gets there. */
    readonly says: string | null
    readonly at: Date | null
  }[]
  /** Null of a slab that has left its bat. */
  readonly now: Date | null
  readonly beganWords: string
}

const FRAME: Frame = { left: 46, right: 350, top: 10, bottom: 200 }
export const CURVE = { width: 360, height: 224, frame: FRAME }
const LINE = 14
const MILLISECONDS_AN_HOUR = 3_600_000
const HOUR_TICKS = 5
const WATER_TICKS = 4

interface Placed {
  readonly x: number
  readonly y: number
}

export interface PlacedCurve {
  readonly band: readonly { readonly x: number; readonly low: number; readonly high: number }[]
  readonly middle: readonly Placed[]
  readonly weighIns: readonly (Placed & { readonly low: number; readonly high: number })[]
  readonly targets: readonly (Omit<CurveDrawn['targets'][number], 'at'> & {
    readonly y: number
    readonly x: number | null
    readonly wordsY: number
  })[]
  readonly now: number | null
  readonly hourTicks: readonly { readonly hours: number; readonly x: number }[]
  readonly waterTicks: readonly { readonly share: number; readonly y: number }[]
}

/** A slab's readings and its curve on the drawing: hours to the right, water upwards. */
export function placedCurve(drawn: CurveDrawn): PlacedCurve {
  const { curve, weighIns, targets, now } = drawn
  const began = Math.min(...[...curve, ...weighIns].map(({ at }) => at.getTime()))
  const hoursAt = (at: Date) => (at.getTime() - began) / MILLISECONDS_AN_HOUR
  const hours = [...curve, ...weighIns].map(({ at }) => hoursAt(at))
  const x = scaleLinear()
    .domain([0, Math.max(...hours, 1)])
    .range([FRAME.left, FRAME.right])
    .clamp(true)
  const shares = [
    ...curve.flatMap(({ from, to }) => [from, to]),
    ...weighIns.flatMap(({ water, giveOrTake }) => [water - giveOrTake, water + giveOrTake]),
    ...targets.map(({ share }) => share),
  ]
  const y = scaleOver(shares, [FRAME.bottom, FRAME.top])
  return {
    band: curve.map(({ at, from, to }) => ({ x: x(hoursAt(at)), low: y(from), high: y(to) })),
    middle: curve.map(({ at, median }) => ({ x: x(hoursAt(at)), y: y(median) })),
    weighIns: weighIns.map(({ at, water, giveOrTake }) => ({
      ...{ x: x(hoursAt(at)), y: y(water) },
      ...{ low: y(water - giveOrTake), high: y(water + giveOrTake) },
    })),
    targets: placedTargets(targets, { x: (at) => x(hoursAt(at)), y }),
    now: now === null ? null : x(hoursAt(now)),
    hourTicks: x.ticks(HOUR_TICKS).map((at) => ({ hours: at, x: x(at) })),
    waterTicks: y.ticks(WATER_TICKS).map((share) => ({ share, y: y(share) })),
  }
}

/** Ready stands above its line and too dry below its own, for the two lie near one another. */
function placedTargets(
  targets: CurveDrawn['targets'],
  { x, y }: { x: (at: Date) => number; y: (share: number) => number },
): PlacedCurve['targets'] {
  return targets.map(({ at, ...target }) => ({
    ...target,
    y: y(target.share),
    x: at === null ? null : x(at),
    wordsY: y(target.share) + (target.name === 'ready' ? -4 : LINE - 2),
  }))
}
