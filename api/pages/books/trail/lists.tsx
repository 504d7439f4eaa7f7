import type { Context } from 'hono'
import type { Child } from 'hono/jsx'
import { listHoldings } from '../../../../db/reports/holdings.ts'
import { listLots } from '../../../../db/reports/lots.ts'
import { namesOf, type NamesAsked } from '../../../../db/reports/names.ts'
import { listRuns } from '../../../../db/reports/runs.ts'
import { listSales } from '../../../../db/reports/sales.ts'
import type { Environment } from '../../../services.ts'
import { holdingFilters, lotFilters, runFilters, saleFilters } from '../../../trail-filters.ts'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import { filledFields, listAsked } from './asked.ts'
import { LOT_KIND_WORDS, namesInFilters } from './filter-words.ts'
import { HoldingsTable } from './holdings-shown.tsx'
import { Narrowed, Older } from './narrowed.tsx'

type PageContext = Context<Environment>

/** Names for a list: those in its rows, and those in what it is narrowed to. */
function namesFor(c: PageContext, rows: NamesAsked) {
  const wanted = namesInFilters(filledFields(c))
  const kinds = Object.keys({ ...wanted, ...rows }) as (keyof NamesAsked)[]
  const both = kinds.map((kind) => [kind, [...(wanted[kind] ?? []), ...(rows[kind] ?? [])]])
  return namesOf(c.get('services').db, c.get('studioId'), Object.fromEntries(both) as NamesAsked)
}

interface ListShown {
  readonly title: string
  readonly nameOf: Awaited<ReturnType<typeof namesOf>>
  readonly nextKey: string | null
  readonly isEmpty: boolean
}

function showList(c: PageContext, shown: ListShown, children: Child): Promise<Response> {
  const { title, nameOf, nextKey, isEmpty } = shown
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <Narrowed c={c} nameOf={nameOf} />
      {isEmpty ? <p>Nothing of that kind is in the books.</p> : children}
      <Older c={c} nextKey={nextKey} />
    </>,
  )
}

/** What is where. */
export async function showHoldings(c: PageContext): Promise<Response> {
  const { filters, page } = listAsked(c, holdingFilters)
  const { nonEmpty, ...rest } = filters
  const { items, nextKey } = await listHoldings(c.get('services').db, {
    ...rest,
    studioId: c.get('studioId'),
    nonEmpty: nonEmpty !== 'false',
    page,
  })
  const nameOf = await namesFor(c, { holding: items.map(({ holdingId }) => holdingId) })
  return showList(
    c,
    { title: 'What is where', nameOf, nextKey, isEmpty: items.length === 0 },
    <HoldingsTable holdings={items} voice={c.get('voice')} nameOf={nameOf} />,
  )
}

/** Clay that is kept apart. */
export async function showLots(c: PageContext): Promise<Response> {
  const { filters, page } = listAsked(c, lotFilters)
  const studioId = c.get('studioId')
  const voice = c.get('voice')
  const { items, nextKey } = await listLots(c.get('services').db, { ...filters, studioId, page })
  const nameOf = await namesFor(c, { body: items.map(({ bodyId }) => bodyId) })
  return showList(
    c,
    { title: 'Lots of clay', nameOf, nextKey, isEmpty: items.length === 0 },
    <ul class="happened">
      {items.map(({ label, kind, bodyId, links }) => (
        <li>
          <a href={trailHref(links.self)}>{label}</a>
          <span class="quiet">
            {nameOf('body', bodyId)}, {voice.words(LOT_KIND_WORDS[kind] ?? kind)}
          </span>
        </li>
      ))}
    </ul>,
  )
}

/** Pots that were begun together. */
export async function showRuns(c: PageContext): Promise<Response> {
  const { filters, page } = listAsked(c, runFilters)
  const studioId = c.get('studioId')
  const voice = c.get('voice')
  const { items, nextKey } = await listRuns(c.get('services').db, { ...filters, studioId, page })
  const nameOf = await namesFor(c, { body: items.map(({ bodyId }) => bodyId) })
  return showList(
    c,
    { title: 'Runs of pots', nameOf, nextKey, isEmpty: items.length === 0 },
    <ul class="happened">
      {items.map(({ label, bodyId, thrownAt, piecesHere, links }) => (
        <li>
          <a href={trailHref(links.self)}>{label}</a>
          <span class="quiet">
            {nameOf('body', bodyId)}, begun {voice.day(thrownAt)}, {piecesHere} still here
          </span>
        </li>
      ))}
    </ul>,
  )
}

/** What was sold, with what it had cost in clay. */
export async function showSales(c: PageContext): Promise<Response> {
  const { filters, page } = listAsked(c, saleFilters)
  const studioId = c.get('studioId')
  const voice = c.get('voice')
  const { items, nextKey } = await listSales(c.get('services').db, { ...filters, studioId, page })
  const nameOf = await namesFor(c, {})
  return showList(
    c,
    { title: 'Sales', nameOf, nextKey, isEmpty: items.length === 0 },
    <ul class="happened">
      {items.map(({ formName, grade, pieces, paid, channel, cost, happenedAt, links }) => (
        <li class={links.reversedBy === null ? undefined : 'taken-back'}>
          <a href={trailHref(links.entry)}>
            {links.reversedBy === null ? null : <strong>Taken back since. </strong>}
            {pieces} {formName}, {grade}s: {voice.money(paid)}
          </a>
          <span class="quiet">
            {voice.moment(happenedAt)}, {channel}. {voice.money(cost)} of clay in them.
          </span>
        </li>
      ))}
    </ul>,
  )
}
