import { scaleLinear } from 'd3-scale'
import { Hatches, hatchOf } from './hatches.tsx'
import { place } from './plot.ts'

export interface StageDrawn {
  /** The stage, as the trade calls it. */
  readonly words: string
  /** The share and its interval, or why there is none. */
  readonly says: string
  /** Null where nothing has come through yet. */
  readonly share: number | null
  readonly interval: { readonly from: number; readonly to: number } | null
}

const WIDTH = 360
const ROW = 40
const BAR = 12
const TICKS = [0, 0.25, 0.5, 0.75, 1] as const

const x = scaleLinear()
  .domain([0, 1])
  .range([6, WIDTH - 14])

export interface PlacedStage extends StageDrawn {
  readonly y: number
  readonly barY: number
  readonly width: number | null
  readonly whisker: { readonly from: number; readonly to: number } | null
}

/** A bar a stage from none to all, with the interval as a line along it. */
export function placedStages(stages: readonly StageDrawn[]): PlacedStage[] {
  return stages.map((stage, index) => ({
    ...stage,
    y: 14 + index * ROW,
    barY: 20 + index * ROW,
    width: stage.share === null ? null : x(stage.share) - x(0),
    whisker: stage.interval && { from: x(stage.interval.from), to: x(stage.interval.to) },
  }))
}

/** What share of the pieces comes through each stage, and how sure that is. */
export function YieldBars(asked: {
  readonly id: string
  readonly title: string
  readonly stages: readonly StageDrawn[]
}) {
  const { id, title, stages } = asked
  if (stages.every(({ share }) => share === null)) {
    return <p>No piece has come through a stage yet, so there is nothing to draw.</p>
  }
  const placed = placedStages(stages)
  const foot = placed.length * ROW + 4
  return (
    <svg
      class="drawing yield-bars"
      viewBox={`0 0 ${WIDTH} ${foot + 18}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>
        {placed.map(({ words, says }) => `${words}: ${says}`).join('; ')}. The line along each bar
        is where the share of all such pieces lies 19 times in 20.
      </desc>
      <Hatches id={id} />
      {TICKS.map((share) => (
        <>
          {placed.map(({ barY }) => (
            <line
              class="grid"
              x1={place(x(share))}
              x2={place(x(share))}
              y1={barY - 1}
              y2={barY + BAR + 1}
            />
          ))}
          <text class="says" x={place(x(share))} y={foot + 13} text-anchor={anchorOf(share)}>
            {(share * 100).toFixed(0)}
            {share === 1 ? ' %' : ''}
          </text>
        </>
      ))}
      {placed.map((stage) => (
        <StageBar id={id} stage={stage} />
      ))}
    </svg>
  )
}

function anchorOf(share: number): 'start' | 'middle' | 'end' {
  if (share === 0) return 'start'
  return share === 1 ? 'end' : 'middle'
}

function StageBar({ id, stage }: { readonly id: string; readonly stage: PlacedStage }) {
  const { words, says, y, barY, width, whisker } = stage
  const middle = barY + BAR / 2
  return (
    <>
      <text class="says" x={6} y={y}>
        <tspan class="place">{words}</tspan> {says}
      </text>
      {width === null ? (
        <></>
      ) : (
        <rect
          class="band clay"
          x={6}
          y={barY}
          width={place(width)}
          height={BAR}
          fill={hatchOf(id, 'clay')}
        />
      )}
      {whisker === null ? (
        <></>
      ) : (
        <path
          class="whisker"
          d={`M${place(whisker.from)},${barY - 2}V${barY + BAR + 2}M${place(whisker.from)},${middle}H${place(whisker.to)}M${place(whisker.to)},${barY - 2}V${barY + BAR + 2}`}
        />
      )}
    </>
  )
}
