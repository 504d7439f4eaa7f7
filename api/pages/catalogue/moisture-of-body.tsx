import type { Context } from 'hono'
import { moistureOfBody } from '../../../db/reports/moisture.ts'
import { giveOrTake } from '../../../shared/how-sure.ts'
import { decimal } from '../../../shared/decimal.ts'
import type { Environment } from '../../services.ts'
import { STATE_WORDS } from '../state-words.ts'

/** What is reckoned with for the water of a clay, state by state, and what that rests on. */
export async function MoistureOfBody({ c, bodyId }: { c: Context<Environment>; bodyId: string }) {
  const rows = await moistureOfBody(c.get('services').db, c.get('studioId'), bodyId)
  const voice = c.get('voice')
  return (
    <section>
      <h2>Its water, as it is reckoned with</h2>
      <div class="scrolls" tabindex={0} role="region" aria-label="Water by state">
        <table>
          <thead>
            <tr>
              <th scope="col">State</th>
              <th scope="col" class="number">
                Water
              </th>
              <th scope="col">What it rests on</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr>
                <th scope="row">{voice.words(STATE_WORDS[row.state])}</th>
                <td class="number">
                  {voice.share(row.waterContentWetBasis)}{' '}
                  <small>± {voice.share(giveOrTake(decimal(row.standardUncertainty)))}</small>
                </td>
                <td>
                  {voice.words(row.words)}
                  {row.source === null ? null : <small> ({row.source})</small>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        <a class="button" href={`/books/dry-test?bodyId=${bodyId}`}>
          Dry a sample of it
        </a>
      </p>
    </section>
  )
}
