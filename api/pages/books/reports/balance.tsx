import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { massBalance, type MassBalance } from '../../../../db/reports/mass-balance.ts'
import { monthsAndPeople } from '../../../../db/reports/names.ts'
import { monthOf } from '../../../../shared/month.ts'
import type { Environment } from '../../../services.ts'
import { idText, monthText } from '../../../schemas.ts'
import { show } from '../../show.tsx'
import { allBodies, type Body } from '../../things.ts'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { MonthsAround, Narrowing } from '../narrowing.tsx'
import { addressWith, listAsked } from '../trail/asked.ts'
import { BalanceReadings } from './balance-readings.tsx'
import { csvHref, CsvLink } from './csv-link.tsx'
import { offerAddresses, Offers, type OfferAddresses } from './offers.tsx'

const balanceFilters = z.strictObject({
  month: monthText('The month.').optional(),
  bodyId: idText('The clay.', 'buff').optional(),
})

/** Whether the weigh-ins of a month agree, and which of them fits least. */
export async function showBalance(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId, timeZone } = voice.studio
  const asked = listAsked(c, balanceFilters).filters
  const bodies = await allBodies(c)
  const bodyId = asked.bodyId ?? bodies[0]?.bodyId
  const month = asked.month ?? monthOf(voice.now, timeZone)
  const { months } = await monthsAndPeople(db, { studioId, timeZone })
  const report =
    bodyId === undefined ? undefined : await massBalance(db, { studioId, month, bodyId })
  const title = 'Do the weigh-ins agree?'
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      {report === undefined ? (
        <p>
          There is no clay yet. <a href="/books/things/bodies">Enter a clay</a>.
        </p>
      ) : (
        <>
          <p class="in-words">
            {report.bodyName}, {voice.month(month)}
            {report.isClosed ? ', closed' : ''}
          </p>
          <WhichClay voice={voice} months={months} month={month} bodies={bodies} bodyId={bodyId} />
          <MonthsAround
            voice={voice}
            month={month}
            months={months}
            hrefOf={(other) => addressWith(c, { month: other, bodyId })}
          />
          <Verdict voice={voice} report={report} addresses={await offerAddresses(c, report)} />
          <BalanceReadings report={report} voice={voice} />
          <CsvLink href={csvHref('/v1/reports/mass-balance', { month, bodyId })} />
        </>
      )}
    </>,
  )
}

interface WhichClayProps {
  readonly voice: Voice
  readonly months: readonly string[]
  readonly month: string
  readonly bodies: readonly Body[]
  readonly bodyId: string | undefined
}

function WhichClay({ voice, months, month, bodies, bodyId }: WhichClayProps) {
  const fields = new Map([
    ['month', month],
    ['bodyId', bodyId ?? ''],
  ])
  return (
    <details class="more narrow off-paper">
      <summary>Another clay or month</summary>
      <form method="get" action="/books/balance">
        <Narrowing
          name="bodyId"
          label="Clay"
          all="The first"
          options={bodies.map((body) => ({ value: body.bodyId, name: body.name }))}
          fields={fields}
        />
        <Narrowing
          name="month"
          label="Month"
          all="This month"
          options={months.map((one) => ({ value: one, name: voice.month(one) }))}
          fields={fields}
        />
        <button>Show it</button>
      </form>
    </details>
  )
}

const VERDICT_WORDS: Readonly<Record<MassBalance['verdict'], string>> = {
  agrees: 'They agree.',
  something_stands_out: 'Something stands out.',
  does_not_agree: 'They do not agree.',
  nothing_to_check: 'Nothing can be checked.',
}

/** The report's words, what stands out, and what may be done about it. */
function Verdict(props: { voice: Voice; report: MassBalance; addresses: OfferAddresses }) {
  const { voice, report, addresses } = props
  const { verdict, words, suspicions, inLine, nextWeighIn } = report
  const said = new Set(suspicions.map((one) => one.words))
  const stands = suspicions.length > 0
  return (
    <>
      <h2>{VERDICT_WORDS[verdict]}</h2>
      {words
        .filter((sentence) => !said.has(sentence))
        .map((sentence) => (
          <p>{voice.words(sentence)}</p>
        ))}
      {suspicions.map((one) => (
        <section class="report-of warns">
          <h3>
            <a href={trailHref(one.trail)}>{one.label}</a>
          </h3>
          <p>{voice.words(one.words)}</p>
          <AsWell heading="It may as well be" others={[...one.alike, ...one.nearly]} />
          <p>{voice.words(one.whatNow)}</p>
          <Offers offers={one.offers} addresses={addresses} voice={voice} />
        </section>
      ))}
      {nextWeighIn === null ? null : (
        <p>
          {voice.words(nextWeighIn.words)}{' '}
          {nextWeighIn.trail === null ? null : (
            <a href={trailHref(nextWeighIn.trail)}>Look at it</a>
          )}
        </p>
      )}
      {stands ? null : <AsWell heading="What fits least, of what fits" others={inLine} />}
    </>
  )
}

function AsWell(props: {
  heading: string
  others: readonly { readonly label: string; readonly trail: string }[]
}) {
  if (props.others.length === 0) return null
  return (
    <>
      <p>{props.heading}:</p>
      <ul>
        {props.others.map(({ label, trail }) => (
          <li>
            <a href={trailHref(trail)}>{label}</a>
          </li>
        ))}
      </ul>
    </>
  )
}
