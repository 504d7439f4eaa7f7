import { line } from 'd3-shape'
import { place, scaleOver, type Frame } from './plot.ts'

export interface ValueDrawn {
  /** The run, as the books call it. */
  readonly words: string
  readonly share: number
  /** Part of what chance alone seldom does. */
  readonly isSignal: boolean
}

export interface LimitsDrawn {
  readonly centre: number
  readonly lower: number
  readonly upper: number
}

export interface ValuesAsked {
  readonly id: string
  readonly title: string
  /** Oldest first. */
  readonly values: readonly ValueDrawn[]
  /** Null before there are runs enough to draw any. */
  readonly limits: LimitsDrawn | null
  /** A share as the studio writes it. */
  readonly shareWords: (share: number) => string
}

const WIDTH = 360
const HEIGHT = 210
const FRAME: Frame = { left: 8, right: 284, top: 14, bottom: 182 }

export interface PlacedValues {
  readonly points: readonly (ValueDrawn & { readonly x: number; readonly y: number })[]
  readonly lines: readonly {
    readonly name: keyof LimitsDrawn
    readonly share: number
    readonly y: number
    /** Where its words stand, so that they do not cover one another. */
    readonly wordsY: number
  }[]
}

const LINE = 14

/** The values from left to right as they came, with the lines that they are judged by. */
export function placedValues(
  values: readonly ValueDrawn[],
  limits: LimitsDrawn | null,
): PlacedValues {
  const shares = values.map(({ share }) => share)
  const lines = limits === null ? [] : [limits.upper, limits.centre, limits.lower]
  const y = scaleOver([...shares, ...lines], [FRAME.bottom, FRAME.top])
  const step = (FRAME.right - FRAME.left - 12) / Math.max(1, values.length - 1)
  return {
    points: values.map((value, index) => ({
      ...value,
      x: FRAME.left + 6 + index * step,
      y: y(value.share),
    })),
    lines: limits === null ? [] : apart(limits, y),
  }
}

function apart(limits: LimitsDrawn, y: (share: number) => number): PlacedValues['lines'] {
  const at = (name: keyof LimitsDrawn) => ({ name, share: limits[name], y: y(limits[name]) })
  const [upper, centre, lower] = [at('upper'), at('centre'), at('lower')]
  return [
    { ...upper, wordsY: Math.min(upper.y, centre.y - 2 * LINE) + 4 },
    { ...centre, wordsY: centre.y + 4 },
    { ...lower, wordsY: Math.max(lower.y, centre.y + 2 * LINE) + 4 },
  ]
}

const LINE_WORDS: Readonly<Record<keyof LimitsDrawn, string>> = {
  upper: 'thinner',
  centre: 'habit',
  lower: 'thicker',
}

const path = line<{ readonly x: number; readonly y: number }>()
  .x(({ x }) => Number(place(x)))
  .y(({ y }) => Number(place(y)))

/** What was turned off run by run, beside the habit and how far chance alone strays from it. */
export function SingleValues({ id, title, values, limits, shareWords }: ValuesAsked) {
  const [only] = values
  if (only === undefined) return <p>No run was turned yet, so there is nothing to draw.</p>
  if (values.length === 1) {
    return (
      <p>
        One run so far: {only.words}, {shareWords(only.share)} turned off. A chart begins with two.
      </p>
    )
  }
  const { points, lines } = placedValues(values, limits)
  return (
    <svg
      class="drawing single-values"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{inWords({ id, title, values, limits, shareWords })}</desc>
      {lines.map(({ name, share, y, wordsY }) => (
        <>
          <line
            class={name === 'centre' ? 'centre' : 'limit'}
            x1={FRAME.left}
            x2={FRAME.right}
            y1={place(y)}
            y2={place(y)}
          />
          <text class="says" x={FRAME.right + 5} y={place(wordsY - 6)}>
            {LINE_WORDS[name]}
          </text>
          <text class="says" x={FRAME.right + 5} y={place(wordsY + 7)}>
            {shareWords(share)}
          </text>
        </>
      ))}
      <path class="through" d={path(points) ?? ''} />
      {points.map(({ x, y, isSignal }) =>
        isSignal ? (
          <rect class="stands-out" x={place(x - 4)} y={place(y - 4)} width="8" height="8" />
        ) : (
          <circle class="value" cx={place(x)} cy={place(y)} r="3" />
        ),
      )}
      <text class="says" x={FRAME.left} y={HEIGHT - 6}>
        oldest
      </text>
      <text class="says" x={FRAME.right} y={HEIGHT - 6} text-anchor="end">
        latest
      </text>
    </svg>
  )
}

function inWords({ values, limits, shareWords }: ValuesAsked): string {
  const signals = values.filter(({ isSignal }) => isSignal).length
  const habit =
    limits === null
      ? 'too few for a habit'
      : `the habit is ${shareWords(limits.centre)}, chance alone stays between ${shareWords(limits.lower)} and ${shareWords(limits.upper)}`
  const standing = signals === 0 ? 'none stands out' : `${signals} of them stand out`
  const [first, last] = [values[0]?.words ?? '', values.at(-1)?.words ?? '']
  return `${values.length} runs from ${first} to ${last}; ${habit}; ${standing}.`
}
