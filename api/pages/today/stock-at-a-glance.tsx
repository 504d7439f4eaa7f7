import type { StockReport } from '../../../db/reports/stock.ts'
import type { WaitingReport } from '../../../db/reports/waiting.ts'
import { PLACE_WORDS } from '../../../shared/place.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'

interface Glance {
  readonly stock: StockReport
  readonly waiting: WaitingReport
  readonly voice: Voice
}

/** What is there, place by place, and for how long the clay lasts. */
export function StockAtAGlance({ stock, waiting, voice }: Glance) {
  if (stock.holdings.length === 0) return null
  return (
    <section>
      <h2>What is here</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col" class="number">
              Dry clay
            </th>
          </tr>
        </thead>
        <tbody>
          {stock.places.map((row) => (
            <tr>
              <th scope="row">
                {row.place === null ? 'all' : PLACE_WORDS[row.place]}
                <small>{piecesWords(row)}</small>
              </th>
              <td class="number">
                <a href={trailHref(row.trail)}>
                  {voice.massSure(row.dryGrams, row.standardUncertaintyGrams)}
                </a>
              </td>
            </tr>
          ))}
          <tr class="sum">
            <th scope="row">all together</th>
            <td class="number">
              <a href={trailHref(stock.total.trail)}>
                {voice.massSure(stock.total.dryGrams, stock.total.standardUncertaintyGrams)}
              </a>
            </td>
          </tr>
        </tbody>
      </table>
      <ul>
        {waiting.clays.map((clay) => (
          <li>
            {clay.name}: {weeksWords(clay)}
          </li>
        ))}
      </ul>
      <p>
        <a href="/books/stock">Clay by clay, with what it cost</a>
      </p>
    </section>
  )
}

function piecesWords({ bags, pots }: StockReport['places'][number]): string {
  const words = [bags === '0' ? '' : `${bags} bags`, pots === '0' ? '' : `${pots} pots`]
  const told = words.filter((word) => word !== '').join(', ')
  return told === '' ? '' : ` ${told}`
}

function weeksWords({ weeks }: WaitingReport['clays'][number]): string {
  if (weeks === null) return 'none thrown in the last eight weeks.'
  return `bags and bench last about ${weeks} weeks at the pace of the last eight.`
}
