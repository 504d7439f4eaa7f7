import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { lossesByCause, type LossesOfCause } from '../../../../db/reports/losses.ts'
import { monthsAndPeople } from '../../../../db/reports/names.ts'
import { yieldReport, type YieldReport } from '../../../../db/reports/yield.ts'
import { FEW_PIECES_BELOW } from '../../../../shared/yield-leaning.ts'
import type { Environment } from '../../../services.ts'
import { monthText } from '../../../schemas.ts'
import { show } from '../../show.tsx'
import { YieldBars } from '../../drawings/yield-bars.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { MonthRange } from '../narrowing.tsx'
import { LOST_PIECES, PIECE_WORDS, STAGE_WORDS } from '../stage-words.ts'
import { listAsked } from '../trail/asked.ts'
import { LOSS_STAGE_WORDS } from '../trail/run.tsx'
import { csvHref, CsvLink } from './csv-link.tsx'

const yieldFilters = z.strictObject({
  from: monthText('Thrown in this month or later.').optional(),
  to: monthText('Thrown in this month or earlier.').optional(),
})

/** What came through each stage, form by form, and what was lost why. */
export async function showYield(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId, timeZone } = voice.studio
  const { from, to } = listAsked(c, yieldFilters).filters
  const report = await yieldReport(db, { studioId, from, to })
  const losses = await lossesByCause(db, { studioId, from, to })
  const { months } = await monthsAndPeople(db, { studioId, timeZone })
  const title = 'What comes through'
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <p>{rangeWords(report, voice)}</p>
      <MonthRange voice={voice} action={c.req.path} months={months} from={from} to={to} />
      {report.forms.length === 0 ? <p>No pots were begun in these months.</p> : null}
      {report.forms.map((form) => (
        <FormYield
          form={form}
          losses={losses.filter(({ formId }) => formId === form.formId)}
          voice={voice}
        />
      ))}
      <Together figures={report.oneOffs} heading="One-offs together" voice={voice} />
      <Together figures={report.allForms} heading="All forms" voice={voice} />
      <HowToRead />
      <CsvLink href={csvHref('/v1/reports/yield', { from, to })} />
    </>,
  )
}

function rangeWords({ from, to }: Pick<YieldReport, 'from' | 'to'>, voice: Voice): string {
  if (from === null && to === null) return 'All pots that were ever begun here.'
  if (from !== null && from === to) return `Pots thrown in ${voice.month(from)}.`
  const since = from === null ? '' : ` from ${voice.month(from)}`
  const until = to === null ? '' : ` up to ${voice.month(to)}`
  return `Pots thrown${since}${until}.`
}

type OneForm = YieldReport['forms'][number]

function FormYield(props: { form: OneForm; losses: readonly LossesOfCause[]; voice: Voice }) {
  const { form, losses, voice } = props
  const { pieces, stages, runs, trail, formName } = form
  return (
    <section class="report-of">
      <h2>{formName}</h2>
      <p>
        <a href={trailHref(trail)}>{pieces.thrown} begun</a> in {runs} {runs === 1 ? 'run' : 'runs'}
        {pieces.openedWith === '0' ? '' : `, ${pieces.openedWith} here before the books began`}.
      </p>
      <YieldBars
        id={`yield-${form.formId}`}
        title={`${formName}: what comes through each stage`}
        stages={stages.map(({ stage, estimate }) => drawn(stage, estimate, voice))}
      />
      {stages.some(({ estimate }) => estimate.basis === 'leans_on_all_forms') ? (
        <p>Few pieces: they lean on what all forms show.</p>
      ) : null}
      <details class="more">
        <summary>Stage by stage</summary>
        <dl class="stages">
          {stages.map(({ stage, estimate }) => (
            <StageLine stage={stage} estimate={estimate} voice={voice} />
          ))}
        </dl>
      </details>
      <LostPieces pieces={pieces} losses={losses} voice={voice} />
    </section>
  )
}

type StageOfForm = OneForm['stages'][number]

/** A stage as it is drawn; what rests on few pieces leans on all forms there too. */
function drawn(stage: StageOfForm['stage'], estimate: StageOfForm['estimate'], voice: Voice) {
  const { yieldFraction, interval95 } = estimate
  const range =
    interval95 === null ? '' : ` (${voice.share(interval95.from)} to ${voice.share(interval95.to)})`
  return {
    words: voice.words(STAGE_WORDS[stage]),
    says: yieldFraction === null ? 'not yet known' : `${voice.share(yieldFraction)}${range}`,
    share: yieldFraction === null ? null : Number(yieldFraction),
    interval: interval95 && { from: Number(interval95.from), to: Number(interval95.to) },
  }
}

/** The share to reckon with, its range, and what it rests on. */
function StageLine(props: Pick<StageOfForm, 'stage' | 'estimate'> & { voice: Voice }) {
  const { stage, estimate, voice } = props
  return (
    <>
      <dt>{voice.words(STAGE_WORDS[stage])}</dt>
      <dd>
        <ShareWords {...estimate} voice={voice} />
        <small>{voice.words(estimate.words)}</small>
      </dd>
    </>
  )
}

function ShareWords(props: {
  yieldFraction: string | null
  interval95: { from: string; to: string } | null
  voice: Voice
}) {
  const { yieldFraction, interval95, voice } = props
  if (yieldFraction === null) return <>not yet known</>
  return (
    <>
      {voice.share(yieldFraction)}
      {interval95 === null ? null : (
        <span class="interval">
          {' '}
          ({voice.share(interval95.from)} to {voice.share(interval95.to)})
        </span>
      )}
    </>
  )
}

function LostPieces(props: {
  pieces: OneForm['pieces']
  losses: readonly LossesOfCause[]
  voice: Voice
}) {
  const { pieces, losses, voice } = props
  const lost = LOST_PIECES.filter((name) => pieces[name] !== '0')
  if (lost.length === 0) return <p>None lost.</p>
  return (
    <>
      <h3>Lost</h3>
      <ul>
        {lost.map((name) => (
          <li>
            {pieces[name]} {voice.words(PIECE_WORDS[name])}
          </li>
        ))}
      </ul>
      {losses.length === 0 ? null : (
        <details class="more">
          <summary>Why</summary>
          <ul>
            {losses.map(({ stage, cause, pieces: count, trail }) => (
              <li>
                <a href={trailHref(trail)}>
                  {count}: {cause}
                </a>{' '}
                <span class="quiet">{LOSS_STAGE_WORDS[stage]}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}

function Together(props: {
  figures: YieldReport['allForms'] | YieldReport['oneOffs']
  heading: string
  voice: Voice
}) {
  const { figures, heading, voice } = props
  if (figures === null) return null
  return (
    <section class="report-of">
      <h2>{heading}</h2>
      <p>
        {voice.words(figures.words)} <a href={trailHref(figures.trail)}>{figures.runs} runs</a> of{' '}
        {figures.forms} {figures.forms === 1 ? 'form' : 'forms'}.
      </p>
      <dl class="stages">
        {figures.stages.map((stage) => (
          <>
            <dt>{voice.words(STAGE_WORDS[stage.stage])}</dt>
            <dd>
              <ShareWords {...stage} voice={voice} />
              <small>{voice.words(stage.words)}</small>
            </dd>
          </>
        ))}
      </dl>
    </section>
  )
}

function HowToRead() {
  return (
    <details class="more">
      <summary>How to read this</summary>
      <p>
        Of pieces that a stage has decided on, so many came through. Pieces that wait count neither
        way. In brackets: where the share of all pots made like this lies, 19 times in 20.
      </p>
      <p>
        A form with fewer than {FEW_PIECES_BELOW} pieces leans on what all forms show, the more the
        fewer it has. Pots belong to the month in which they were thrown, whenever they were fired.
      </p>
    </details>
  )
}
