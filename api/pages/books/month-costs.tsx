import { ALL_LAYERS, LAYER_WORDS } from '../../../shared/cost-layer.ts'
import { decimal, ZERO, type Decimal } from '../../../shared/decimal.ts'
import { minorUnitDigits, printedAmount } from '../../../shared/money.ts'
import { moneyGiveOrTake, printedParts } from '../../../shared/month-printed.ts'
import { trailHref } from '../trail-href.ts'
import type { MonthRead, SheetProps } from './month-read.ts'

type Form = MonthRead['costs']['forms'][number]

interface SoldColumn {
  /** What was sold cost so much by the sheet; null where the forms are not all of it. */
  readonly total: string | null
  /** One for each form, adding up to that as printed. */
  readonly parts: readonly string[]
}

/** So many forms are told one by one; those of which least was sold, by cost, are told together. */
const FORMS_MAX = 12

interface Told {
  readonly forms: readonly Form[]
  readonly others: readonly Form[]
}

function toldForms(forms: readonly Form[]): Told {
  if (forms.length <= FORMS_MAX) return { forms, others: [] }
  const dearest = [...forms].sort((one, other) =>
    decimal(other.soldCost).comparedTo(decimal(one.soldCost)),
  )
  return { forms: dearest.slice(0, FORMS_MAX - 1), others: dearest.slice(FORMS_MAX - 1) }
}

const sumOf = (amounts: readonly string[]) =>
  amounts.reduce((sum, amount) => sum.plus(amount), ZERO)

/** What was sold of each form, as money of the sheet's own line. */
function soldColumn(
  costs: readonly Decimal[],
  { report }: MonthRead,
  currency: string,
): SoldColumn {
  const digits = minorUnitDigits(currency)
  const sold = report.summary.find(({ row }) => row === 'sold')
  const exact = costs.reduce((sum, cost) => sum.plus(cost), ZERO)
  if (!exact.equals(decimal(sold?.cost ?? '0').negated())) {
    return { total: null, parts: costs.map((cost) => printedAmount(cost, digits)) }
  }
  const total = printedAmount(decimal(sold?.shown.cost ?? '0').negated(), digits)
  return { total, parts: printedParts(total, costs, digits) }
}

/** All that the month cost, on two lines; its own sheet has the rest. */
export function MonthCostInAll({ read, voice }: SheetProps) {
  const { costs } = read.report
  if (costs === null) return null
  const { total, rows } = costs
  const layers = ALL_LAYERS.filter((layer) => !decimal(total.shown[layer]).isZero())
  const ways = rows.filter(({ shown }) => !decimal(shown.total).isZero())
  return (
    <p class="told">
      The month cost{' '}
      <a href={`/books/month/${read.month}/costs`}>
        {total.shown.total} {voice.studio.currency} in all
      </a>
      {layers.length < 2
        ? ''
        : `: ${layers.map((layer) => `${LAYER_WORDS[layer]} ${signless(total.shown[layer])}`).join(', ')}`}
      .{' '}
      {ways.length === 0
        ? ''
        : `Of it ${ways.map(({ words, shown }) => `${voice.words(words)} ${signless(shown.total)}`).join(', ')}.`}
    </p>
  )
}

const signless = (shown: string) => shown.replace('-', '−')

/** What a sold piece of each form cost; together what was sold, as the sheet has it. */
export function MonthCosts({ read, voice }: SheetProps) {
  const { currency } = voice.studio
  const sold = read.costs.forms.filter(({ soldPieces }) => !decimal(soldPieces).isZero())
  if (sold.length === 0) return null
  const { forms, others } = toldForms(sold)
  const ofOthers = sumOf(others.map(({ soldCost }) => soldCost))
  const costs = [...forms.map(({ soldCost }) => decimal(soldCost)), ofOthers]
  const { total, parts } = soldColumn(costs, read, currency)
  const pieces = sumOf(sold.map(({ soldPieces }) => soldPieces))
  return (
    <section>
      <h2>
        What the sold cost <small>{read.sheet.bodyId === null ? '' : 'all clays together'}</small>
      </h2>
      <table class="ledger costs">
        <CostHeads currency={currency} />
        <tbody>
          {forms.map((form, index) => (
            <FormRow form={form} all={parts[index] ?? ''} month={read.month} currency={currency} />
          ))}
          {others.length === 0 ? null : (
            <tr>
              <th scope="row">{others.length} other forms</th>
              <td class="number">{sumOf(others.map(({ soldPieces }) => soldPieces)).toFixed()}</td>
              <td></td>
              <td class="number">{parts.at(-1)}</td>
            </tr>
          )}
          {total === null ? null : (
            <tr class="balance">
              <th scope="row">sold, as above</th>
              <td class="number">{pieces.toFixed()}</td>
              <td></td>
              <td class="number">{total}</td>
            </tr>
          )}
        </tbody>
      </table>
    </section>
  )
}

function CostHeads({ currency }: { readonly currency: string }) {
  return (
    <thead>
      <tr>
        <td></td>
        <th scope="col" class="number">
          sold
        </th>
        <th scope="col" class="number with-doubt">
          each, {currency}
        </th>
        <th scope="col" class="number">
          all, {currency}
        </th>
      </tr>
    </thead>
  )
}

function FormRow(asked: {
  readonly form: Form
  readonly all: string
  readonly month: string
  readonly currency: string
}) {
  const { form, all, month, currency } = asked
  const give = moneyGiveOrTake(decimal(form.sure?.standardUncertainty ?? '0'), currency)
  return (
    <tr>
      <th scope="row">
        <a href={`/books/piece/${encodeURIComponent(form.formId)}?month=${month}`}>
          {form.formName}
        </a>
      </th>
      <td class="number">
        <a href={trailHref(form.trail)}>{form.soldPieces}</a>
      </td>
      <td class="number">
        <a href={trailHref(form.trail)}>{form.costPerSoldPieceShown}</a> <small>{give}</small>
      </td>
      <td class="number">
        <a href={trailHref(form.trail)}>{all}</a>
      </td>
    </tr>
  )
}
