import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { monthsAndPeople } from '../../../../db/reports/names.ts'
import { reclaimReport, type ReclaimReport } from '../../../../db/reports/reclaim.ts'
import { RULE_WORDS } from '../../../../shared/clay-cost-rows.ts'
import type { Environment } from '../../../services.ts'
import { monthText } from '../../../schemas.ts'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { MonthRange } from '../narrowing.tsx'
import { listAsked } from '../trail/asked.ts'
import { csvHref, CsvLink } from './csv-link.tsx'

const reclaimFilters = z.strictObject({
  from: monthText('Reclaimed in this month or later.').optional(),
  to: monthText('Reclaimed in this month or earlier.').optional(),
})

type Body = ReclaimReport['bodies'][number]
type Way = Body['ways'][number]
type CostRows = ReclaimReport['bothRules']['period']['rows']

/** What an hour of reclaim is worth, clay by clay, and what clay costs under both rules for it. */
export async function showReclaim(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId, timeZone } = voice.studio
  const { from, to } = listAsked(c, reclaimFilters).filters
  const report = await reclaimReport(db, { studioId, from, to })
  const { months } = await monthsAndPeople(db, { studioId, timeZone })
  const title = 'Is reclaiming worth it?'
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <p class="in-words">{voice.words(report.words)}</p>
      <p class="quiet">{timeWords(report, voice)}</p>
      <MonthRange
        voice={voice}
        action={c.req.path}
        months={months}
        from={from}
        to={to}
        did="Reclaimed"
      />
      <Hour hourlyFigure={report.hourlyFigure} voice={voice} />
      {report.bodies.map((body) => (
        <BodyWorth body={body} voice={voice} />
      ))}
      <BothRules report={report} voice={voice} />
      <CsvLink href={csvHref('/v1/reports/reclaim', { from, to })} />
    </>,
  )
}

function timeWords({ from, to }: Pick<ReclaimReport, 'from' | 'to'>, voice: Voice): string {
  if (from === null && to === null) return 'Since the books began.'
  if (from !== null && from === to) return `In ${voice.month(from)}.`
  const since = from === null ? 'Since the books began' : `From ${voice.month(from)}`
  return to === null ? `${since}, up to now.` : `${since} to ${voice.month(to)}.`
}

function Hour({ hourlyFigure, voice }: { hourlyFigure: string | null; voice: Voice }) {
  if (hourlyFigure !== null) {
    return <p>You said that an hour is to be worth {voice.money(hourlyFigure)} to you.</p>
  }
  return (
    <p class="hint">
      What your hour is to be worth you can say in the <a href="/books/studio">settings</a>.
    </p>
  )
}

function BodyWorth({ body, voice }: { body: Body; voice: Voice }) {
  const { bodyName, reclaimedDryGrams, bought, boughtWords, words, ways, trail } = body
  return (
    <section class="report-of">
      <h2>{bodyName}</h2>
      <p>
        <a href={trailHref(trail)}>{voice.mass(reclaimedDryGrams)} dry</a> came back.{' '}
        {bought === null ? null : (
          <>
            In the bag a dry {voice.mass('1000')} costs{' '}
            <a href={trailHref(bought.trail)}>{voice.money(bought.pricePerDryKilogram)}</a>.{' '}
          </>
        )}
        <span class="quiet">{voice.words(boughtWords)}</span>
      </p>
      <WaysTable ways={ways} voice={voice} />
      {ways.map((way) => (
        <p>{voice.words(way.words)}</p>
      ))}
      {ways.some((way) => way.words === words) ? null : <p class="quiet">{voice.words(words)}</p>}
    </section>
  )
}

const WAY_NAMES = { by_hand: 'by hand', by_mill: 'through the mill' } as const

function WaysTable({ ways, voice }: { ways: readonly Way[]; voice: Voice }) {
  return (
    <div class="across">
      <table>
        <thead>
          <tr>
            <th scope="col">How</th>
            <th scope="col" class="number">
              Dry clay
            </th>
            <th scope="col" class="number">
              Minutes
            </th>
            <th scope="col" class="number">
              An hour
            </th>
          </tr>
        </thead>
        <tbody>
          {ways.map(({ way, reclaimedDryGrams, minutes, worth, trail }) => (
            <tr>
              <th scope="row">
                <a href={trailHref(trail)}>{way === null ? 'not said' : WAY_NAMES[way]}</a>
              </th>
              <td class="number">{voice.mass(reclaimedDryGrams)}</td>
              <td class="number">{minutesWords(minutes)}</td>
              <td class="number">
                {worth === null ? 'not known' : voice.money(worth.worthPerHour)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function minutesWords(minutes: string): string {
  return minutes === '0' ? 'none told' : Number(minutes).toFixed(0)
}

function BothRules({ report, voice }: { report: ReclaimReport; voice: Voice }) {
  const { period, allTime, words } = report.bothRules
  const isNarrowed = report.from !== null || report.to !== null
  return (
    <section>
      <h2>Who pays for the clay that is reclaimed?</h2>
      <p>{voice.words(words)}</p>
      {isNarrowed ? (
        <RulesTable caption={timeWords(report, voice)} rows={period.rows} voice={voice} />
      ) : null}
      <RulesTable caption="Since the books began, up to now" rows={allTime.rows} voice={voice} />
    </section>
  )
}

function RulesTable(props: { caption: string; rows: CostRows; voice: Voice }) {
  const { caption, rows, voice } = props
  return (
    <div class="across">
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">The cost of clay</th>
            <th scope="col" class="number">
              {RULE_WORDS.byMass}
            </th>
            <th scope="col" class="number">
              {RULE_WORDS.atNil}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ words, byMass, atNil, trail }) => (
            <tr>
              <th scope="row">
                <a href={trailHref(trail)}>{voice.words(words)}</a>
              </th>
              <td class="number">{voice.money(byMass)}</td>
              <td class="number">{voice.money(atNil)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
