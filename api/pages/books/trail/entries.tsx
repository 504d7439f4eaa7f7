import type { Context } from 'hono'
import { listEntries, type EntryListed } from '../../../../db/reports/entries.ts'
import { monthsAndPeople, namesOf } from '../../../../db/reports/names.ts'
import type { Environment } from '../../../services.ts'
import { entryFilters } from '../../../trail-filters.ts'
import { show } from '../../show.tsx'
import { allBodies, allForms } from '../../things.ts'
import { filledFields, listAsked } from './asked.ts'
import { EntryList } from './entry-list.tsx'
import { namesInFilters } from './filter-words.ts'
import { Narrowed, Older } from './narrowed.tsx'
import { NarrowForm } from './narrow-form.tsx'

/** What happened, the newest first: all of it, or what is behind one figure. */
export async function showEntries(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId, timeZone } = voice.studio
  const { filters, page } = listAsked(c, entryFilters)
  const { kind, flow, ...rest } = filters
  const found = await listEntries(db, { ...rest, studioId, kinds: kind, flows: flow, page })
  const fields = filledFields(c)
  const nameOf = await namesOf(db, studioId, {
    ...namesInFilters(fields),
    holding: [...(namesInFilters(fields).holding ?? []), ...holdingsIn(found.items)],
  })
  const isBehindAFigure = c.req.path.endsWith('/entries')
  const title = isBehindAFigure ? 'What is behind it' : 'What happened'
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <Narrowed c={c} nameOf={nameOf} />
      <NarrowForm
        voice={voice}
        action={c.req.path}
        fields={new Map(fields)}
        {...await monthsAndPeople(db, { studioId, timeZone })}
        bodies={(await allBodies(c)).map(({ bodyId, name }) => ({ value: bodyId, name }))}
        forms={(await allForms(c)).map(({ formId, name }) => ({ value: formId, name }))}
      />
      {found.items.length === 0 ? <p>Nothing of that kind is in the books.</p> : null}
      <EntryList entries={found.items} voice={voice} nameOf={nameOf} />
      <Older c={c} nextKey={found.nextKey} />
    </>,
  )
}

function holdingsIn(entries: readonly EntryListed[]): string[] {
  return entries.flatMap(({ lines }) => lines.map(({ holdingId }) => holdingId))
}
