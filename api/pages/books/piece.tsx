import type { Context } from 'hono'
import { pieceCostReport, type PieceCostReport } from '../../../db/reports/piece-cost.ts'
import { decimal } from '../../../shared/decimal.ts'
import { moneyGiveOrTake, signed } from '../../../shared/month-printed.ts'
import { isMonth, type Month } from '../../../shared/month.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import { CostSteps, type StepDrawn } from '../drawings/cost-steps.tsx'
import { show } from '../show.tsx'
import { PieceList } from './piece-list.tsx'
import { allForms } from '../things.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'

type FormCost = PieceCostReport['forms'][number]

/** What one sold piece of a form truly cost in clay. */
export const piecePages = newRouter()

piecePages.get('/books/piece', async (c) => {
  const voice = c.get('voice')
  const report = await pieceCostReport(c.get('services').db, { studioId: c.get('studioId') })
  return show(
    c,
    { title: 'What a piece costs', here: 'books' },
    <article class="sheet piece">
      <h1>What a sold piece costs</h1>
      <p class="told">
        {voice.words('With its share of what was turned off and lost. Labour is not in the books.')}
      </p>
      <PieceList report={report} voice={voice} />
    </article>,
  )
})

piecePages.get('/books/piece/:formId', async (c) => {
  const voice = c.get('voice')
  const formId = c.req.param('formId')
  const asked = monthsAsked(c)
  const { db } = c.get('services')
  const [report, forms] = await Promise.all([
    pieceCostReport(db, { studioId: c.get('studioId'), formId, ...asked }),
    allForms(c),
  ])
  const name = forms.find((form) => form.formId === formId)?.name ?? formId
  const form = report.forms[0]
  return show(
    c,
    { title: `${name}, its true cost`, here: 'books' },
    <article class="sheet piece">
      <h1>{name}: what a sold one cost</h1>
      <p class="of-whom">
        {voice.studio.name} · {timeWords(asked, voice)} · {voice.moment(voice.now)}
      </p>
      {form === undefined ? (
        <p>None of it was made yet, so nothing is known of its cost.</p>
      ) : (
        <PieceCost form={form} voice={voice} />
      )}
      <OtherForms forms={forms} formId={formId} search={new URL(c.req.url).search} />
    </article>,
  )
})

interface MonthsAsked {
  readonly from: Month | undefined
  readonly to: Month | undefined
}

/** A month by itself, or from one to another. What is no month is not asked for. */
function monthsAsked(c: Context<Environment>): MonthsAsked {
  const named = (name: string) => {
    const text = c.req.query(name)
    return text !== undefined && isMonth(text) ? text : undefined
  }
  const month = named('month')
  return { from: month ?? named('from'), to: month ?? named('to') }
}

function timeWords({ from, to }: MonthsAsked, voice: Voice): string {
  if (from !== undefined && from === to) return `sold in ${voice.month(from)}`
  const words = [
    from === undefined ? '' : ` from ${voice.month(from)}`,
    to === undefined ? '' : ` to ${voice.month(to)}`,
  ]
  return `sold${words.join('')}${from === undefined && to === undefined ? ' at any time' : ''}`
}

function PieceCost({ form, voice }: { readonly form: FormCost; readonly voice: Voice }) {
  const { currency } = voice.studio
  const told = stepsTold(form)
  const steps = told.map((step): StepDrawn => ({
    words: voice.words(step.words),
    amount: decimal(step.costPerPiece),
    says: signed(step.costPerPieceShown),
  }))
  const { costPerSoldPiece, costPerSoldPieceShown } = form
  const total =
    costPerSoldPiece === null
      ? null
      : {
          words: 'true cost of a sold piece',
          amount: decimal(costPerSoldPiece),
          says: voice.money(costPerSoldPieceShown ?? '0'),
        }
  return (
    <>
      <p class="told">{voice.words(form.words)}</p>
      <CostSteps
        id="steps"
        title={`${form.formName}: from the price of the bag to the true cost`}
        steps={steps}
        total={total}
      />
      {total === null ? null : <StepTable form={form} told={told} voice={voice} />}
      <dl class="figures">
        <div>
          <dt>Sold</dt>
          <dd>
            <a href={trailHref(form.trail)}>{form.soldPieces}</a>
            <small>
              {form.soldFirsts} firsts, {form.soldSeconds} seconds
            </small>
          </dd>
        </div>
        <div>
          <dt>Paid for them</dt>
          <dd>{voice.money(form.revenue)}</dd>
        </div>
        <div>
          <dt>They cost</dt>
          <dd>
            {voice.money(form.soldCost)}
            <small>{moneyGiveOrTake(decimal(form.soldCostUncertainty), currency)}</small>
          </dd>
        </div>
        <Beside words="Broken in the shop" some={form.brokenInShop} voice={voice} />
        <Beside words="Given away" some={form.givenAway} voice={voice} />
        <Beside words="Kept" some={form.kept} voice={voice} />
      </dl>
    </>
  )
}

/** Those that come to something; what is nothing and printed as nothing is no step. */
function stepsTold({ steps }: FormCost): FormCost['steps'] {
  return steps.filter(
    ({ costPerPiece, costPerPieceShown }) =>
      !decimal(costPerPiece).isZero() || !decimal(costPerPieceShown).isZero(),
  )
}

interface StepTableProps {
  readonly form: FormCost
  readonly told: FormCost['steps']
  readonly voice: Voice
}

function StepTable({ form, told, voice }: StepTableProps) {
  const { currency } = voice.studio
  return (
    <table class="ledger">
      <thead>
        <tr>
          <th scope="col">Step by step</th>
          <th scope="col" class="number">
            {currency} a piece
          </th>
        </tr>
      </thead>
      <tbody>
        {told.map(({ words, costPerPieceShown, sure }) => (
          <tr>
            <th scope="row">{voice.words(words)}</th>
            <td class="number">
              <a href={trailHref(form.trail)}>{signed(costPerPieceShown)}</a>{' '}
              <small>{moneyGiveOrTake(decimal(sure.standardUncertainty), currency)}</small>
            </td>
          </tr>
        ))}
        <tr class="balance">
          <th scope="row">true cost of a sold piece</th>
          <td class="number">
            <a href={trailHref(form.trail)}>{form.costPerSoldPieceShown}</a>{' '}
            <small>
              {moneyGiveOrTake(decimal(form.sure?.standardUncertainty ?? '0'), currency)}
            </small>
          </td>
        </tr>
      </tbody>
    </table>
  )
}

function Beside(asked: {
  readonly words: string
  readonly some: FormCost['kept']
  readonly voice: Voice
}) {
  const { words, some, voice } = asked
  if (decimal(some.pieces).isZero()) return null
  return (
    <div>
      <dt>{words}</dt>
      <dd>
        {some.pieces}
        <small>{voice.money(some.cost)} of clay</small>
      </dd>
    </div>
  )
}

function OtherForms(asked: {
  readonly forms: readonly { readonly formId: string; readonly name: string }[]
  readonly formId: string
  readonly search: string
}) {
  const others = asked.forms.filter(({ formId }) => formId !== asked.formId)
  if (others.length === 0) return null
  return (
    <nav class="off-paper" aria-label="Other forms">
      <h2>Other forms</h2>
      <p class="row">
        {others.map(({ formId, name }) => (
          <a class="button" href={`/books/piece/${encodeURIComponent(formId)}${asked.search}`}>
            {name}
          </a>
        ))}
      </p>
    </nav>
  )
}
