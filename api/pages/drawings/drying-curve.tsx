import { line } from 'd3-shape'
import { Hatches, hatchOf } from './hatches.tsx'
import { place } from './plot.ts'
import { CURVE, placedCurve, type CurveDrawn, type PlacedCurve } from './drying-places.ts'
import { bandBetween } from './ribbon.ts'

export interface CurveAsked extends CurveDrawn {
  readonly id: string
  readonly title: string
  /** A water content as the studio writes it. */
  readonly waterWords: (share: number) => string
  /** Why there is no curve; it stands instead of the drawing. */
  readonly why: string | null
}

const path = line<{ readonly x: number; readonly y: number }>()
  .x(({ x }) => Number(place(x)))
  .y(({ y }) => Number(place(y)))

/** How a slab dries: what was weighed, the curve with its band, and when it is ready and too dry. */
export function DryingCurve(asked: CurveAsked) {
  const { id, title, why, waterWords } = asked
  if (asked.curve.length < 2) {
    return <p>{why ?? 'Nobody has weighed this slab yet, so there is no curve to draw.'}</p>
  }
  const placed = placedCurve(asked)
  const { width, height, frame } = CURVE
  return (
    <svg
      class="drawing drying-curve"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>
        Water in the slab over the hours since {asked.beganWords}. {asked.weighIns.length}{' '}
        weigh-ins.
        {placed.targets.map(
          ({ words, share, says }) =>
            ` ${words} at ${waterWords(share)}${says === null ? '' : `: ${says}`}.`,
        )}{' '}
        Nine times in ten the slab lies within the band.
      </desc>
      <Hatches id={id} />
      <path
        class="band stock"
        d={bandBetween([...placed.band]) ?? ''}
        fill={hatchOf(id, 'stock')}
      />
      <Axes placed={placed} waterWords={waterWords} />
      <path class="through" d={path(placed.middle) ?? ''} />
      {placed.now === null ? (
        <></>
      ) : (
        <>
          <line
            class="now"
            x1={place(placed.now)}
            x2={place(placed.now)}
            y1={frame.top}
            y2={frame.bottom}
          />
          <text class="says" x={place(placed.now + 3)} y={frame.top + 8}>
            now
          </text>
        </>
      )}
      {placed.weighIns.map(({ x, y, low, high }) => (
        <>
          <line class="whisker" x1={place(x)} x2={place(x)} y1={place(high)} y2={place(low)} />
          <circle class="value" cx={place(x)} cy={place(y)} r="3.5" />
        </>
      ))}
    </svg>
  )
}

function Axes(asked: {
  readonly placed: PlacedCurve
  readonly waterWords: (share: number) => string
}) {
  const { placed, waterWords } = asked
  const { frame, height } = CURVE
  return (
    <>
      {placed.targets.map(({ name, words, says, y, x, wordsY }) => (
        <>
          <line class={name} x1={frame.left} x2={frame.right} y1={place(y)} y2={place(y)} />
          {x === null ? (
            <></>
          ) : (
            <line class={name} x1={place(x)} x2={place(x)} y1={place(y)} y2={frame.bottom} />
          )}
          <text class="says" x={frame.left + 6} y={place(wordsY)}>
            {words}
            {says === null ? '' : ` ${says}`}
          </text>
        </>
      ))}
      {placed.waterTicks.map(({ share, y }) => (
        <text class="says" x={frame.left - 4} y={place(y + 4)} text-anchor="end">
          {waterWords(share)}
        </text>
      ))}
      {placed.hourTicks.map(({ hours, x }) => (
        <>
          <line class="grid" x1={place(x)} x2={place(x)} y1={frame.bottom} y2={frame.bottom + 4} />
          <text class="says" x={place(x)} y={height - 4} text-anchor="middle">
            {hours} h
          </text>
        </>
      ))}
      <path class="axis" d={`M${frame.left},${frame.top}V${frame.bottom}H${frame.right}`} />
    </>
  )
}
