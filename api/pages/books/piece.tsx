import type { Context } from 'hono'
import { pieceCostReport } from '../../../db/reports/piece-cost.ts'
import { isMonth, type Month } from '../../../shared/month.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import { show } from '../show.tsx'
import { PieceCost } from './costs/piece-cost.tsx'
import { PieceList } from './piece-list.tsx'
import { allForms } from '../things.ts'
import type { Voice } from '../voice.ts'

/** What one sold piece of a form truly cost. */
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
        {voice.words(
          'Clay, glaze, fire, wear of the kiln and packing, with its share of what was turned off and lost. Labour is not in the books.',
        )}
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
        <PieceCost form={form} voice={voice} months={asked} />
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
