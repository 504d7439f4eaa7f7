/** What the trail calls one of each thing that it lists. */
const ONE_OF: Readonly<Record<string, string>> = {
  entries: 'entry',
  holdings: 'holding',
  lots: 'lot',
  runs: 'run',
}

const IN_THE_CATALOGUE = ['bodies', 'forms', 'vessels', 'scales', 'bats']

/** Reports of the API by the page that shows the same. */
const REPORTS: Readonly<Record<string, string>> = {
  yield: '/books/yield',
  turning: '/books/turning',
  'mass-balance': '/books/balance',
  dust: '/books/dust',
  reclaim: '/books/reclaim',
  stock: '/books/stock',
  'stock-value': '/books/stock-value',
  firings: '/books/firings',
  'what-changes-if': '/books/what-if',
  plaster: '/plaster',
}

/** Where a link whose page nobody wrote leads. */
const WHOLE_TRAIL = '/books/trail'

/**
 * The page on which what a `trail` of a report leads to is read.
 *
 * Filters go along as they are: the pages of the trail take the same ones as the API.
 */
export function trailHref(trail: string): string {
  const { pathname, searchParams, search } = new URL(trail, 'http://studio.invalid')
  const [version, resource = '', ...rest] = pathname.split('/').slice(1)
  if (version !== 'v1') return WHOLE_TRAIL
  if (resource === 'reports') return reportHref(rest, searchParams)
  const page = pageOf(resource, rest)
  return page === undefined ? WHOLE_TRAIL : `${page}${search}`
}

function pageOf(resource: string, rest: readonly string[]): string | undefined {
  const one = ONE_OF[resource]
  if (one !== undefined) {
    return rest.length === 0
      ? `/books/trail/${resource}`
      : `/books/trail/${[one, ...rest].join('/')}`
  }
  if (resource === 'sales' && rest.length === 0) return '/books/trail/sales'
  if (IN_THE_CATALOGUE.includes(resource)) return ['/books/things', resource, ...rest].join('/')
  return undefined
}

/** What a page shows by its address rather than by a filter moves there. */
function reportHref([report = '', ...rest]: readonly string[], filters: URLSearchParams): string {
  const others = new URLSearchParams(filters)
  others.delete('format')
  if (report === 'month') return `/books/month/${taken(others, 'month') ?? ''}${queryOf(others)}`
  if (report === 'piece-cost') {
    const formId = rest[0] ?? taken(others, 'formId') ?? ''
    return `/books/piece/${formId}${queryOf(others)}`
  }
  const page = REPORTS[report]
  return page === undefined ? WHOLE_TRAIL : `${[page, ...rest].join('/')}${queryOf(others)}`
}

function taken(filters: URLSearchParams, name: string): string | undefined {
  const value = filters.get(name)
  filters.delete(name)
  return value === null ? undefined : encodeURIComponent(value)
}

function queryOf(filters: URLSearchParams): string {
  const query = filters.toString()
  return query === '' ? '' : `?${query}`
}
