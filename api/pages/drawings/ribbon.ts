import { area, curveLinearClosed, line } from 'd3-shape'

export interface Point {
  readonly x: number
  readonly y: number
}

const DIGITS = 2
const STEPS_OF_CURVE = 24
const STEPS_OF_CORNER = 8

const round = (value: number) => Number(value.toFixed(DIGITS))
const closed = line<Point>()
  .x(({ x }) => round(x))
  .y(({ y }) => round(y))
  .curve(curveLinearClosed)

/**
 * A band of one width along a line, as the path of its outline.
 *
 * Units: of the drawing. The width is measured square to the line.
 */
export function ribbonPath(centre: readonly Point[], width: number): string {
  return closed(ribbonOutline(centre, width)) ?? ''
}

/** The corners of such a band: up one side of the line and down the other. */
export function ribbonOutline(centre: readonly Point[], width: number): Point[] {
  const sides = centre.map((point, index) => {
    const before = centre[index - 1] ?? point
    const after = centre[index + 1] ?? point
    const length = Math.hypot(after.x - before.x, after.y - before.y) || 1
    const across = { x: -(after.y - before.y) / length, y: (after.x - before.x) / length }
    const half = width / 2
    return {
      one: { x: point.x + across.x * half, y: point.y + across.y * half },
      other: { x: point.x - across.x * half, y: point.y - across.y * half },
    }
  })
  return [...sides.map(({ one }) => one), ...sides.map(({ other }) => other).reverse()]
}

/** A line that leaves and arrives straight up or down, and bends between. */
export function bend(
  from: Point & { readonly down: number },
  to: Point & { readonly down: number },
): Point[] {
  const reach = Math.max(24, Math.abs(to.y - from.y) / 2)
  const [one, other] = [from.y + from.down * reach, to.y - to.down * reach]
  return Array.from({ length: STEPS_OF_CURVE + 1 }, (_, step) => {
    const t = step / STEPS_OF_CURVE
    const [a, b, c, d] = [(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t ** 2, t ** 3]
    return {
      x: (a + b) * from.x + (c + d) * to.x,
      y: a * from.y + b * one + c * other + d * to.y,
    }
  })
}

/** A line that runs straight up or down to `runY`, across, and straight back again, round at the corners. */
export function turnBack(from: Point, to: Point, turn: { runY: number; radius: number }): Point[] {
  const { runY, radius } = turn
  const side = Math.sign(to.x - from.x) || 1
  const onward = Math.sign(runY - from.y) || 1
  const corner = (centreX: number, sweep: (t: number) => Point) =>
    Array.from({ length: STEPS_OF_CORNER + 1 }, (_, step) => {
      const { x, y } = sweep((step / STEPS_OF_CORNER) * (Math.PI / 2))
      return { x: centreX + x * side * radius, y: runY - onward * radius + y * onward * radius }
    })
  return [
    from,
    ...corner(from.x + side * radius, (t) => ({ x: -Math.cos(t), y: Math.sin(t) })),
    ...corner(to.x - side * radius, (t) => ({ x: Math.sin(t), y: Math.cos(t) })),
    to,
  ]
}

/** The area between two lines over the same places. */
export const bandBetween = area<{
  readonly x: number
  readonly low: number
  readonly high: number
}>()
  .x(({ x }) => round(x))
  .y0(({ low }) => round(low))
  .y1(({ high }) => round(high))
