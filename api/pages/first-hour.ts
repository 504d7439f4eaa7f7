import type { ApiDescription } from '../openapi.ts'
import type { Sent } from './commands.ts'
import { bodyOf, routesOf } from './operations.ts'

export interface Step extends Sent {
  readonly why: string
}

interface Told {
  readonly why: string
  readonly path: string
  /** Where it is sent, where its address has a place for an id. */
  readonly at?: string
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
const GLAZE_BUCKET = {
  vesselId: 'bucket-4',
  name: 'Celadon, tall',
  kind: 'bucket',
  tareGrams: '900',
}
const WHITING = { materialId: 'whiting', name: 'Whiting', kind: 'ingredient', keptBy: 'mass' }
const CELADON = { materialId: 'celadon', name: 'Celadon', kind: 'glaze', keptBy: 'mass' }
const HALF_SHELF = {
  materialId: 'half-shelf',
  name: 'Half shelf',
  kind: 'kiln_furniture',
  keptBy: 'count',
}
const RECIPE = {
  parts: [
    { ingredientId: 'flint', parts: '70' },
    { ingredientId: 'whiting', parts: '30' },
  ],
}
const SECOND_BAT = { batId: 'bat-2', name: 'Bat by the door', dryGrams: '9200' }

const RECIPES = '/v1/materials/{id}/recipes'
const CELADON_RECIPES = '/v1/materials/celadon/recipes'

const TOLD: readonly Told[] = [
  { why: 'Enter the studio, with its money and its clock.', path: '/v1/studios' },
  { why: 'Enter a clay body.', path: '/v1/bodies' },
  { why: 'Enter a form.', path: '/v1/forms' },
  { why: 'Enter a bucket for turnings.', path: '/v1/vessels' },
  { why: 'And one for slops.', path: '/v1/vessels', body: SLOPS_BUCKET },
  { why: 'And a basin in which scrap is slaked.', path: '/v1/vessels', body: BASIN },
  { why: 'Enter a plaster bat.', path: '/v1/bats' },
  { why: 'And a second one, for a slab whose bat is wet.', path: '/v1/bats', body: SECOND_BAT },
  { why: 'Enter a kiln, with what a kilowatt-hour costs.', path: '/v1/kilns' },
  { why: 'Enter a powder, with what its data sheet states,', path: '/v1/materials' },
  { why: 'another one,', path: '/v1/materials', body: WHITING },
  { why: 'a glaze,', path: '/v1/materials', body: CELADON },
  { why: 'and what stands in the kiln.', path: '/v1/materials', body: HALF_SHELF },
  { why: 'Tell what the glaze is mixed from.', path: RECIPES, at: CELADON_RECIPES, body: RECIPE },
  { why: 'Enter a bucket for it.', path: '/v1/vessels', body: GLAZE_BUCKET },
  { why: 'Bags come from the supplier.', path: '/v1/acts/receive-delivery' },
  { why: 'Two of them are opened.', path: '/v1/acts/open-bag' },
  { why: 'Mugs are thrown.', path: '/v1/acts/throw' },
  { why: 'The slops are weighed.', path: '/v1/acts/collect-slops' },
  { why: 'The mugs are turned.', path: '/v1/acts/turn' },
  { why: 'Two crack in drying.', path: '/v1/acts/lose' },
  { why: 'The first fire.', path: '/v1/acts/bisque' },
  { why: 'Powders come,', path: '/v1/acts/receive-materials' },
  { why: 'the glaze is mixed,', path: '/v1/acts/mix-glaze' },
  { why: 'and the mugs are dipped.', path: '/v1/acts/glaze' },
  { why: 'The second fire.', path: '/v1/acts/glaze-fire' },
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
  const steps = TOLD.map(({ why, path, at, body }) => {
    const route = routes.find((one) => one.method === 'POST' && one.path === path)
    return {
      why,
      method: 'POST',
      path: at ?? path,
      body: body ?? (route && bodyOf(route)?.example),
    }
  })
  const report = `/v1/reports/month?month=${month}&format=text`
  return [...steps, { why: 'What the month came to.', method: 'GET', path: report }]
}
