import { decimal } from '../../../shared/decimal.ts'
import { WORLD_ROWS, type WorldRow } from '../../../shared/month-world.ts'
import { columnUnit, massAlone } from '../../../shared/month-printed.ts'
import { PLACE_WORDS, type Place } from '../../../shared/place.ts'
import { trailHref } from '../trail-href.ts'
import type { SheetProps } from './month-read.ts'

/** The drawing's bands in words and figures, each leading to its entries. */
export function MonthStreamFigures({ read, voice }: SheetProps) {
  const { bands, stocks } = read.stream
  const unit = columnUnit(voice.studio.massUnits)
  const rows = [
    ...stocks.map((stock) => ({
      words: `opening: ${wordsOf(stock.place)}`,
      grams: stock.openingDryGrams,
      trail: stock.openingTrail,
    })),
    ...bands.map((band) => ({
      words: `${wordsOf(band.from)} → ${wordsOf(band.to)}`,
      grams: band.dryGrams,
      trail: band.trail,
    })),
    ...stocks.map((stock) => ({
      words: `closing: ${wordsOf(stock.place)}`,
      grams: stock.closingDryGrams,
      trail: stock.closingTrail,
    })),
  ].filter(({ grams }) => !decimal(grams).isZero())
  if (rows.length === 0) return null
  return (
    <details class="more off-paper">
      <summary>The same in figures</summary>
      <table class="ledger">
        <thead>
          <tr>
            <th scope="col">From where to where</th>
            <th scope="col" class="number">
              dry clay, {unit.words}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ words, grams, trail }) => (
            <tr>
              <th scope="row">{voice.words(words)}</th>
              <td class="number">
                <a href={trailHref(trail)}>{massAlone(decimal(grams), unit)}</a>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  )
}

/** A place, or a way through the studio's door. */
function wordsOf(end: string): string {
  const rows: readonly WorldRow[] = WORLD_ROWS
  return rows.find(({ row }) => row === end)?.words ?? PLACE_WORDS[end as Place]
}
