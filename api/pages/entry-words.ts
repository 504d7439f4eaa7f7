import type { EntryView } from '../../db/entry-view.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import type { EntryKind } from '../../shared/entry-kind.ts'
import { isInside, PLACE_WORDS, type Place } from '../../shared/place.ts'
import type { Voice } from './voice.ts'

/** What each kind of entry is called on a page. */
export const KIND_WORDS: Readonly<Record<EntryKind, string>> = {
  open_books: 'Books opened',
  receive_delivery: 'Clay delivered',
  open_bag: 'Bags opened',
  throw: 'Thrown',
  join: 'Joined on',
  collect_slops: 'Slops collected',
  turn: 'Turned',
  lose: 'Lost',
  weigh_scrap: 'Weighed in',
  weigh_run: 'Pots weighed',
  slake: 'Slaked',
  decant: 'Water drawn off',
  read_slurry: 'Slurry read',
  pour: 'Poured on plaster',
  weigh_on_plaster: 'Slab weighed',
  move_load: 'Slab moved',
  lift: 'Slab lifted',
  wedge: 'Wedged',
  rewet: 'Wetted again',
  bisque: 'Bisque fired',
  glaze_fire: 'Glaze fired',
  grade: 'Graded',
  sell: 'Sold',
  give_away: 'Given away',
  keep: 'Kept',
  break_in_shop: 'Broken in the shop',
  discard: 'Thrown away',
  dry_test: 'Sample dried',
  count: 'Counted',
  reverse: 'Taken back',
  close_month: 'Month closed',
}

/** What an entry's words are made of; an entry in a list has no readings. */
export type EntryTold = Pick<EntryView, 'kind'> & {
  readonly lines: readonly Pick<
    EntryView['lines'][number],
    'holdingId' | 'place' | 'dryGrams' | 'pieces'
  >[]
} & Partial<Pick<EntryView, 'weighings' | 'estimates'>>

/** The names of holdings, by their ids, as a stock list has them. */
export function namesOfHoldings(
  holdings: readonly { readonly holdingId: string; readonly label: string }[],
): ReadonlyMap<string, string> {
  return new Map(holdings.map(({ holdingId, label }) => [holdingId, label]))
}

/** An entry in one sentence: what happened, what the scale read, how much clay that is, and where it went. */
export function entryWords(
  entry: EntryTold,
  voice: Voice,
  names: ReadonlyMap<string, string> = new Map(),
): string {
  const came = entry.lines.filter((line) => isInside(line.place as Place) && comesIn(line))
  const parts = [
    piecesWords(came),
    readingWords(entry, voice),
    dryWords(entry, came, voice),
    whereWords(came, names),
  ].filter((part) => part !== '')
  const kind = voice.words(KIND_WORDS[entry.kind as EntryKind])
  return parts.length === 0 ? `${kind}.` : `${kind}: ${parts.join(', ')}.`
}

type Line = EntryTold['lines'][number]

function comesIn({ dryGrams, pieces }: Line): boolean {
  return decimal(dryGrams).greaterThan(0) || decimal(pieces).greaterThan(0)
}

function piecesWords(came: readonly Line[]): string {
  const bags = sumOf(came.filter(({ place }) => place === 'store').map((line) => line.pieces))
  const pots = sumOf(came.filter(({ place }) => place !== 'store').map((line) => line.pieces))
  const words = [
    bags.isZero() ? '' : `${bags.toFixed()} ${bags.equals(1) ? 'bag' : 'bags'}`,
    pots.isZero() ? '' : `${pots.toFixed()} ${pots.equals(1) ? 'piece' : 'pieces'}`,
  ]
  return words.filter((word) => word !== '').join(' and ')
}

function readingWords({ weighings = [] }: EntryTold, voice: Voice): string {
  const clay = weighings.filter(({ kind }) => kind === 'clay' || kind === 'clay_with_plaster')
  if (clay.length === 0) return ''
  return `${voice.mass(sumOf(clay.map(({ netGrams }) => netGrams)))} net`
}

function dryWords({ estimates = [] }: EntryTold, came: readonly Line[], voice: Voice): string {
  const [only, other] = estimates
  if (only !== undefined && other === undefined) {
    return `${voice.massSure(only.dryGrams, only.standardUncertaintyGrams)} of it dry clay`
  }
  const dryGrams = sumOf(came.map((line) => line.dryGrams).filter((text) => !text.startsWith('-')))
  return dryGrams.isZero() ? '' : `${voice.mass(dryGrams)} dry clay`
}

function whereWords(came: readonly Line[], names: ReadonlyMap<string, string>): string {
  const places = [...new Set(came.map((line) => names.get(line.holdingId) ?? placeWords(line)))]
  return places.length === 0 || places.length > 3 ? '' : `now in: ${places.join('; ')}`
}

function placeWords({ place }: Line): string {
  return PLACE_WORDS[place as Place]
}

function sumOf(amounts: readonly string[]) {
  return amounts.reduce((sum, amount) => sum.plus(amount), ZERO)
}
