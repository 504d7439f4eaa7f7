import { present } from './assert.ts'
import type { EntryKind } from './entry-kind.ts'
import type { Place, PlaceOutside } from './place.ts'
import type { Quantities } from './quantity.ts'

export type WorldPlace = PlaceOutside | 'other_bodies'
/** What an entry was for; a reversal counts with the kind that it takes back. */
export type ActKind = Exclude<EntryKind, 'reverse'>

/** What entries of one kind moved at one place; of the time before the month where no kind is named. */
export interface MonthMovement extends Quantities {
  readonly place: Place
  readonly kind: ActKind | undefined
}

export interface WorldRow {
  readonly row: string
  readonly words: string
  readonly place: WorldPlace
  /** The kinds of entry that it gathers; every other kind at its place where none is named. */
  readonly kinds?: readonly ActKind[]
  /** Shown even in a month in which it moved nothing. */
  readonly isAlways?: true
}

/** What can come from the world outside and go to it, in the order in which a month is read. */
export const WORLD_ROWS = [
  {
    row: 'bought',
    words: 'bought',
    place: 'supplier',
    kinds: ['receive_delivery'],
    isAlways: true,
  },
  {
    row: 'supplier_corrected',
    words: 'bags that were not what was first said',
    place: 'supplier',
    kinds: ['open_bag', 'dry_test'],
  },
  {
    row: 'materials_bought',
    words: 'materials bought',
    place: 'supplier',
    kinds: ['receive_materials'],
  },
  { row: 'powders_added', words: 'powders wedged in', place: 'supplier' },
  { row: 'opened_with', words: 'entered as here before', place: 'before' },
  { row: 'firing_energy', words: 'firing energy', place: 'utility' },
  { row: 'kiln_wear', words: 'wear of the kiln, charged by firings', place: 'wear' },
  {
    row: 'put_into_kilns',
    words: 'elements and shelves put into kilns',
    place: 'wear',
    kinds: ['use_material'],
  },
  { row: 'water_from_tap', words: 'water from the tap', place: 'tap' },
  { row: 'water_to_air', words: 'water into the air', place: 'air' },
  { row: 'bags_emptied', words: 'bags emptied', place: 'hands', kinds: ['open_bag'] },
  { row: 'pieces_begun', words: 'pieces begun', place: 'hands', kinds: ['throw'], isAlways: true },
  {
    row: 'pieces_lost_before_bisque',
    words: 'pieces lost before bisque',
    place: 'hands',
    isAlways: true,
  },
  {
    row: 'fired',
    words: 'taken by the fire (loss on ignition)',
    place: 'fire',
    isAlways: true,
  },
  {
    row: 'lost_after_bisque',
    words: 'lost after bisque',
    place: 'waste',
    kinds: ['lose', 'grade'],
    isAlways: true,
  },
  { row: 'sold', words: 'sold', place: 'customer', kinds: ['sell'], isAlways: true },
  { row: 'given_away', words: 'given away', place: 'customer', kinds: ['give_away'] },
  { row: 'kept', words: 'kept', place: 'customer', kinds: ['keep'] },
  { row: 'out_of_the_door', words: 'otherwise out of the door', place: 'customer' },
  { row: 'broken_in_shop', words: 'broken in the shop', place: 'waste', kinds: ['break_in_shop'] },
  { row: 'glaze_thrown_away', words: 'glaze lost', place: 'waste', kinds: ['lose_glaze'] },
  {
    row: 'discarded',
    words: 'thrown away, scraped off or drawn off',
    place: 'waste',
    isAlways: true,
  },
  { row: 'lost_beyond_usual', words: 'lost beyond what is usual', place: 'abnormal' },
  { row: 'kiln_idle', words: 'burnt in a kiln that fired nothing', place: 'idle' },
  {
    row: 'glaze_from_bucket',
    words: 'glaze from its bucket',
    place: 'other_bodies',
    kinds: ['glaze'],
  },
  {
    row: 'fuel_from_shelf',
    words: 'gas from the shelf, and energy shared with other clays',
    place: 'other_bodies',
    kinds: ['bisque', 'glaze_fire', 'fire_empty'],
  },
  { row: 'other_bodies', words: 'from and to other clays, by blending', place: 'other_bodies' },
  { row: 'unexplained', words: 'unexplained', place: 'unexplained', isAlways: true },
] as const satisfies readonly WorldRow[]

export type WorldRowName = (typeof WORLD_ROWS)[number]['row']

/** The row that gathers what a kind of entry moves at a place outside. Units: none. */
export function worldRowOf(place: WorldPlace, kind: ActKind | undefined): WorldRow {
  const here = WORLD_ROWS.filter((one: WorldRow) => one.place === place)
  const named = here.find((one: WorldRow) => kind !== undefined && one.kinds?.includes(kind))
  const rest = here.find((one: WorldRow) => one.kinds === undefined)
  const found: WorldRow | undefined = named ?? rest ?? here[0]
  return present(found, `the month report has a row for ${place}`)
}

/**
 * Where outside the bags come from or go to when a kind of entry changes how many are in the store.
 *
 * Units: none. Source: what the acts post; bags are pieces in the store and nowhere else.
 */
export function worldPlaceOfBags(kind: ActKind): PlaceOutside {
  return PLACE_OF_BAGS[kind] ?? 'unexplained'
}

const PLACE_OF_BAGS: Partial<Record<ActKind, PlaceOutside>> = {
  receive_delivery: 'supplier',
  open_bag: 'hands',
  open_books: 'before',
  count: 'unexplained',
}
