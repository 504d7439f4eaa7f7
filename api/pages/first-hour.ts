import type { ApiDescription } from '../openapi.ts'
import type { Sent } from './commands.ts'
import { bodyOf, routesOf } from './operations.ts'

export interface Step extends Sent {
  readonly why: string
}

interface Told {
  readonly why: string
  readonly path: string
  /** What is sent instead of the address's own example. */
  readonly body?: unknown
}

const SLOPS_BUCKET = {
  vesselId: 'bucket-2',
  name: 'Slops, red lid',
  kind: 'bucket',
  tareGrams: '610',
}
const BASIN = { vesselId: 'basin-1', name: 'Slaking basin', kind: 'basin', tareGrams: '1200' }
const SECOND_BAT = { batId: 'bat-2', name: 'Bat by the door', dryGrams: '9200' }

const TOLD: readonly Told[] = [
  { why: 'Enter the studio, with its money and its clock.', path: '/v1/studios' },
  { why: 'Enter a clay body.', path: '/v1/bodies' },
  { why: 'Enter a form.', path: '/v1/forms' },
  { why: 'Enter a bucket for turnings.', path: '/v1/vessels' },
  { why: 'And one for slops.', path: '/v1/vessels', body: SLOPS_BUCKET },
  { why: 'And a basin in which scrap is slaked.', path: '/v1/vessels', body: BASIN },
  { why: 'Enter a plaster bat.', path: '/v1/bats' },
  { why: 'And a second one, for a slab whose bat is wet.', path: '/v1/bats', body: SECOND_BAT },
  { why: 'Bags come from the supplier.', path: '/v1/acts/receive-delivery' },
  { why: 'Two of them are opened.', path: '/v1/acts/open-bag' },
  { why: 'Mugs are thrown.', path: '/v1/acts/throw' },
  { why: 'The slops are weighed.', path: '/v1/acts/collect-slops' },
  { why: 'The mugs are turned.', path: '/v1/acts/turn' },
  { why: 'Two crack in drying.', path: '/v1/acts/lose' },
  { why: 'The first fire.', path: '/v1/acts/bisque' },
  { why: 'The second.', path: '/v1/acts/glaze-fire' },
  { why: 'What came out is graded.', path: '/v1/acts/grade' },
  { why: 'Four are sold.', path: '/v1/acts/sell' },
  { why: 'The turnings are slaked,', path: '/v1/acts/slake' },
  { why: 'poured on plaster,', path: '/v1/acts/pour' },
  { why: 'and lifted as clay again.', path: '/v1/acts/lift' },
]

/**
 * The first hour with an empty ledger, in order, each step by the example of its own address.
 *
 * So the ids and the amounts of all examples agree: what one of them names, an earlier step has made.
 */
export function firstHour(description: ApiDescription, month: string): Step[] {
  const routes = routesOf(description)
  const steps = TOLD.map(({ why, path, body }) => {
    const route = routes.find((one) => one.method === 'POST' && one.path === path)
    return { why, method: 'POST', path, body: body ?? (route && bodyOf(route)?.example) }
  })
  const report = `/v1/reports/month?month=${month}&format=text`
  return [...steps, { why: 'What the month came to.', method: 'GET', path: report }]
}
