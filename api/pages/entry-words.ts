import type { EntryView } from '../../db/entry-shown.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import type { EntryKind } from '../../shared/entry-kind.ts'
import { isInside, PLACE_WORDS, type Place } from '../../shared/place.ts'
import { materialWords } from './material-words.ts'
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
  receive_materials: 'Materials delivered',
  mix_glaze: 'Glaze mixed',
  water_glaze: 'Water in the glaze',
  read_glaze: 'Glaze bucket read',
  lose_glaze: 'Glaze lost',
  glaze: 'Glazed',
  count_material: 'Material counted',
  use_material: 'Material used',
  fire_empty: 'Kiln fired empty',
  reverse: 'Taken back',
  close_month: 'Month closed',
}

/** What an entry's words are made of; an entry in a list has no readings. */
export type EntryTold = Pick<EntryView, 'kind'> & {
  /** What a reversal takes back. */
  readonly countsAs?: string | undefined
  readonly lines: readonly Pick<
    EntryView['lines'][number],
    'holdingId' | 'place' | 'materialId' | 'dryGrams' | 'materialGrams' | 'waterGrams' | 'pieces'
  >[]
} & Partial<Pick<EntryView, 'weighings' | 'estimates' | 'losses' | 'sale' | 'glazings'>>

/** The holdings that an entry's words may name. */
export function holdingsTold({ lines, estimates = [] }: EntryTold): string[] {
  return [...new Set([...lines, ...estimates].map(({ holdingId }) => holdingId))]
}

/** An entry in one sentence: what happened, what the scale read, how much clay that is, and where it went. */
export function entryWords(
  entry: EntryTold,
  voice: Voice,
  names: ReadonlyMap<string, string> = new Map(),
): string {
  const kind = voice.words(kindWords(entry))
  const ofMaterials = materialWords(entry, voice, names)
  if (ofMaterials !== undefined) return ofMaterials === '' ? `${kind}.` : `${kind}: ${ofMaterials}.`
  const inside = entry.lines.filter((line) => isInside(line.place as Place))
  const came = inside.filter(comesIn)
  const gone = inside.filter((line) => !comesIn(line))
  const parts = [
    piecesWords(came),
    lossWords(entry),
    saleWords(entry, voice),
    readingWords(entry, voice),
    dryWords(entry, came, voice),
    waterWords(came, gone, voice),
    wayWords({ came, gone, read: readOf(entry) }, names),
  ].filter((part) => part !== '')
  return parts.length === 0 ? `${kind}.` : `${kind}: ${parts.join(', ')}.`
}

function kindWords({ kind, countsAs }: EntryTold): string {
  const words = KIND_WORDS[kind as EntryKind]
  if (kind !== 'reverse' || countsAs === undefined || countsAs === 'reverse') return words
  return `${words} (${KIND_WORDS[countsAs as EntryKind].toLowerCase()})`
}

type Line = EntryTold['lines'][number]

function comesIn({ dryGrams, pieces }: Line): boolean {
  return decimal(dryGrams).greaterThan(0) || decimal(pieces).greaterThan(0)
}

/** Water alone: what dried or was wetted, where no clay moved. */
function waterWords(came: readonly Line[], gone: readonly Line[], voice: Voice): string {
  if (came.length > 0) return ''
  const moved = gone.filter((line) => decimal(line.dryGrams).isZero())
  const waterGrams = sumOf(moved.map((line) => line.waterGrams))
  if (waterGrams.isZero()) return ''
  const more = waterGrams.greaterThan(0) ? 'more' : 'less'
  return `${voice.mass(waterGrams.abs())} of water ${more} in it`
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

/** Pots that an entry ends: what else it tells, it tells of the others. */
function lossWords({ kind, losses = [] }: EntryTold): string {
  const pieces = sumOf(losses.map((one) => String(one.pieces)))
  if (pieces.isZero()) return ''
  const lost = kind === 'lose' ? (pieces.equals(1) ? 'piece' : 'pieces') : 'lost'
  const causes = [...new Set(losses.map(({ cause }) => cause))]
  return `${pieces.toFixed()} ${lost} (${causes.join(', ')})`
}

/** How many were sold, for how much each, and where. */
function saleWords({ sale }: EntryTold, voice: Voice): string {
  if (sale === undefined || sale === null) return ''
  return `${String(sale.pieces)} for ${voice.money(sale.priceEach)} each (${sale.channel})`
}

/** Weighings of what an act tells of by the way: off-cuts, or what was scraped off. */
const BY_THE_WAY = /^(offCuts|scrapings)/

/**
 * What the scale read, where it read all that the sentence tells of: what was taken without a scale, and
 * a bucket before and after, are not to be added up.
 */
function readingWords({ weighings = [], estimates = [] }: EntryTold, voice: Voice): string {
  const withPlaster = weighings.filter(({ kind }) => kind === 'clay_with_plaster')
  if (withPlaster.length > 0) return `${voice.mass(netOf(withPlaster))} with its bat`
  const clay = weighings.filter(({ kind }) => kind === 'clay')
  if (clay.length === 0 || clay.length !== estimates.length) return ''
  return `${voice.mass(netOf(clay.filter(({ purpose }) => !BY_THE_WAY.test(purpose))))} net`
}

function netOf(weighings: readonly { readonly netGrams: string }[]) {
  return sumOf(weighings.map(({ netGrams }) => netGrams))
}

function dryWords({ estimates = [] }: EntryTold, came: readonly Line[], voice: Voice): string {
  const [only, other] = estimates
  if (only !== undefined && other === undefined) {
    return `${voice.massSure(only.dryGrams, only.standardUncertaintyGrams)} of it dry clay`
  }
  const dryGrams = sumOf(came.map((line) => line.dryGrams).filter((text) => !text.startsWith('-')))
  return dryGrams.isZero() ? '' : `${voice.mass(dryGrams)} dry clay`
}

/** Where it came from and where it is now; what alone it is about, where nothing came or went. */
function wayWords(
  way: { came: readonly Line[]; gone: readonly Line[]; read: readonly string[] },
  names: ReadonlyMap<string, string>,
): string {
  const named = (lines: readonly Line[]) =>
    [...new Set(lines.map((line) => names.get(line.holdingId) ?? placeWords(line)))].sort()
  const from = nameList(named(way.gone))
  const to = nameList(named(way.came))
  // A run keeps its name through the fire: what changed is where it stands.
  if (to !== '' && to === from) return `${to}, now ${nameList(way.came.map(placeWords))}`
  if (to !== '') return from === '' ? `now in ${to}` : `from ${from} into ${to}`
  if (from !== '') return from
  return nameList(way.read.flatMap((holdingId) => names.get(holdingId) ?? []))
}

const NAMED_MAX = 3

/** A few names; more than a few are not a sentence. */
function nameList(names: readonly string[]): string {
  const different = [...new Set(names)].sort()
  if (different.length <= NAMED_MAX) return different.join(' and ')
  return `${different.slice(0, NAMED_MAX - 1).join(', ')} and ${String(different.length - NAMED_MAX + 1)} more`
}

/** What was looked at, where nothing moved. */
function readOf({ estimates = [] }: EntryTold): string[] {
  return estimates.map(({ holdingId }) => holdingId)
}

function placeWords({ place }: Line): string {
  return PLACE_WORDS[place as Place]
}

function sumOf(amounts: readonly string[]) {
  return amounts.reduce((sum, amount) => sum.plus(amount), ZERO)
}
