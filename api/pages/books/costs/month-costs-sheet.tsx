import type { MonthReport } from '../../../../db/reports/month.ts'
import { decimal } from '../../../../shared/decimal.ts'
import { monthAfter, monthBefore, type Month } from '../../../../shared/month.ts'
import { csvHref } from '../reports/csv-link.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { ByLayer, LayerKey } from './by-layer.tsx'

type Costs = NonNullable<MonthReport['costs']>

interface CostsProps {
  readonly report: MonthReport
  readonly costs: Costs
  readonly voice: Voice
}

interface CostsSheetProps {
  readonly report: MonthReport
  readonly voice: Voice
  /** The latest month there can be. */
  readonly latest: Month
}

/** What a month cost, by where it went and by what for, on a sheet of its own. */
export function CostsSheet({ report, voice, latest }: CostsSheetProps) {
  const { costs } = report
  if (costs === null) return null
  return (
    <article class="sheet piece">
      <Head report={report} voice={voice} latest={latest} />
      <Sum report={report} costs={costs} voice={voice} />
      <WhereItWent report={report} costs={costs} voice={voice} />
      <FormByForm report={report} costs={costs} voice={voice} />
      <Paid report={report} costs={costs} voice={voice} />
      <LayerKey />
    </article>
  )
}

function Head({ report, voice, latest }: CostsSheetProps) {
  const { month } = report
  const other = (one: Month, words: string) => (
    <a class="button" href={`/books/month/${one}/costs`}>
      {words}
    </a>
  )
  return (
    <>
      <h1>{voice.month(month)}: what the month cost</h1>
      <p class="of-whom">
        <strong>{voice.studio.name}</strong> · all clays, glazes and fires together ·{' '}
        {report.isClosed ? 'closed' : 'still open'} · printed {voice.moment(voice.now)}
      </p>
      <nav class="off-paper" aria-label="Which month">
        <p class="row">
          {other(monthBefore(month), `← ${voice.month(monthBefore(month))}`)}
          {month < latest ? other(monthAfter(month), `${voice.month(monthAfter(month))} →`) : null}
          <a class="button" href={`/books/month/${month}`}>
            The month’s sheet
          </a>
        </p>
        <p class="row">
          <button type="button" data-print hidden>
            Print
          </button>
          <a class="button" href={csvHref('/v1/reports/month', { month, table: 'costs' })}>
            Costs as CSV
          </a>
          <a class="button" href={csvHref('/v1/reports/month', { month, table: 'forms' })}>
            Forms as CSV
          </a>
        </p>
      </nav>
    </>
  )
}

/** Opening and what came in, less closing: the cost, in numbers that a hand can add up. */
function Sum({ report, costs, voice }: CostsProps) {
  const trailOf = (name: string) => report.summary.find(({ row }) => row === name)?.trail
  const lines = [
    { words: 'There was', amount: costs.opening.total, trail: trailOf('opening') },
    {
      words: '+ came in: bought, burnt by kilns, charged for their wear',
      amount: costs.cameIn.total,
      trail: costs.trail,
    },
    { words: '− is left', amount: costs.closing.total, trail: trailOf('closing') },
  ]
  return (
    <section>
      <h2>From what was there to what the month cost</h2>
      <table class="ledger">
        <tbody>
          {lines.map(({ words, amount, trail }) => (
            <tr>
              <th scope="row">{words}</th>
              <td class="number">
                <a href={trailHref(trail ?? costs.trail)}>{voice.money(amount)}</a>
              </td>
            </tr>
          ))}
          <tr class="balance">
            <th scope="row">= what the month cost</th>
            <td class="number">
              <a href={trailHref(costs.trail)}>{voice.money(costs.total.shown.total)}</a>
            </td>
          </tr>
        </tbody>
      </table>
      <p class="told">A purchase is not a cost: what was bought and is still here is not in it.</p>
    </section>
  )
}

/** How the entries behind a row are found. */
const FILTER_OF_ROW: Readonly<Record<string, string>> = {
  sold: 'flow=sold',
  given_away: 'flow=given_away',
  kept: 'flow=kept',
  out_of_the_door: 'place=customer',
  waste: 'place=waste',
  abnormal: 'place=abnormal',
  idle: 'place=idle',
  unexplained: 'place=unexplained',
}

function WhereItWent({ report, costs, voice }: CostsProps) {
  const { month } = report
  const hrefOf = (row: string) => {
    const filter = FILTER_OF_ROW[row]
    return trailHref(`/v1/entries?month=${month}${filter === undefined ? '' : `&${filter}`}`)
  }
  return (
    <section>
      <h2>Where it went, and what it was paid for</h2>
      <ByLayer
        label="What the month cost, by where it went"
        heading={voice.studio.currency}
        rows={[
          ...costs.rows.map(({ row, words, shown }) => ({
            name: voice.words(words),
            shown,
            href: hrefOf(row),
          })),
          {
            name: costs.total.words,
            shown: costs.total.shown,
            href: trailHref(costs.trail),
            isSum: true,
          },
        ]}
      />
      <p class="told">
        Usual losses are in the pots that came through. Those beyond what is usual for the form, and
        a kiln that fired nothing, are on no pot: they stand by themselves.
      </p>
      {Number(costs.intoKilns.total) === 0 ? null : (
        <p class="told">
          Elements and shelves for {voice.money(costs.intoKilns.total)} were put into kilns. They
          cost this month nothing: each firing pays for a little of them. How far the two agree is
          told beside the <a href="/books/firings">firings</a>.
        </p>
      )}
    </section>
  )
}

function FormByForm({ report, costs, voice }: CostsProps) {
  const { currency } = voice.studio
  if (costs.forms.length === 0) {
    return <p>Nothing was sold in this month, so no piece has a cost.</p>
  }
  const hrefOf = (formId: string) =>
    `/books/piece/${encodeURIComponent(formId)}?month=${report.month}`
  const weighed = costs.forms.flatMap((form) =>
    form.perKilogramShown === null ? [] : [{ ...form, shown: form.perKilogramShown }],
  )
  return (
    <>
      <section>
        <h2>A sold piece</h2>
        <ByLayer
          label="What a sold piece of each form cost"
          heading={`${currency} a piece`}
          rows={costs.forms.map(({ formId, formName, soldPieces, perPieceShown, trail }) => ({
            name: (
              <>
                <a href={hrefOf(formId)}>{formName}</a> <small>{soldPieces} sold</small>
              </>
            ),
            shown: perPieceShown,
            href: trailHref(trail),
          }))}
        />
      </section>
      {weighed.length === 0 ? null : (
        <section>
          <h2>A kilogram of fired pots sold</h2>
          <ByLayer
            label="What a kilogram of each form cost"
            heading={`${currency} a kg`}
            rows={weighed.map(({ formName, firedKilograms, shown, trail }) => ({
              name: (
                <>
                  {formName} <small>{kilograms(firedKilograms)} kg sold</small>
                </>
              ),
              shown,
              href: trailHref(trail),
            }))}
          />
        </section>
      )}
    </>
  )
}

const kilograms = (text: string) => decimal(text).toFixed(3)

function Paid({ report, costs, voice }: CostsProps) {
  return (
    <section>
      <h2>Paid in the month</h2>
      <table class="ledger">
        <tbody>
          {costs.paid.map(({ words, shown }) => (
            <tr>
              <th scope="row">{voice.words(words)}</th>
              <td class="number">{shown.replace('-', '−')}</td>
            </tr>
          ))}
          <tr class="balance">
            <th scope="row">together</th>
            <td class="number">
              <a href={trailHref(costs.trail)}>
                {costs.paidTotalShown} {report.currency}
              </a>
            </td>
          </tr>
        </tbody>
      </table>
      <p class="told">What was paid and what the month cost are two different sums.</p>
    </section>
  )
}
