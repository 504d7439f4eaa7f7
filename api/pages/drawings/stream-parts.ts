import { decimal, ZERO, type Decimal } from '../../../shared/decimal.ts'
import type { PlaceInside } from '../../../shared/place.ts'

/** From bag to shelf, as the drawing reads downwards. */
export const SPINE = ['store', 'bench', 'greenware', 'bisque', 'glazed', 'finished'] as const
/** The way back round, as it reads upwards. */
export const LOOP = ['scrap', 'basin', 'plaster'] as const

/** As much of the stream's report as is drawn. */
export interface StreamDrawn {
  readonly stocks: readonly {
    readonly place: PlaceInside
    readonly openingDryGrams: string
    readonly closingDryGrams: string
  }[]
  readonly bands: readonly {
    readonly from: string
    readonly to: string
    readonly isFromOutside: boolean
    readonly isToOutside: boolean
    readonly dryGrams: string
    readonly kinds: readonly string[]
  }[]
}

export type BandLook = 'clay' | 'fired' | 'back' | 'stock' | 'came' | 'gone' | 'unknown'

/** What a band does at a node: it comes from the side or leaves to it, or it leads on. */
export type BandWay = 'stub_in' | 'stub_out' | 'bought' | 'sold' | 'on' | 'turn' | 'home' | 'other'

/** One band of the drawing; bands of the report that are called alike are one. */
export interface Part {
  readonly way: BandWay
  readonly from: string
  readonly to: string
  readonly dryGrams: Decimal
  readonly words: string
  readonly look: BandLook
}

/** How the drawing calls what comes and goes, in few letters; alike are drawn together. */
const SHORT_WORDS: Readonly<Record<string, string>> = {
  bought: 'bought',
  supplier_corrected: 'put right',
  powders_added: 'powders',
  opened_with: 'first entered',
  fired: 'to the fire',
  lost_after_bisque: 'lost, broken',
  broken_in_shop: 'lost, broken',
  discarded: 'thrown out',
  given_away: 'given, kept',
  kept: 'given, kept',
  out_of_the_door: 'given, kept',
  sold: 'sold',
  other_bodies: 'other clays',
  unexplained: 'unexplained',
}

const PASSED_TO: Readonly<Record<string, string>> = {
  bench: 'opened',
  greenware: 'thrown',
  bisque: 'bisque fired',
  glazed: 'glaze fired',
  finished: 'graded',
  basin: 'slaked',
  plaster: 'poured',
}

/** Less than this is drawn as wide as it is, but there is no figure to tell of it. */
const TOLD_GRAMS = decimal(5)

/** Whether a band has words and a figure beside it. */
export function isTold({ dryGrams }: Part): boolean {
  return dryGrams.greaterThanOrEqualTo(TOLD_GRAMS)
}

/** Everything that is drawn as a band. Units: grams of dry clay, exact. */
export function partsOf({ stocks, bands }: StreamDrawn): Part[] {
  const parts = new Map<string, Part>()
  const add = (part: Part) => {
    const key = keyOf(part)
    const so = parts.get(key)?.dryGrams ?? ZERO
    parts.set(key, { ...part, dryGrams: so.plus(part.dryGrams) })
  }
  for (const { place, openingDryGrams, closingDryGrams } of stocks) {
    const look = 'stock'
    const [came, stays] = [decimal(openingDryGrams), decimal(closingDryGrams)]
    const [opening, closing] = ['opening', 'closing']
    add({ way: 'stub_in', from: opening, to: place, dryGrams: came, words: 'opening', look })
    add({ way: 'stub_out', from: place, to: closing, dryGrams: stays, words: 'closing', look })
  }
  for (const band of bands) add({ ...named(band), dryGrams: decimal(band.dryGrams) })
  return [...parts.values()].filter(({ dryGrams }) => !dryGrams.isZero())
}

type Named = Omit<Part, 'dryGrams'>

/** What is called alike at a place is one band, whatever rows of the world it gathers. */
function keyOf({ way, from, to, words }: Part): string {
  if (way === 'stub_in') return [way, to, words].join('|')
  return way === 'stub_out' ? [way, from, words].join('|') : [way, from, to].join('|')
}

function named({ from, to, kinds, ...of }: StreamDrawn['bands'][number]): Named {
  const ends = { from, to }
  if (of.isFromOutside) {
    const words = SHORT_WORDS[from] ?? from
    const isBought = from === 'bought' && to === 'store'
    const look = from === 'unexplained' ? 'unknown' : 'came'
    return { ...ends, words, look, way: isBought ? 'bought' : 'stub_in' }
  }
  if (of.isToOutside) {
    const words = SHORT_WORDS[to] ?? to
    if (to === 'sold' && from === 'finished') return { ...ends, words, look: 'fired', way: 'sold' }
    return { ...ends, words, look: to === 'unexplained' ? 'unknown' : 'gone', way: 'stub_out' }
  }
  return inside(ends, kinds)
}

function inside(ends: { from: string; to: string }, kinds: readonly string[]): Named {
  const { from, to } = ends
  const isNext = (all: readonly string[]) =>
    all.includes(from) && all.indexOf(to) === all.indexOf(from) + 1
  if (isNext(SPINE)) {
    const isClay = to === 'bench' || to === 'greenware'
    const words = kinds.includes('join') ? 'thrown, joined' : (PASSED_TO[to] ?? '')
    return { ...ends, words, look: isClay ? 'clay' : 'fired', way: 'on' }
  }
  const look = 'back'
  if (isNext(LOOP)) return { ...ends, words: PASSED_TO[to] ?? '', look, way: 'on' }
  const way = ROUND[`${from}>${to}`]
  return { ...ends, words: way?.words ?? '', look, way: way?.way ?? 'other' }
}

/** What leaves the spine for the scrap, and what comes home to the bench. */
const ROUND: Readonly<Record<string, Pick<Named, 'way' | 'words'>>> = {
  'greenware>scrap': { way: 'turn', words: 'to scrap' },
  'bench>scrap': { way: 'turn', words: 'to scrap' },
  'plaster>bench': { way: 'home', words: 'lifted' },
  'scrap>bench': { way: 'home', words: 'wedged' },
}
