/** Where clay and pots are, which is everywhere of the studio's own but among the materials. */
export const CLAY_PLACES = [
  'store',
  'bench',
  'scrap',
  'basin',
  'plaster',
  'greenware',
  'bisque',
  'glazed',
  'finished',
] as const

/** Where there are materials and no clay. */
export const MATERIAL_PLACES = ['materials', 'glaze_bucket'] as const
export type MaterialPlace = (typeof MATERIAL_PLACES)[number]

/** Where something of the studio's own can be. */
export const PLACES_INSIDE = [...CLAY_PLACES, ...MATERIAL_PLACES] as const

/** Where it came from or went: the world outside has holdings too, so that everything adds up. */
export const PLACES_OUTSIDE = [
  'before',
  'supplier',
  'utility',
  'wear',
  'tap',
  'air',
  'fire',
  'hands',
  'customer',
  'waste',
  'abnormal',
  'idle',
  'unexplained',
] as const

export type PlaceInside = (typeof PLACES_INSIDE)[number]
export type PlaceOutside = (typeof PLACES_OUTSIDE)[number]
export type Place = PlaceInside | PlaceOutside

/** What each place is, in a potter's words. */
export const PLACE_WORDS: Readonly<Record<Place, string>> = {
  store: 'bags in the store',
  bench: 'clay ready to throw',
  scrap: 'scrap in buckets',
  basin: 'slaking in basins',
  plaster: 'drying on plaster',
  greenware: 'greenware',
  bisque: 'bisque',
  glazed: 'glaze-fired, not yet graded',
  finished: 'finished pots',
  materials: 'materials on the shelf',
  glaze_bucket: 'glaze in buckets',
  before: 'here before the books began',
  supplier: 'the supplier',
  utility: 'electricity and gas, by the meter',
  wear: 'wear of elements and kiln furniture',
  tap: 'the tap',
  air: 'the air',
  fire: 'the fire',
  hands: 'the potter’s hands (counts only)',
  customer: 'out of the door',
  waste: 'waste',
  abnormal: 'lost beyond what is usual',
  idle: 'a kiln that fired nothing',
  unexplained: 'unexplained',
}

/** True for a place of the studio's own, whose holdings keep a balance. */
export function isInside(place: Place): place is PlaceInside {
  return (PLACES_INSIDE as readonly string[]).includes(place)
}

/** True for a place of materials, whose holdings are of a material and of no clay. */
export function isOfMaterials(place: Place): place is MaterialPlace {
  return (MATERIAL_PLACES as readonly string[]).includes(place)
}

/** Where pots can be, in the order in which they pass. */
export const POT_PLACES = ['greenware', 'bisque', 'glazed', 'finished'] as const
export type PotPlace = (typeof POT_PLACES)[number]

/** True where pots carry glaze, which the books do not tell from clay: their mass is not clay's alone. */
export function isGlazed(place: Place): boolean {
  return place === 'glazed' || place === 'finished'
}

export const GRADES = ['first', 'second'] as const
export type Grade = (typeof GRADES)[number]

/** When a piece is lost; each stage tells where the piece was then. */
export const LOSS_STAGES = {
  wheel: 'greenware',
  leather_hard: 'greenware',
  drying: 'greenware',
  bisque_firing: 'bisque',
  glazing: 'bisque',
  glaze_firing: 'glazed',
  handling: 'finished',
} as const
export type LossStage = keyof typeof LOSS_STAGES
