import type { Context } from 'hono'
import {
  turningOverview,
  turningReport,
  type TurningReport,
} from '../../../../db/reports/turning.ts'
import { present } from '../../../../shared/assert.ts'
import type { Environment } from '../../../services.ts'
import { TurningChart } from '../../drawings/turning-chart.tsx'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { csvHref, CsvLink } from './csv-link.tsx'

type KilnLosses = TurningReport['kilnLosses']

/** Which forms are turned otherwise than their habit, and whether that costs pots. */
export async function showTurning(c: Context<Environment>): Promise<Response> {
  const voice = c.get('voice')
  const { studioId } = voice.studio
  const { forms, kilnLosses } = await turningOverview(c.get('services').db, { studioId })
  const title = voice.words('Turning')
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <p>
        {voice.words('What is turned off each form, of its dry clay, and whether that drifts.')}
      </p>
      {forms.length === 0 ? <p>No pots were begun yet.</p> : null}
      {forms.map(({ formName, words, isSignal, trail, runs, turnedRuns }) => (
        <section class={isSignal ? 'report-of warns' : 'report-of'}>
          <h2>
            <a href={trailHref(trail)}>{formName}</a>
          </h2>
          <p>
            {isSignal ? <strong>Look at this. </strong> : null}
            {voice.words(words)}
          </p>
          <p class="quiet">{voice.words(`${String(turnedRuns)} of ${String(runs)} runs turned`)}</p>
        </section>
      ))}
      <KilnLinks kilnLosses={kilnLosses} voice={voice} />
    </>,
  )
}

/** The turning of one form, run by run. */
export async function showTurningOf(c: Context<Environment>): Promise<Response> {
  const voice = c.get('voice')
  const { studioId } = voice.studio
  const formId = present(c.req.param('formId'), 'the address names a form')
  const report = await turningReport(c.get('services').db, { studioId, formId })
  const title = `${voice.words('Turning')}: ${report.formName}`
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <p class="in-words">{voice.words(report.words)}</p>
      <TurningChart report={report} voice={voice} />
      <Chart chart={report.chart} voice={voice} />
      <Signals signals={report.signals} voice={voice} />
      <Points report={report} voice={voice} />
      <KilnLinks kilnLosses={report.kilnLosses} voice={voice} />
      <Makers makers={report.makers} voice={voice} />
      <p>
        <a href={trailHref(report.trail)}>{voice.words('Every turning of this form')}</a>
      </p>
      <CsvLink href={csvHref(`/v1/reports/turning/${encodeURIComponent(formId)}`)} />
    </>,
  )
}

function Chart({ chart, voice }: { chart: TurningReport['chart']; voice: Voice }) {
  if (chart === null) return null
  const { centreFraction, lowerLimitFraction, upperLimitFraction, words } = chart
  return (
    <>
      <dl class="figures">
        <div>
          <dt>The habit</dt>
          <dd>{voice.share(centreFraction)}</dd>
        </div>
        <div>
          <dt>Single runs, by chance</dt>
          <dd>
            {voice.share(lowerLimitFraction)} to {voice.share(upperLimitFraction)}
          </dd>
        </div>
      </dl>
      <p class="quiet">{voice.words(words)}</p>
    </>
  )
}

function Signals({ signals, voice }: { signals: TurningReport['signals']; voice: Voice }) {
  if (signals.length === 0) return null
  const now = signals.filter(({ isNow }) => isNow)
  const past = signals.filter(({ isNow }) => !isNow)
  const list = (some: TurningReport['signals']) => (
    <ul>
      {some.map(({ words, trail }) => (
        <li>
          <a href={trailHref(trail)}>{voice.words(words)}</a>
        </li>
      ))}
    </ul>
  )
  return (
    <>
      {now.length === 0 ? null : (
        <section class="report-of warns">
          <h2>More than chance, now</h2>
          {list(now)}
        </section>
      )}
      {past.length === 0 ? null : (
        <details class="more">
          <summary>Earlier</summary>
          {list(past)}
        </details>
      )}
    </>
  )
}

function Points({ report, voice }: { report: TurningReport; voice: Voice }) {
  const { points, waterWords, notTurnedRuns, untoldRuns } = report
  return (
    <>
      <h2>Run by run</h2>
      <p class="quiet">{voice.words(waterWords)}</p>
      {points.length === 0 ? <p>{voice.words('None was turned yet.')}</p> : null}
      <div class="across">
        <table>
          <thead>
            <tr>
              <th scope="col">Thrown</th>
              <th scope="col" class="number">
                {voice.words('Turned off')}
              </th>
              <th scope="col" class="number">
                Lost in the kilns
              </th>
            </tr>
          </thead>
          <tbody>
            {points.toReversed().map((point) => (
              <Point point={point} voice={voice} />
            ))}
          </tbody>
        </table>
      </div>
      {notTurnedRuns === 0 ? null : (
        <p class="quiet">{voice.words(`${String(notTurnedRuns)} not turned, and left out.`)}</p>
      )}
      {untoldRuns === 0 ? null : (
        <p class="quiet">
          {untoldRuns} left out, because less was on the books before than came off.
        </p>
      )}
    </>
  )
}

function Point({ point, voice }: { point: TurningReport['points'][number]; voice: Voice }) {
  const { thrownAt, turnedOffFraction, turnedOffDryGrams, firedPieces, lostPieces } = point
  return (
    <tr>
      <th scope="row">
        <a href={trailHref(point.trail)}>{voice.day(thrownAt)}</a>
        {point.signals.length === 0 ? null : <small>more than chance</small>}
      </th>
      <td class="number">
        {voice.share(turnedOffFraction)}
        <small>{voice.mass(turnedOffDryGrams)} dry</small>
      </td>
      <td class="number">
        {firedPieces === null ? 'not yet' : `${String(lostPieces ?? 0)} of ${String(firedPieces)}`}
      </td>
    </tr>
  )
}

function KilnLinks({ kilnLosses, voice }: { kilnLosses: KilnLosses; voice: Voice }) {
  const { byTurnedOff, byDryMass, runsNotThrough } = kilnLosses
  return (
    <>
      <h2>Does it cost pots in the kiln?</h2>
      <p>{voice.words(byTurnedOff.words)}</p>
      <p>{voice.words(byDryMass.words)}</p>
      {runsNotThrough === 0 ? null : (
        <p class="quiet">
          {runsNotThrough} {runsNotThrough === 1 ? 'run does' : 'runs do'} not count yet: pots of
          theirs wait between the kilns.
        </p>
      )}
    </>
  )
}

/** Only where the studio compares makers; there is no word of them otherwise. */
function Makers({ makers, voice }: { makers: TurningReport['makers']; voice: Voice }) {
  if (makers === undefined) return null
  return (
    <>
      <h2>Who threw them</h2>
      <p>{voice.words(makers.words)}</p>
      {makers.findings.map((words) => (
        <p>{voice.words(words)}</p>
      ))}
    </>
  )
}
