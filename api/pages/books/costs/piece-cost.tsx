import type { PieceCostReport } from '../../../../db/reports/piece-cost.ts'
import { ALL_LAYERS, LAYER_WORDS } from '../../../../shared/cost-layer.ts'
import { decimal } from '../../../../shared/decimal.ts'
import { moneyGiveOrTake, signed } from '../../../../shared/month-printed.ts'
import { CostSteps, type StepDrawn } from '../../drawings/cost-steps.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { ByHand, type MonthsOfCost } from './by-hand.tsx'

type FormCost = PieceCostReport['forms'][number]

interface PieceCostProps {
  readonly form: FormCost
  readonly voice: Voice
  readonly months: MonthsOfCost
}

/** What a sold piece of a form cost: step by step, by what it was paid for, and how to work it out by hand. */
export function PieceCost({ form, voice, months }: PieceCostProps) {
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
      <PaidFor form={form} voice={voice} />
      <ByHand form={form} voice={voice} months={months} />
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
        <small>cost {voice.money(some.cost)}</small>
      </dd>
    </div>
  )
}

/** The same cost by what it was paid for. */
function PaidFor({ form, voice }: { readonly form: FormCost; readonly voice: Voice }) {
  const { costByLayer, costByLayerShown, costPerSoldPieceShown, trail } = form
  if (costByLayer === null || costByLayerShown === null) return null
  return (
    <section>
      <h2>By what it was paid for</h2>
      <table class="ledger">
        <thead>
          <tr>
            <th scope="col">What for</th>
            <th scope="col" class="number">
              {voice.studio.currency} a piece
            </th>
          </tr>
        </thead>
        <tbody>
          {ALL_LAYERS.map((layer) => (
            <tr>
              <th scope="row">{LAYER_WORDS[layer]}</th>
              <td class="number">
                {decimal(costByLayer[layer]).isZero() ? (
                  'nothing'
                ) : (
                  <a href={trailHref(trail)}>{costByLayerShown[layer]}</a>
                )}
              </td>
            </tr>
          ))}
          <tr class="balance">
            <th scope="row">true cost of a sold piece</th>
            <td class="number">
              <a href={trailHref(trail)}>{costPerSoldPieceShown}</a>
            </td>
          </tr>
        </tbody>
      </table>
      <p class="told">
        Each with its share of what was lost on the way. Losses beyond what is usual for the form
        are not in it: they stand in the month.
      </p>
    </section>
  )
}
