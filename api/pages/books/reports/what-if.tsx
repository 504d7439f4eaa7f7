import type { Context } from 'hono'
import { whatIfReport, type WhatIfReport } from '../../../../db/reports/what-changes-if.ts'
import { ALL_LAYERS, LAYER_WORDS } from '../../../../shared/cost-layer.ts'
import { decimal } from '../../../../shared/decimal.ts'
import { minorUnitDigits } from '../../../../shared/money.ts'
import { eachColumn } from '../../../../shared/money-accounted.ts'
import { moneyShown, type MoneyShown } from '../../../../shared/month-costs.ts'
import { printedParts, signed } from '../../../../shared/month-printed.ts'
import { faultsOf, FaultOfForm } from '../../../faults.ts'
import type { Environment } from '../../../services.ts'
import { changeOf, whatIfAsked, type WhatIfChanges } from '../../../what-if-asked.ts'
import { FaultSummary } from '../../fields.tsx'
import { show } from '../../show.tsx'
import { allForms } from '../../things.ts'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { faultsForPage } from '../../page-faults.ts'
import { filledFields } from '../trail/asked.ts'
import { FIELD_OF, WhatIfForm } from './what-if-form.tsx'

interface Shown {
  readonly report: WhatIfReport
  readonly voice: Voice
}

/** What a sold piece would cost if prices, losses or the filling of the kiln changed. */
export async function showWhatIf(c: Context<Environment>): Promise<Response> {
  const voice = c.get('voice')
  const forms = await allForms(c)
  const typed = new Map(filledFields(c))
  const { asked, faults } = readAsked(typed, voice)
  const [first] = forms
  const formId = asked?.formId ?? typed.get('formId') ?? first?.formId
  const report =
    asked === undefined
      ? undefined
      : await whatIfReport(c.get('services').db, reportAsked(c, asked))
  const title = 'What if?'
  return show(
    c,
    { title, here: 'books', status: faults === undefined ? 200 : 422 },
    <article class="sheet piece">
      <h1>{title}</h1>
      <p class="told">
        From what a sold piece cost so far. Fill in what you want to know about; what stays empty
        stays as it is.
      </p>
      <FaultSummary faults={faults} />
      {forms.length === 0 ? (
        <p>There are no forms yet.</p>
      ) : (
        <WhatIfForm forms={forms} formId={formId} typed={typed} faults={faults} />
      )}
      {report === undefined ? null : (
        <Answer
          report={report}
          voice={voice}
          name={forms.find((form) => form.formId === report.formId)?.name ?? report.formId}
        />
      )}
    </article>,
  )
}

type Asked = WhatIfChanges & { readonly formId: string }

function reportAsked(c: Context<Environment>, { formId, ...changes }: Asked) {
  return { studioId: c.get('studioId'), formId, change: changeOf(changes) }
}

/** What the form was filled in with, as the API would be asked; nothing where no form was chosen yet. */
function readAsked(typed: ReadonlyMap<string, string>, voice: Voice) {
  if (!typed.has('formId')) return { asked: undefined, faults: undefined }
  const said = [...typed].map(([name, text]) => [
    name,
    name === 'formId' ? text : plainNumber(text),
  ])
  const read = whatIfAsked.safeParse(Object.fromEntries(said))
  if (read.success) return { asked: read.data, faults: undefined }
  const wrong = faultsOf(read.error.issues, 'body')
  const { faults } = faultsForPage(new FaultOfForm(wrong), FIELD_OF, voice)
  return { asked: undefined, faults }
}

/** As it is typed by hand: a comma, a sign, a percent sign after it. */
function plainNumber(text: string): string {
  return text.trim().replace(',', '.').replace('−', '-').replace(/^\+/, '').replace(/\s*%$/, '')
}

function Answer({ report, voice, name }: Shown & { readonly name: string }) {
  const { before, effects } = report
  if (before === null || effects === null) {
    return <p class="in-words">{voice.words(report.words)}</p>
  }
  return (
    <>
      <h2>{name}: a sold piece</h2>
      <p class="in-words">{voice.words(report.words)}</p>
      <Changed {...{ before, effects, voice }} trail={report.trail} />
      {report.prices === null ? null : <Prices prices={report.prices} voice={voice} />}
      <p class="quiet">
        A price changes in the piece and in the lost ones that it pays for. A fuller kiln is taken
        to need no more energy, which flatters a little.
      </p>
    </>
  )
}

type Before = NonNullable<WhatIfReport['before']>
type EffectsTold = NonNullable<WhatIfReport['effects']>

interface ChangedProps {
  readonly before: Before
  readonly effects: EffectsTold
  readonly voice: Voice
  readonly trail: string
}

/** Its own and its share of the lost, layer by layer, printed so that they add up. */
function printedByLayer(cost: Pick<Before, 'own' | 'ofLost' | 'total'>, voice: Voice): MoneyShown {
  const money = eachColumn((column) =>
    column === 'total' ? decimal(cost.total) : decimal(cost.own[column]).plus(cost.ofLost[column]),
  )
  return moneyShown(money, minorUnitDigits(voice.studio.currency))
}

function Changed({ before, effects, voice, trail }: ChangedProps) {
  const now = printedByLayer(before, voice)
  const then = printedByLayer(effects.together, voice)
  const told = ALL_LAYERS.filter((layer) =>
    [now, then].some((shown) => !decimal(shown[layer]).isZero()),
  )
  return (
    <>
      <table class="ledger">
        <thead>
          <tr>
            <th scope="col">{voice.studio.currency} a piece</th>
            <th scope="col" class="number">
              now
            </th>
            <th scope="col" class="number">
              then
            </th>
          </tr>
        </thead>
        <tbody>
          {told.map((layer) => (
            <tr>
              <th scope="row">{LAYER_WORDS[layer]}</th>
              <td class="number">
                <a href={trailHref(trail)}>{now[layer]}</a>
              </td>
              <td class="number">{then[layer]}</td>
            </tr>
          ))}
          <tr class="balance">
            <th scope="row">a sold piece</th>
            <td class="number">
              <a href={trailHref(trail)}>{now.total}</a>
            </td>
            <td class="number">{then.total}</td>
          </tr>
        </tbody>
      </table>
      {effects.alone.length === 0 ? null : (
        <Effects
          effects={effects}
          difference={decimal(then.total)
            .minus(now.total)
            .toFixed(minorUnitDigits(voice.studio.currency))}
          voice={voice}
        />
      )}
    </>
  )
}

function Effects(asked: {
  readonly effects: EffectsTold
  /** Then less now, as printed. */
  readonly difference: string
  readonly voice: Voice
}) {
  const { effects, difference, voice } = asked
  const { alone, interplay } = effects
  const rows = [
    ...alone.map(({ words, after }) => ({ words, amount: after.difference })),
    { words: 'what they do to each other', amount: interplay },
  ].filter(({ amount }, index) => index < alone.length || !decimal(amount).isZero())
  const shown = printedParts(
    difference,
    rows.map(({ amount }) => decimal(amount)),
    minorUnitDigits(voice.studio.currency),
  )
  return (
    <section>
      <h2>Each by itself</h2>
      <table class="ledger">
        <tbody>
          {rows.map(({ words }, index) => (
            <tr>
              <th scope="row">{voice.words(words)}</th>
              <td class="number">{signed(shown[index] ?? '0')}</td>
            </tr>
          ))}
          <tr class="balance">
            <th scope="row">all together</th>
            <td class="number">{signed(difference)}</td>
          </tr>
        </tbody>
      </table>
    </section>
  )
}

function Prices(asked: {
  readonly prices: NonNullable<WhatIfReport['prices']>
  readonly voice: Voice
}) {
  const { prices, voice } = asked
  return (
    <dl class="figures">
      <div>
        <dt>Price that leaves you the same money</dt>
        <dd>{voice.money(prices.sameMoney)}</dd>
      </div>
      {prices.samePart === null ? null : (
        <div>
          <dt>Price of which materials stay the same part</dt>
          <dd>{voice.money(prices.samePart)}</dd>
        </div>
      )}
    </dl>
  )
}
