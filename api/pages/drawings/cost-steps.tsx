import { scaleLinear } from 'd3-scale'
import { ZERO, type Decimal } from '../../../shared/decimal.ts'
import { Hatches, hatchOf } from './hatches.tsx'
import { linesOfWords, place } from './plot.ts'

export interface StepDrawn {
  readonly words: string
  readonly amount: Decimal
  /** The amount as it is printed, with its sign. */
  readonly says: string
}

export interface PlacedStep extends StepDrawn {
  readonly lines: readonly string[]
  /** The first line of words. */
  readonly y: number
  readonly barY: number
  readonly x: number
  readonly width: number
  /** Where the next step begins. */
  readonly endX: number
  readonly isTotal: boolean
}

const WIDTH = 360
const AMOUNTS = 64
const LINE = 15
const BAR = 13
const LETTERS = 54

/** Each step from where the one before it ended; the last bar is what they come to. */
export function placedSteps(
  steps: readonly StepDrawn[],
  total: StepDrawn,
): { readonly steps: readonly PlacedStep[]; readonly height: number } {
  const sums = steps.reduce<Decimal[]>(
    (all, { amount }) => [...all, (all.at(-1) ?? ZERO).plus(amount)],
    [ZERO],
  )
  const values = [...sums, total.amount].map((sum) => sum.toNumber())
  const x = scaleLinear()
    .domain([Math.min(0, ...values), Math.max(0, ...values) || 1])
    .range([4, WIDTH - AMOUNTS])
  let y = 14
  const placed = [...steps, total].map((step, index): PlacedStep => {
    const isTotal = index === steps.length
    const from = x(isTotal ? 0 : (values[index] ?? 0))
    const to = x(isTotal ? total.amount.toNumber() : (values[index + 1] ?? 0))
    const lines = linesOfWords(step.words, LETTERS)
    const barY = y + LINE * (lines.length - 1) + 5
    const bar = { x: Math.min(from, to), width: Math.abs(to - from), endX: to }
    const one = { ...step, lines, y, barY, ...bar, isTotal }
    y = barY + BAR + LINE + 3
    return one
  })
  return { steps: placed, height: y - LINE + 4 }
}

/** What one sold piece took, from the price of the bag to its true cost. */
export function CostSteps(asked: {
  readonly id: string
  readonly title: string
  readonly steps: readonly StepDrawn[]
  readonly total: StepDrawn | null
}) {
  const { id, title, steps, total } = asked
  if (total === null || steps.length === 0) {
    return <p>Nothing of it was sold, so there are no steps to draw.</p>
  }
  const { steps: placed, height } = placedSteps(steps, total)
  return (
    <svg
      class="drawing cost-steps"
      viewBox={`0 0 ${WIDTH} ${place(height)}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>
        {placed.map(({ words, says }) => `${words}: ${says}`).join('; ')}.
      </desc>
      <Hatches id={id} />
      {placed.map((step, index) => (
        <Step id={id} step={step} next={placed[index + 1]} />
      ))}
    </svg>
  )
}

function Step(asked: {
  readonly id: string
  readonly step: PlacedStep
  readonly next: PlacedStep | undefined
}) {
  const { id, step, next } = asked
  const { x, width, barY, endX, isTotal, amount } = step
  const look = isTotal ? 'fired' : amount.isNegative() ? 'back' : 'clay'
  const says = Math.max(x + width, endX) + 6
  return (
    <>
      {step.lines.map((line, index) => (
        <text class={isTotal ? 'place' : 'says'} x={4} y={step.y + index * LINE}>
          {line}
        </text>
      ))}
      <rect
        class={`band ${look}`}
        x={place(x)}
        y={place(barY)}
        width={place(width)}
        height={BAR}
        fill={hatchOf(id, look)}
      />
      <text class={isTotal ? 'place' : 'says'} x={place(says)} y={place(barY + BAR - 2)}>
        {step.says}
      </text>
      {next === undefined ? (
        <></>
      ) : (
        <line class="leader" x1={place(endX)} x2={place(endX)} y1={barY + BAR} y2={next.barY} />
      )}
    </>
  )
}
