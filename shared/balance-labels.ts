import type { BookedEntry } from './balance-book.ts'
import type { Origin, SourceOrigin } from './balance-walk.ts'
import type { FlowReading, MonthDescription } from './month-network.ts'
import type { Stock } from './month-nodes.ts'

interface Names {
  readonly entries: readonly BookedEntry[]
  readonly origins: ReadonlyMap<string, Origin>
  readonly sources: ReadonlyMap<string, SourceOrigin>
  readonly stocks: ReadonlyMap<string, Stock>
}

interface Labelled {
  readonly key: string
  readonly label: string
  readonly entry: BookedEntry | undefined
  readonly place: string | undefined
}

/**
 * A month whose readings and figures each have a name of their own.
 *
 * Two that would be called the same are told apart by the hour of their entries; what has no entry, by its
 * place; and what is alike even then, by its number.
 *
 * Units: none. Source: our choice, because a sentence that names one of two by a name of both names none.
 */
export function toldApart(description: MonthDescription, names: Names): MonthDescription {
  const { flows, sources = [] } = description
  const entryOf = (entryId: string | null | undefined) =>
    names.entries.find((one) => one.entryId === entryId)
  const readings = flows.flatMap((flow) =>
    [flow, ...(flow.again ?? [])].map(({ id, label }) => ({
      ...{ key: `reading ${id}`, label, entry: entryOf(names.origins.get(id)?.entryId) },
      place: (names.stocks.get(flow.to) ?? names.stocks.get(flow.from))?.place,
    })),
  )
  const figures = sources.map(({ id, label }) => ({
    ...{ key: `source ${id}`, label, entry: entryOf(names.sources.get(id)?.entryId) },
    place: undefined,
  }))
  const labels = numbered(again(again([...readings, ...figures], withHour), withPlace))
  const named = <One extends Pick<FlowReading, 'id' | 'label'>>(kind: string, one: One): One => ({
    ...one,
    label: labels.get(`${kind} ${one.id}`) ?? one.label,
  })
  return {
    ...description,
    flows: flows.map((flow) => ({
      ...named('reading', flow),
      ...(flow.again === undefined
        ? {}
        : { again: flow.again.map((one) => named('reading', one)) }),
    })),
    sources: sources.map((one) => named('source', one)),
  }
}

/** Each that shares its label with another, with more said. */
function again(all: readonly Labelled[], more: (one: Labelled) => string): Labelled[] {
  const together = byLabel(all)
  return all.map((one) => {
    const same = together.get(one.label) ?? []
    const isTelling = new Set(same.map(more)).size > 1
    return isTelling ? { ...one, label: more(one) } : one
  })
}

function withHour({ label, entry }: Labelled): string {
  if (entry === undefined) return label
  const { day, time } = entry
  return label.includes(day) ? label.replace(day, `${day}, ${time}`) : `${label} at ${time}`
}

function withPlace({ label, entry, place }: Labelled): string {
  return entry !== undefined || place === undefined ? label : `${label} (${place})`
}

/** What is still called the same is counted through. */
function numbered(all: readonly Labelled[]): Map<string, string> {
  const together = byLabel(all)
  return new Map(
    all.map((one): [string, string] => {
      const same = together.get(one.label) ?? []
      const number = `, ${String(same.indexOf(one) + 1)} of ${String(same.length)}`
      return [one.key, same.length > 1 ? one.label + number : one.label]
    }),
  )
}

function byLabel(all: readonly Labelled[]): Map<string, Labelled[]> {
  const together = new Map<string, Labelled[]>()
  for (const one of all) together.set(one.label, [...(together.get(one.label) ?? []), one])
  return together
}
