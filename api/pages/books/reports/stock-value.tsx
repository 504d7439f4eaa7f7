import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { stockValueReport, type StockValueReport } from '../../../../db/reports/stock-value.ts'
import { PLACE_WORDS } from '../../../../shared/place.ts'
import { wallDay } from '../../../../shared/studio-clock.ts'
import type { Environment } from '../../../services.ts'
import { TextField } from '../../fields.tsx'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import { Typed } from '../../typed.ts'
import type { Voice } from '../../voice.ts'
import { ByLayer, LayerKey } from '../costs/by-layer.tsx'
import { listAsked } from '../trail/asked.ts'
import { csvHref, CsvLink } from './csv-link.tsx'

const valueFilters = z.strictObject({ on: z.iso.date().optional() })

interface Shown {
  readonly report: StockValueReport
  readonly voice: Voice
}

/** What the stock had cost at the end of a day, for whoever keeps the accounts. */
export async function showStockValue(c: Context<Environment>): Promise<Response> {
  const voice = c.get('voice')
  const { studioId, timeZone } = voice.studio
  const today = wallDay(voice.now, timeZone)
  const { on } = listAsked(c, valueFilters).filters
  const report = await stockValueReport(c.get('services').db, { studioId, on })
  const title = 'What the stock is worth'
  return show(
    c,
    { title, here: 'books' },
    <article class="sheet piece">
      <h1>{title}</h1>
      <p class="of-whom">
        <strong>{voice.studio.name}</strong> · {on === undefined ? 'now, ' : 'at the end of '}
        {voice.day(on ?? today)} · printed {voice.moment(voice.now)}
      </p>
      <OfWhichDay on={on ?? today} today={today} voice={voice} />
      <p class="told">{voice.words(report.words)}</p>
      <Groups report={report} voice={voice} />
      <Places report={report} voice={voice} />
      <Finished report={report} voice={voice} />
      <LayerKey />
      <CsvLink href={csvHref('/v1/reports/stock-value', { on })} />
      <p class="off-paper">
        <a
          class="button"
          href={csvHref('/v1/reports/stock-value', { on, table: 'finished' })}
          download
        >
          Finished pots (CSV)
        </a>
      </p>
    </article>,
  )
}

/** Days on which a year of accounts often ends. */
const YEAR_ENDS = ['12-31', '03-31', '04-05']

/** The last one before a day. */
function lastOf(yearEnd: string, today: string): string {
  const year = Number(today.slice(0, 'yyyy'.length))
  const thisYear = `${String(year)}-${yearEnd}`
  return thisYear < today ? thisYear : `${String(year - 1)}-${yearEnd}`
}

function OfWhichDay(asked: { readonly on: string; readonly today: string; readonly voice: Voice }) {
  const { on, today, voice } = asked
  return (
    <div class="off-paper">
      <p class="row">
        {YEAR_ENDS.map((yearEnd) => lastOf(yearEnd, today)).map((day) => (
          <a
            class="button"
            href={`/books/stock-value?on=${day}`}
            aria-current={on === day ? 'page' : undefined}
          >
            {voice.day(day)}
          </a>
        ))}
      </p>
      <form method="get" action="/books/stock-value">
        <TextField
          name="on"
          label="At the end of another day"
          type="date"
          typed={new Typed(`on=${on}`)}
        />
        <button>Show that day</button>
      </form>
    </div>
  )
}

const GROUP_NAMES: Readonly<Record<string, string>> = {
  raw: 'raw',
  in_making: 'in the making',
  finished: 'finished',
}

function Groups({ report, voice }: Shown) {
  return (
    <section>
      <h2>Raw, in the making, finished</h2>
      <ByLayer
        label="The stock by what it is"
        heading={voice.studio.currency}
        rows={[
          ...report.groups.map(({ group, shown }) => ({
            name: GROUP_NAMES[group] ?? group,
            shown,
            href: undefined,
          })),
          {
            ...{ name: 'all the stock', shown: report.total.shown, isSum: true },
            href: trailHref(report.total.trail),
          },
        ]}
      />
      <ul>
        {report.groups.map(({ words }) => (
          <li>{voice.words(words)}</li>
        ))}
      </ul>
    </section>
  )
}

function Places({ report, voice }: Shown) {
  if (report.places.length === 0) return <p>Nothing was here.</p>
  return (
    <section>
      <h2>Where it lay</h2>
      <ByLayer
        label="The stock by where it lay"
        heading={voice.studio.currency}
        rows={report.places.map(({ place, pieces, shown, trail }) => ({
          name: (
            <>
              {voice.words(PLACE_WORDS[place])}{' '}
              {pieces === '0' ? null : <small>{pieces} counted</small>}
            </>
          ),
          shown,
          href: trailHref(trail),
        }))}
      />
    </section>
  )
}

function Finished({ report, voice }: Shown) {
  const { finished } = report
  if (finished.length === 0) return null
  const isAnyAbove = finished.some(({ isCostAbovePrice }) => isCostAbovePrice)
  return (
    <section>
      <h2>Finished pots beside what they sell at</h2>
      <table class="ledger">
        <thead>
          <tr>
            <th scope="col">{voice.studio.currency}</th>
            <th scope="col" class="number">
              pieces
            </th>
            <th scope="col" class="number">
              cost one
            </th>
            <th scope="col" class="number">
              price
            </th>
          </tr>
        </thead>
        <tbody>
          {finished.map(({ formName, grade, pieces, costPerPiece, price, trail, ...said }) => (
            <tr>
              <th scope="row">
                {formName}, {grade}s {said.isCostAbovePrice ? <strong>{said.words}</strong> : null}
                {price === null ? <small>{said.words}</small> : null}
              </th>
              <td class="number">
                <a href={trailHref(trail)}>{pieces}</a>
              </td>
              <td class="number">
                <a href={trailHref(trail)}>{voice.money(costPerPiece.total)}</a>
              </td>
              <td class="number">{price === null ? 'none said' : voice.money(price)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="told">
        {isAnyAbove ? '' : 'None of them cost more than it sells at. '}
        Stock is to stand at what it cost or at what it will fetch, whichever is lower (IAS 2, ¶9).
        Which of the two counts is the accountant’s to say: nothing was written down here.
      </p>
    </section>
  )
}
