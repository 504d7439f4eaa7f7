import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { firingsReport, type FiringsReport } from '../../../../db/reports/firings.ts'
import { monthsAndPeople } from '../../../../db/reports/names.ts'
import { decimal } from '../../../../shared/decimal.ts'
import { HALF_EMPTY_BELOW } from '../../../../shared/kiln-fill.ts'
import type { Environment } from '../../../services.ts'
import { monthText } from '../../../schemas.ts'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { MonthRange } from '../narrowing.tsx'
import { listAsked } from '../trail/asked.ts'
import { csvHref, CsvLink } from './csv-link.tsx'

const firingFilters = z.strictObject({
  from: monthText('Fired in this month or later.').optional(),
  to: monthText('Fired in this month or earlier.').optional(),
})

type Firing = FiringsReport['firings'][number]

interface Shown {
  readonly report: FiringsReport
  readonly voice: Voice
}

/** What each firing cost a piece, how full the kiln was, and what its empty room cost. */
export async function showFirings(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId, timeZone } = voice.studio
  const { from, to } = listAsked(c, firingFilters).filters
  const report = await firingsReport(db, { studioId, from, to })
  const { months } = await monthsAndPeople(db, { studioId, timeZone })
  return show(
    c,
    { title: 'Firings', here: 'books' },
    <article class="sheet piece">
      <h1>Firings</h1>
      <p class="of-whom">
        <strong>{voice.studio.name}</strong> · {rangeWords(report, voice)} · printed{' '}
        {voice.moment(voice.now)}
      </p>
      <MonthRange {...{ voice, months, from, to }} action="/books/firings" did="Fired" />
      <Loaded report={report} voice={voice} />
      <Idle report={report} voice={voice} />
      <Wear report={report} voice={voice} />
      <CsvLink href={csvHref('/v1/reports/firings', { from, to })} />
    </article>,
  )
}

function rangeWords({ from, to }: FiringsReport, voice: Voice): string {
  if (from === null && to === null) return 'all that were told'
  if (from !== null && from === to) return voice.month(from)
  const since = from === null ? '' : `from ${voice.month(from)} `
  return `${since}${to === null ? '' : `up to ${voice.month(to)}`}`.trim()
}

const isHalfEmpty = ({ fullFraction }: Firing) =>
  fullFraction !== null && decimal(fullFraction).lessThan(HALF_EMPTY_BELOW)

function Loaded({ report, voice }: Shown) {
  const { firings } = report
  if (firings.length === 0) {
    return (
      <p>
        No firing was told of these months. Where a fire is told with its kiln, what it cost stands
        here.
      </p>
    )
  }
  const halfEmpty = firings.filter(isHalfEmpty).length
  return (
    <section>
      <h2>Pots in the kiln</h2>
      <p class="told">
        {firings.length} {firings.length === 1 ? 'firing' : 'firings'}, energy together{' '}
        {voice.money(report.energyCost)}.{' '}
        {halfEmpty === 0
          ? 'None was half empty.'
          : `${String(halfEmpty)} of them half empty: less than ${voice.share(HALF_EMPTY_BELOW, 0)} of the room taken.`}
      </p>
      <div class="across" tabindex={0} role="region" aria-label="Firings with pots in the kiln">
        <table class="ledger">
          <thead>
            <tr>
              <th scope="col">Fired</th>
              <th scope="col" class="number">
                in it
              </th>
              <th scope="col" class="number">
                a piece
              </th>
              <th scope="col" class="number">
                if full
              </th>
            </tr>
          </thead>
          <tbody>
            {firings.toReversed().map((firing) => (
              <LoadedRow firing={firing} voice={voice} />
            ))}
          </tbody>
        </table>
      </div>
      <p class="quiet">
        A piece: energy and wear of the kiln. If full: the same firing with its room filled. A full
        kiln needs somewhat more energy, so a little less is saved than it says.
      </p>
    </section>
  )
}

function LoadedRow({ firing, voice }: { readonly firing: Firing; readonly voice: Voice }) {
  const { happenedAt, kilnName, kind, standing, pieces, fullFraction, emptyRoom, trail } = firing
  const { energyCost, wearCost, costPerPiece, kilowattHours } = firing
  const energy = kilowattHours === null ? '' : ` for ${digits(kilowattHours)} kWh`
  return (
    <tr>
      <th scope="row">
        <a href={trailHref(trail)}>{voice.day(happenedAt)}</a>, {voice.words(kind)}{' '}
        {isHalfEmpty(firing) ? <strong>Half empty.</strong> : null}
        <small>
          {kilnName}: {voice.money(energyCost)}
          {energy} ({standing}), wear {voice.money(wearCost)}
        </small>
      </th>
      <td class="number">
        {pieces}
        <small>
          {fullFraction === null ? 'how full: not said' : `${voice.share(fullFraction, 0)} full`}
        </small>
      </td>
      <td class="number">
        {costPerPiece === null ? '' : <a href={trailHref(trail)}>{voice.money(costPerPiece)}</a>}
      </td>
      <td class="number">
        {emptyRoom === null ? 'not known' : voice.money(emptyRoom.costPerPieceIfFull)}
      </td>
    </tr>
  )
}

const digits = (kilowattHours: string) => decimal(kilowattHours).toDecimalPlaces(1).toFixed()

function Idle({ report, voice }: Shown) {
  const { idle, idleCost } = report
  if (idle.length === 0) return null
  return (
    <section>
      <h2>With nothing in the kiln</h2>
      <table class="ledger">
        <tbody>
          {idle.toReversed().map(({ happenedAt, kilnName, kilowattHours, energyCost, trail }) => (
            <tr>
              <th scope="row">
                <a href={trailHref(trail)}>{voice.day(happenedAt)}</a>{' '}
                <small>
                  {kilnName}
                  {kilowattHours === null ? '' : `, ${digits(kilowattHours)} kWh`}
                </small>
              </th>
              <td class="number">
                <a href={trailHref(trail)}>{voice.money(energyCost)}</a>
              </td>
            </tr>
          ))}
          <tr class="balance">
            <th scope="row">energy of an empty kiln</th>
            <td class="number">{voice.money(idleCost)}</td>
          </tr>
        </tbody>
      </table>
      <p class="told">It is on no pot: the month’s sheet has it in a row of its own.</p>
    </section>
  )
}

function Wear({ report, voice }: Shown) {
  const { wear } = report
  return (
    <section>
      <h2>Elements, shelves and props</h2>
      <dl class="figures">
        <div>
          <dt>Put into kilns, ever</dt>
          <dd>
            <a href={trailHref(wear.trail)}>{voice.money(wear.putIn)}</a>
          </dd>
        </div>
        <div>
          <dt>Charged to firings, ever</dt>
          <dd>
            <a href={trailHref(wear.trail)}>{voice.money(wear.chargedSoFar)}</a>
          </dd>
        </div>
      </dl>
      <p class="told">{voice.words(wear.words)}</p>
    </section>
  )
}
