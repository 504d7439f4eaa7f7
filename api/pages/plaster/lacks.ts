import type { Context } from 'hono'
import { listHoldings } from '../../../db/reports/holdings.ts'
import { weighList } from '../../../db/reports/weigh-list.ts'
import type { Environment } from '../../services.ts'
import { enterFirst, type Missing } from '../first-needed.tsx'
import { allBats } from '../things.ts'
import { allBasins, fullBasins } from './basins.ts'

type PageContext = Context<Environment>
type Way = Missing['ways'][number]

/** What is missing, in a sentence, with the ways to it. */
interface Lack {
  readonly words: string
  readonly ways: readonly Way[]
}
type Lacks = Promise<readonly Lack[]>

const NO_SLURRY: Lack = {
  words: 'By the books no basin has clay in it. Slake scrap first.',
  ways: [{ href: '/plaster/slake', name: 'Slake scrap' }],
}
const NO_SCRAP: Lack = {
  words: 'By the books no bucket has scrap in it. Weigh one in first.',
  ways: [{ href: '/weigh', name: 'Weigh in' }],
}
const NO_CLAY: Lack = {
  words: 'By the books no clay is on the bench. Open a bag, or lift a slab.',
  ways: [
    { href: '/books/delivery', name: 'Enter clay that came in' },
    { href: '/plaster', name: 'See the slabs' },
  ],
}

/** What slaking lacks. */
export async function lacksOfSlaking(c: PageContext): Promise<Missing | undefined> {
  const hasScrap = (await things(c)).some(
    ({ kind, dryGrams }) => kind === 'vessel' && dryGrams !== '0',
  )
  return missing('Slake scrap', [...(await basinLack(c)), ...(hasScrap ? [] : [NO_SCRAP])])
}

/** What drawing water off lacks. */
export async function lacksOfDrawingOff(c: PageContext): Promise<Missing | undefined> {
  return missing('Draw water off', await slurryLack(c))
}

/** What reading a slurry lacks. */
export async function lacksOfReading(c: PageContext): Promise<Missing | undefined> {
  return missing('Read a slurry', await slurryLack(c))
}

/** What pouring lacks. */
export async function lacksOfPouring(c: PageContext): Promise<Missing | undefined> {
  return missing('Pour on plaster', [...(await slurryLack(c)), ...(await batLack(c))])
}

/** What wedging lacks. */
export async function lacksOfWedging(c: PageContext): Promise<Missing | undefined> {
  const hasClay = (await things(c)).some(
    ({ kind, dryGrams }) => kind === 'lot' || (kind === 'vessel' && dryGrams !== '0'),
  )
  return missing('Wedge', hasClay ? [] : [NO_CLAY])
}

/** What wetting hard clay lacks. */
export async function lacksOfRewetting(c: PageContext): Promise<Missing | undefined> {
  const { db } = c.get('services')
  const studioId = c.get('studioId')
  for (const place of ['bench', 'store'] as const) {
    const page = { limit: 1 }
    const { items } = await listHoldings(db, { studioId, place, nonEmpty: true, page })
    if (items.length > 0) return undefined
  }
  return missing('Wet hard clay', [NO_CLAY])
}

function missing(title: string, lacks: readonly Lack[]): Missing | undefined {
  if (lacks.length === 0) return undefined
  const words = lacks.map((lack) => lack.words).join(' ')
  return { title, words, ways: lacks.flatMap(({ ways }) => ways), here: 'plaster' }
}

async function slurryLack(c: PageContext): Lacks {
  const lack = await basinLack(c)
  if (lack.length > 0) return lack
  return (await fullBasins(c)).length === 0 ? [NO_SLURRY] : []
}

function things(c: PageContext) {
  return weighList(c.get('services').db, c.get('studioId'))
}

async function basinLack(c: PageContext): Lacks {
  if ((await allBasins(c)).length > 0) return []
  const words = 'There is no basin yet. Enter one: its name, and what it weighs empty.'
  return [{ words, ways: [enterFirst('vessels', 'Enter a basin', c.req.path)] }]
}

async function batLack(c: PageContext): Lacks {
  const bats = await allBats(c)
  const enter = enterFirst('bats', 'Enter a bat', c.req.path)
  if (bats.length === 0) {
    const words = 'There is no plaster bat yet. Enter one: its name, and what it weighs dry.'
    return [{ words, ways: [enter] }]
  }
  const loaded = (await things(c)).filter(({ kind }) => kind === 'load')
  const isLoaded = (batId: string) => loaded.some((load) => load.batId === batId)
  if (!bats.every(({ batId }) => isLoaded(batId))) return []
  const words = 'Every bat carries a slab. Lift one first, or enter another bat.'
  return [{ words, ways: [{ href: '/plaster', name: 'See the slabs' }, enter] }]
}
