type Filters = Readonly<Record<string, string | null | undefined>>

/** Where the entries behind a figure are listed. */
export function entriesTrail(filters: Filters): string {
  return address('/v1/entries', filters)
}

/** Where the holdings behind a figure are listed. */
export function holdingsTrail(filters: Filters): string {
  return address('/v1/holdings', filters)
}

/** Where one thing is shown. */
export function trailTo(
  resource:
    | 'entries'
    | 'holdings'
    | 'lots'
    | 'runs'
    | 'bodies'
    | 'forms'
    | 'vessels'
    | 'bats'
    | 'materials',
  id: string,
): string {
  return `/v1/${resource}/${encodeURIComponent(id)}`
}

/** As `trailTo`, or null where there is nothing to lead to. */
export function trailToAny(
  resource: Parameters<typeof trailTo>[0],
  id: string | null | undefined,
): string | null {
  return id === null || id === undefined ? null : trailTo(resource, id)
}

function address(path: string, filters: Filters): string {
  const named = Object.entries(filters).filter(
    (pair): pair is [string, string] => pair[1] !== null && pair[1] !== undefined,
  )
  const query = new URLSearchParams(named).toString()
  return query === '' ? path : `${path}?${query}`
}
