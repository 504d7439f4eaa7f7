import type { Stock } from './month-nodes.ts'
import type { MonthDescription, MonthFlow } from './month-network.ts'
import { OUTSIDE } from './month-network.ts'
import type { PlaceInside } from './place.ts'

/** The weigh-in that would have checked most. */
export interface NextWeighIn {
  readonly words: string
  readonly holdingId: string | null
}

const WORDS: Partial<Record<PlaceInside, (name: string) => string>> = {
  greenware: (name) =>
    `Weigh all pots of ${name} after turning, with a water content: what was thrown, less what was turned off, is then checked.`,
  scrap: (name) =>
    `Weigh ${name} whole as it stands, at the end of the day: all that went into it is then checked.`,
  basin: (name) =>
    `Read the density of ${name} and weigh it whole: what was slaked and poured is then checked.`,
  bench: (name) =>
    `Weigh what is left of ${name} on the bench at the end of the month, with a count: what was taken of it is then checked.`,
  store: (name) => `Count the bags of ${name} in the store at the end of the month.`,
  bisque: (name) =>
    `Weigh the fired pots of ${name} out of the kiln: what went into it is then checked.`,
}
const ORDER = Object.keys(WORDS) as PlaceInside[]

const ANYTHING =
  'Nothing was weighed on both sides of anything. Weigh the pots of one run before and after turning, with a water content, and the bucket of turnings whole.'

/**
 * Which one weigh-in would make a month checkable: of a stock whose comings and goings were weighed and
 * whose rest was not.
 *
 * Units: none. Source: our choice: pots first, then buckets, because they pass most often.
 */
export function nextWeighIn(
  { flows }: MonthDescription,
  stocks: ReadonlyMap<string, Stock>,
): NextWeighIn {
  const candidates = [...stocks].flatMap(([node, stock]) => {
    const around = flows.filter(({ from, to }) => from === node || to === node)
    const unweighed = around.filter(({ dryGrams }) => dryGrams === null)
    const weighed = around.filter((one) => one.dryGrams !== null && one.isGuess !== true)
    const isOneShort = unweighed.length === 1 && unweighed.every(isClosing)
    const order = ORDER.indexOf(stock.place)
    return isOneShort && weighed.length > 0 && order !== -1
      ? [{ stock, order, weighed: weighed.length }]
      : []
  })
  const [best] = candidates.sort(
    (one, other) => one.order - other.order || other.weighed - one.weighed,
  )
  const words = best === undefined ? undefined : WORDS[best.stock.place]?.(best.stock.name)
  return { words: words ?? ANYTHING, holdingId: best?.stock.id ?? null }
}

function isClosing({ kind, to }: MonthFlow): boolean {
  return kind === 'closing' && to === OUTSIDE
}
