import type { Context } from 'hono'
import { bats, vessels, type Catalogue, type CatalogueVersion } from '../../../../db/catalogue.ts'
import { listStudios } from '../../../../db/catalogue-studios.ts'
import type { Environment } from '../../../services.ts'
import { allBats, allVessels } from '../../things.ts'

/** What stands on a label. */
export interface Label {
  /** As a form says which: `vessel blue-pail`. */
  readonly which: string
  readonly name: string
  readonly thing: 'vessel' | 'bat'
  /** What it weighs empty, or dry; nothing where nobody has weighed it. */
  readonly grams: string | null
  /** Since when that is known. */
  readonly since: string | undefined
  /** The whole address of its page, as a phone needs it. */
  readonly address: string
}

type PageContext = Context<Environment>

/** A label for each vessel and bat of the studio, the vessels first. */
export async function labelsOf(c: PageContext): Promise<Label[]> {
  const addressOf = await addresses(c)
  const [someVessels, someBats] = await Promise.all([allVessels(c), allBats(c)])
  const ofVessels = someVessels.map(async ({ vesselId, name, tareGrams }) => ({
    which: `vessel ${vesselId}`,
    name,
    thing: 'vessel' as const,
    grams: tareGrams,
    since: knownSince(await historyOf(c, vessels, vesselId), 'tareGrams'),
    address: addressOf(`/weigh/vessel/${vesselId}`),
  }))
  const ofBats = someBats.map(async ({ batId, name, dryGrams }) => ({
    which: `bat ${batId}`,
    name,
    thing: 'bat' as const,
    grams: dryGrams,
    since: knownSince(await historyOf(c, bats, batId), 'dryGrams'),
    address: addressOf(`/weigh/bat/${batId}`),
  }))
  return Promise.all([...ofVessels, ...ofBats])
}

/** Addresses on the host that the request came to; with the studio where there are several. */
async function addresses(c: PageContext): Promise<(path: string) => string> {
  const { origin } = new URL(c.req.url)
  const studios = await listStudios(c.get('services').db, { limit: 2 })
  const studio = studios.length > 1 ? `?studio=${c.get('studioId')}` : ''
  return (path) => `${origin}${path}${studio}`
}

function historyOf(c: PageContext, catalogue: Catalogue, id: string) {
  return catalogue.history(c.get('services').db, c.get('studioId'), id)
}

/** The moment at which a field came to be what it is now. */
export function knownSince(
  versions: readonly Pick<CatalogueVersion, 'changedAt' | 'facts'>[],
  field: string,
): string | undefined {
  const now = versions.at(-1)?.facts[field]
  const otherwise = versions.findLastIndex(({ facts }) => facts[field] !== now)
  return versions[otherwise + 1]?.changedAt
}

/** Whether a phone cannot reach that host, because it means the machine that asks itself. */
export function isOnlyHere(address: string): boolean {
  const { hostname } = new URL(address)
  return hostname === 'localhost' || hostname === '[::1]' || /^127\./.test(hostname)
}
