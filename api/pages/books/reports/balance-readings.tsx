import type { MassBalance } from '../../../../db/reports/mass-balance.ts'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'

type Reading = MassBalance['readings'][number]

const HOW_WORDS: Readonly<Record<Reading['howKnown'], string>> = {
  weighed: 'weighed',
  labelled: 'by the label',
  counted: 'counted',
  tested: 'by a dry test',
  by_the_books: 'by the books',
  guessed: 'guessed',
  not_weighed: 'not weighed',
}

const STANDING_WORDS: Readonly<Record<Reading['standing'], string>> = {
  checked: 'checked by others',
  unchecked: 'nothing else speaks of it',
  worked_out: 'worked out from the others',
  open: 'nothing tells it',
  left_out: 'left out, because it does not fit',
}

/** Every weigh-in of the month, as it was read and as it fits them all. */
export function BalanceReadings({ report, voice }: { report: MassBalance; voice: Voice }) {
  const { readings } = report
  if (readings.length === 0) return null
  return (
    <details class="more">
      <summary>All {readings.length} that were looked at</summary>
      <div class="across">
        <table>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col" class="number">
                Dry clay as read
              </th>
              <th scope="col" class="number">
                As it fits all
              </th>
            </tr>
          </thead>
          <tbody>
            {readings.map((reading) => (
              <tr>
                <th scope="row">
                  <a href={trailHref(reading.trail)}>{voice.words(reading.label)}</a>
                  <small>
                    {HOW_WORDS[reading.howKnown]}, {STANDING_WORDS[reading.standing]}
                  </small>
                </th>
                <td class="number">
                  {sure(reading.measuredDryGrams, reading.measuredUncertaintyGrams, voice)}
                </td>
                <td class="number">
                  {sure(reading.reconciledDryGrams, reading.standardUncertaintyGrams, voice)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  )
}

function sure(grams: string | null, uncertainty: string | null, voice: Voice): string {
  if (grams === null) return ''
  return uncertainty === null ? voice.mass(grams) : voice.massSure(grams, uncertainty)
}
