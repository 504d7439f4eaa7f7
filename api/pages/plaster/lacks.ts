import type { Context } from 'hono'
import { listHoldings } from '../../../db/reports/holdings.ts'
import { weighList } from '../../../db/reports/weigh-list.ts'
import type { Environment } from '../../services.ts'
import { allBats } from '../things.ts'
import { allBasins, fullBasins } from './basins.ts'
import type { Lack } from './lacking.tsx'

type Lacks = Promise<readonly Lack[]>
type PageContext = Context<Environment>

const NO_BASIN: Lack = {
  words: 'There is no basin yet. Enter one: its name, and what it weighs empty.',
  href: '/books/things/vessels',
  link: 'Enter a basin',
}
const NO_SLURRY: Lack = {
  words: 'By the books no basin has clay in it. Slake scrap first.',
  href: '/plaster/slake',
  link: 'Slake scrap',
}
const NO_BAT: Lack = {
  words: 'There is no plaster bat yet. Enter one: its name, and what it weighs dry.',
  href: '/books/things/bats',
  link: 'Enter a bat',
}
const NO_EMPTY_BAT: Lack = {
  words: 'Every bat carries a slab. Lift one first.',
  href: '/plaster',
  link: 'See the slabs',
}
const ANOTHER_BAT: Lack = {
  words: 'Or there is another bat that the books do not know.',
  href: '/books/things/bats',
  link: 'Enter a bat',
}
const NO_SCRAP: Lack = {
  words: 'By the books no bucket has scrap in it. Weigh one in first.',
  href: '/weigh',
  link: 'Weigh in',
}
const NO_CLAY: Lack = {
  words: 'By the books no clay is on the bench. Open a bag, or lift a slab.',
  href: '/books/delivery',
  link: 'Enter clay that came in',
}

/** What slaking lacks. */
export async function lacksOfSlaking(c: PageContext): Lacks {
  const hasScrap = (await things(c)).some(
    ({ kind, dryGrams }) => kind === 'vessel' && dryGrams !== '0',
  )
  return [...(await basinLack(c)), ...(hasScrap ? [] : [NO_SCRAP])]
}

/** What work with slurry lacks. */
export async function lacksOfSlurry(c: PageContext): Lacks {
  const lack = await basinLack(c)
  if (lack.length > 0) return lack
  return (await fullBasins(c)).length === 0 ? [NO_SLURRY] : []
}

/** What pouring lacks. */
export async function lacksOfPouring(c: PageContext): Lacks {
  return [...(await lacksOfSlurry(c)), ...(await batLack(c))]
}

/** What wedging lacks. */
export async function lacksOfWedging(c: PageContext): Lacks {
  const hasClay = (await things(c)).some(
    ({ kind, dryGrams }) => kind === 'lot' || (kind === 'vessel' && dryGrams !== '0'),
  )
  return hasClay ? [] : [NO_CLAY]
}

/** What wetting hard clay lacks. */
export async function lacksOfRewetting(c: PageContext): Lacks {
  const { db } = c.get('services')
  const studioId = c.get('studioId')
  for (const place of ['bench', 'store'] as const) {
    const page = { limit: 1 }
    const { items } = await listHoldings(db, { studioId, place, nonEmpty: true, page })
    if (items.length > 0) return []
  }
  return [NO_CLAY]
}

function things(c: PageContext) {
  return weighList(c.get('services').db, c.get('studioId'))
}

async function basinLack(c: PageContext): Lacks {
  return (await allBasins(c)).length === 0 ? [NO_BASIN] : []
}

async function batLack(c: PageContext): Lacks {
  const bats = await allBats(c)
  if (bats.length === 0) return [NO_BAT]
  const loaded = (await things(c)).filter(({ kind }) => kind === 'load')
  const isLoaded = (batId: string) => loaded.some((load) => load.batId === batId)
  return bats.every(({ batId }) => isLoaded(batId)) ? [NO_EMPTY_BAT, ANOTHER_BAT] : []
}
