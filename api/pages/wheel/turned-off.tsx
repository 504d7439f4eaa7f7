import type { RunTraced } from '../../../db/reports/runs.ts'
import type { TurningReport } from '../../../db/reports/turning.ts'
import { decimal } from '../../../shared/decimal.ts'
import { turningHabitWords, type TurningHabit } from '../../../shared/turning-habit.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'

interface TurnedOffProps {
  readonly run: RunTraced
  readonly turning: TurningReport
  readonly voice: Voice
}

/** What was turned off a run, beside what is usual for its form. */
export function TurnedOff({ run, turning, voice }: TurnedOffProps) {
  const point = turning.points.find(({ runId }) => runId === run.runId)
  if (point === undefined) return null
  const habit = habitOf(turning)
  return (
    <section>
      <h2>{voice.words('Turned off')}</h2>
      <dl class="figures">
        <div>
          <dt>of its dry clay</dt>
          <dd>
            <a href={trailHref(point.trail)}>{voice.share(point.turnedOffFraction)}</a>
            <small>{voice.mass(point.turnedOffDryGrams)} dry</small>
          </dd>
        </div>
      </dl>
      <p>
        {habit === undefined
          ? voice.words('Too few runs of this form were turned to say what is usual.')
          : voice.words(turningHabitWords(decimal(point.turnedOffFraction), habit))}{' '}
        <a href={`/books/turning/${run.formId}`}>{voice.words('The turning of this form')}</a>
      </p>
    </section>
  )
}

/** The limits that chance keeps within, where a form was turned often enough. */
export function habitOf({ chart }: TurningReport): TurningHabit | undefined {
  if (chart === null) return undefined
  return {
    centreFraction: decimal(chart.centreFraction),
    lowerLimitFraction: decimal(chart.lowerLimitFraction),
    upperLimitFraction: decimal(chart.upperLimitFraction),
  }
}
