import type { PieceCostReport } from '../../../../db/reports/piece-cost.ts'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'

/** The months that were asked for. */
export interface MonthsOfCost {
  readonly from: string | undefined
  readonly to: string | undefined
}

interface ByHandProps {
  readonly form: PieceCostReport['forms'][number]
  readonly voice: Voice
  readonly months: MonthsOfCost
}

/** The two numbers of which the cost of a piece is the quotient, and where they come from. */
export function ByHand({ form, voice, months }: ByHandProps) {
  const { soldPieces, soldCost, costPerSoldPiece, costPerSoldPieceShown, trail } = form
  if (costPerSoldPiece === null) return null
  const { currency } = voice.studio
  const { formId } = form
  const asked = Object.entries({ formId, ...months }).filter(
    (pair): pair is [string, string] => pair[1] !== undefined,
  )
  return (
    <section>
      <h2>Work it out by hand</h2>
      <table class="ledger">
        <tbody>
          <tr>
            <th scope="row">cost that left with them, {currency}</th>
            <td class="number">
              <a href={trailHref(trail)}>{soldCost}</a>
            </td>
          </tr>
          <tr>
            <th scope="row">÷ pieces sold</th>
            <td class="number">
              <a href={trailHref(trail)}>{soldPieces}</a>
            </td>
          </tr>
          <tr class="balance">
            <th scope="row">= a sold piece, before it is rounded to {costPerSoldPieceShown}</th>
            <td class="number">{costPerSoldPiece}</td>
          </tr>
        </tbody>
      </table>
      <p class="told off-paper">
        <a href={trailHref(trail)}>Every sale behind it</a>: each entry has the cost that left with
        its pots, and what they were packed in. What would change it:{' '}
        <a href={`/books/what-if?formId=${encodeURIComponent(form.formId)}`}>What if?</a>
      </p>
      <p class="off-paper">
        <a class="button" href={`/v1/reports/piece-cost?${new URLSearchParams(asked).toString()}`}>
          All figures (JSON)
        </a>
      </p>
    </section>
  )
}
