import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { dustReport, type DustReport } from '../../../../db/reports/dust.ts'
import { monthsAndPeople } from '../../../../db/reports/names.ts'
import { monthOf } from '../../../../shared/month.ts'
import type { Environment } from '../../../services.ts'
import { monthText } from '../../../schemas.ts'
import { KIND_WORDS } from '../../entry-words.ts'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { MonthsAround } from '../narrowing.tsx'
import { listAsked } from '../trail/asked.ts'
import { csvHref, CsvLink } from './csv-link.tsx'

const dustFilters = z.strictObject({ month: monthText('The month.').optional() })

/** Work that raised dust in a month, with what to do instead and the limits of the place. */
export async function showDust(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId, timeZone } = voice.studio
  const month = listAsked(c, dustFilters).filters.month ?? monthOf(voice.now, timeZone)
  const report = await dustReport(db, { studioId, month })
  const { months } = await monthsAndPeople(db, { studioId, timeZone })
  const title = `Dust log, ${voice.month(month)}`
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <p class="in-words">{report.words}</p>
      <p>{report.saysNothingOf}</p>
      <MonthsAround
        voice={voice}
        month={month}
        months={months}
        hrefOf={(other) => `/books/dust?month=${other}`}
      />
      <Days entries={report.entries} voice={voice} />
      <Instead entries={report.entries} />
      <Limits report={report} voice={voice} />
      <CsvLink href={csvHref('/v1/reports/dust', { month })} />
    </>,
  )
}

type Entries = DustReport['entries']

function Days({ entries, voice }: { entries: Entries; voice: Voice }) {
  if (entries.length === 0) return null
  return (
    <>
      <ul class="happened">
        {entries.map((entry) => (
          <li class={entry.isTakenBack ? 'taken-back' : undefined}>
            <a href={trailHref(entry.trail)}>
              {entry.isTakenBack ? <strong>Taken back since. </strong> : null}
              {voice.words(KIND_WORDS[entry.kind])}: {entry.bodyName}
            </a>
            <span class="quiet">
              {voice.moment(entry.happenedAt)}
              {entry.recordedBy === null ? '' : `, ${entry.recordedBy}`}
            </span>
            {entry.cautions.map(({ why }) => (
              <p>{why}</p>
            ))}
            {entry.note === null ? null : <q>{entry.note}</q>}
          </li>
        ))}
      </ul>
      <p class="hint">
        What you did about it stands in the note of an entry: wetted first, a respirator, out of
        doors. Write it there when you weigh in.
      </p>
    </>
  )
}

/** What to do instead, each once. */
function Instead({ entries }: { entries: Entries }) {
  const advice = new Set(
    entries.flatMap(({ cautions }) => cautions.flatMap(({ instead }) => instead)),
  )
  if (advice.size === 0) return null
  return (
    <>
      <h2>What to do instead</h2>
      <ul>
        {[...advice].map((words) => (
          <li>{words}</li>
        ))}
      </ul>
    </>
  )
}

function Limits({ report, voice }: { report: DustReport; voice: Voice }) {
  return (
    <>
      <h2>Published limits here</h2>
      <p class="quiet">For respirable crystalline silica in the air that a person breathes.</p>
      <ul class="happened">
        {report.limits.map((limit) => (
          <li>
            <strong>
              {limit.milligramsPerCubicMetre} mg/m³ over {limit.averagedOver}
            </strong>
            : {limit.name}, {limit.authority}
            <span class="quiet">
              <br />
              {limit.document}, {voice.month(limit.asOf)}, {limit.standing}. {limit.note}
            </span>
          </li>
        ))}
      </ul>
      <p>{report.deferTo}</p>
    </>
  )
}
