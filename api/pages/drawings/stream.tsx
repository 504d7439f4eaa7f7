import { decimal, type Decimal } from '../../../shared/decimal.ts'
import { Hatches, hatchOf } from './hatches.tsx'
import { ribbonPath } from './ribbon.ts'
import { streamPicture, type StreamLabel, type StreamPicture } from './stream-layout.ts'
import type { BandLook, StreamDrawn } from './stream-parts.ts'

/** In what masses are told on a drawing, where there is no room for more than figures. */
export interface DrawnUnit {
  readonly words: string
  readonly grams: Decimal
}

const WIDTH = 360
/** The bar that states the scale is about this long. */
const MEASURE = 45
const MEASURES = ['500', '200', '100', '50', '20', '10', '5', '2', '1', '0.5', '0.2', '0.1', '0.05']

const LOOKS: Readonly<Record<BandLook, string>> = {
  clay: 'clay',
  fired: 'fired',
  back: 'the way back round',
  stock: 'stock, before and after',
  came: 'come in, or put right',
  gone: 'gone',
  unknown: 'unexplained',
}

/**
 * A month's clay from bag to shelf and back round, each band as wide as there was clay.
 *
 * The same stands in words and figures beside it: to whom the drawing says nothing, its description
 * names the way only.
 */
export function Stream(asked: {
  readonly id: string
  readonly title: string
  readonly stream: StreamDrawn
  readonly unit: DrawnUnit
}) {
  const { id, title, stream, unit } = asked
  const picture = streamPicture(stream, WIDTH)
  if (picture === null)
    return <p>There was no clay in the books in this month, so nothing to draw.</p>
  const measure = measureOf(picture, unit)
  const height = picture.height + 30
  return (
    <svg
      class="drawing stream"
      viewBox={`0 0 ${WIDTH} ${height.toFixed(0)}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>
        Dry clay in {unit.words}, one scale for all bands: {measure.words} is as wide as the bar at
        the foot. It runs down from the bags over the wheel and the kilns to the shelf, and on the
        right from the scrap over basin and plaster back to the bench. All figures stand in the
        table beside it.
      </desc>
      <Hatches id={id} />
      {picture.ribbons.map(({ part, centre, width }) => (
        <path
          class={`band ${part.look}`}
          d={ribbonPath(centre, width.toNumber())}
          fill={hatchOf(id, part.look)}
        />
      ))}
      {picture.nodes.map(({ x, y, width }) => (
        <rect class="node" x={(x - 2).toFixed(2)} y={y} width={(width + 4).toFixed(2)} height={4} />
      ))}
      {picture.labels.map((label) => (
        <Label label={label} unit={unit} />
      ))}
      <Measure y={height - 12} words={measure.words} width={measure.width} />
    </svg>
  )
}

function Label({ label, unit }: { readonly label: StreamLabel; readonly unit: DrawnUnit }) {
  const { words, dryGrams, x, y, anchor, leadsToX } = label
  const side = anchor === 'end' ? 1 : -1
  return (
    <>
      {leadsToX === null ? (
        <></>
      ) : (
        <line class="leader" x1={x + 3 * side} x2={leadsToX.toFixed(2)} y1={y} y2={y} />
      )}
      <text class={dryGrams === null ? 'place' : 'says'} x={x} y={y + 4} text-anchor={anchor}>
        {words}
        {dryGrams === null ? '' : ` ${figureOf(dryGrams, unit)}`}
      </text>
    </>
  )
}

function Measure(bar: { readonly y: number; readonly width: number; readonly words: string }) {
  const from = (WIDTH - bar.width) / 2 + 40
  return (
    <g class="measure">
      <rect class="node" x={from.toFixed(2)} y={bar.y} width={bar.width.toFixed(2)} height={4} />
      <text class="says" x={(from - 8).toFixed(2)} y={bar.y + 7} text-anchor="end">
        as wide as {bar.words}
      </text>
    </g>
  )
}

/** The longest round mass whose bar is not longer than there is room for. */
function measureOf({ scale }: StreamPicture, unit: DrawnUnit): { words: string; width: number } {
  const widthOf = (amount: string) => scale.times(unit.grams).times(decimal(amount)).toNumber()
  const amount = MEASURES.find((one) => widthOf(one) <= MEASURE) ?? '0.05'
  return { words: `${amount} ${unit.words}`, width: widthOf(amount) }
}

/** Three figures are what a band's width can be read to. Units: those of the drawing. */
export function figureOf(dryGrams: Decimal, { grams }: DrawnUnit): string {
  const amount = dryGrams.dividedBy(grams)
  if (amount.abs().greaterThanOrEqualTo('99.95')) return amount.toFixed(0)
  return amount.toFixed(amount.abs().greaterThanOrEqualTo('9.995') ? 1 : 2)
}

/** What each way of filling a band stands for, those that the month has. */
export function StreamKey({ id, stream }: { readonly id: string; readonly stream: StreamDrawn }) {
  const picture = streamPicture(stream, WIDTH)
  const looks = [...new Set(picture?.ribbons.map(({ part }) => part.look))]
  return (
    <ul class="key">
      {(Object.keys(LOOKS) as BandLook[])
        .filter((look) => looks.includes(look))
        .map((look) => (
          <li>
            <svg class="drawing" viewBox="0 0 22 12" width="22" height="12" aria-hidden="true">
              <rect
                class={`band ${look}`}
                x="1"
                y="1"
                width="20"
                height="10"
                fill={hatchOf(id, look)}
              />
            </svg>{' '}
            {LOOKS[look]}
          </li>
        ))}
    </ul>
  )
}
