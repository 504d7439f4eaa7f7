import type { PieceCostReport } from '../../../db/reports/piece-cost.ts'
import { decimal } from '../../../shared/decimal.ts'
import { moneyGiveOrTake } from '../../../shared/month-printed.ts'
import type { Voice } from '../voice.ts'

interface PieceListProps {
  readonly report: PieceCostReport
  readonly voice: Voice
}

/** Every form of which something was sold, with what one of it cost. */
export function PieceList({ report, voice }: PieceListProps) {
  const { currency } = voice.studio
  const sold = report.forms.filter(({ costPerSoldPiece }) => costPerSoldPiece !== null)
  if (sold.length === 0) {
    return <p>Nothing was sold yet. Once something is, each form’s true cost stands here.</p>
  }
  return (
    <table class="ledger">
      <thead>
        <tr>
          <th scope="col">Form</th>
          <th scope="col" class="number">
            sold
          </th>
          <th scope="col" class="number">
            one cost, {currency}
          </th>
        </tr>
      </thead>
      <tbody>
        {sold.map((form) => (
          <tr>
            <th scope="row">
              <a href={`/books/piece/${encodeURIComponent(form.formId)}`}>{form.formName}</a>
            </th>
            <td class="number">{form.soldPieces}</td>
            <td class="number">
              <a href={`/books/piece/${encodeURIComponent(form.formId)}`}>
                {form.costPerSoldPieceShown}
              </a>{' '}
              <small>
                {moneyGiveOrTake(decimal(form.sure?.standardUncertainty ?? '0'), currency)}
              </small>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
