import type { Jurisdiction, SilicaLimit } from './silica.ts'

/** What in a glaze ingredient can harm whoever handles it, in the order in which it is told. */
export const HAZARD_CODES = [
  'silica',
  'manganese',
  'barium',
  'lithium',
  'lead',
  'cadmium',
  'chromium',
  'cobalt',
  'nickel',
  'vanadium',
] as const
export type HazardCode = (typeof HAZARD_CODES)[number]

/** Whose published limits are told here. */
export const LIMIT_JURISDICTIONS = ['GB', 'US', 'EU', 'AU'] as const
export type LimitJurisdiction = (typeof LIMIT_JURISDICTIONS)[number]

/**
 * One published limit for something in the air that a person breathes.
 *
 * Units: milligrams of what `measured` names in a cubic metre of air.
 */
export interface HazardLimit extends SilicaLimit {
  readonly hazard: HazardCode
  readonly jurisdiction: LimitJurisdiction
  readonly measured: string
  readonly kind: 'average' | 'ceiling'
  /** The date of the document, as far as we know it; of silica see `asOf`. */
  readonly published: string | null
  /** Where we saw the figure; none where it is from memory. */
  readonly seenAt: string | null
}

/** What a supplier's data sheet says of one hazard of a material. */
export interface StatedHazard {
  readonly hazard: HazardCode
  /** As it is printed on the sheet, for example a hazard phrase with its number. */
  readonly statement?: string | undefined
  /** How much of the dry material it is, per cent by mass, in plain digits, as printed. */
  readonly percentage?: string | undefined
}

/** What is said of a material, and who says so. */
export interface StatedHazards {
  readonly statedHazards: readonly StatedHazard[]
  /** The date that the data sheet bears, `YYYY-MM-DD`; none where there is no sheet. */
  readonly dataSheetDate: string | null
  /** The supplier's own words on handling, as printed. */
  readonly supplierWords: string | null
}

export interface Hazard {
  readonly code: HazardCode
  /** In a potter's words. */
  readonly name: string
  /** Ingredients that commonly carry it; the data sheet of the one in hand decides. */
  readonly carriedBy: readonly string[]
  readonly harm: string
  /** Beside what holds of every powder (`CARE_WITH_POWDERS`). */
  readonly care: readonly string[]
  /** In the fire it may go off as fume. */
  readonly isFumeInFire: boolean
}

/** What holds of every powder that a glaze is weighed from, dry. */
export const CARE_WITH_POWDERS: readonly string[] = [
  'Make no dust: scoop low and slowly, put the lid back at once, and add the powder to the water.',
  'Where dust cannot be avoided, wear a fitted respirator of the class that the data sheet names; P2 (FFP2, N95) is the least.',
  'Clean up wet: wipe or mop, or use a vacuum of class H with a HEPA filter. Do not sweep or blow.',
]

/** What holds of every hazardous ingredient, dry or wet. */
export const CARE_WITH_INGREDIENTS: readonly string[] = [
  'Wear gloves, and cover broken skin.',
  'No food, drink or smoking at the bench. Wash hands before any of them.',
  'Keep it labelled and shut, out of reach of children, and out of the sink.',
]

/** What holds of ingredients that go off in the fire. */
export const CARE_WITH_FUME =
  'It may go off as fume in the fire: vent the kiln outdoors, and do not stand over it.'

/** Whose word comes before anything that is said here. */
export const HAZARDS_DEFER_TO =
  "The supplier's data sheet, local law and licensed practice come first. These are published limits for the air that a person breathes; nothing here measures air or judges a room."

/** Where a figure is left out. */
export const SEE_THE_LIST = "see the authority's list"

const SENSITISES = 'It can bring on an allergy of the skin: keep it off.'
const ASK_FIRST =
  'Ask whether another ingredient will do; the law may forbid it or ask for more care than this.'

/**
 * The hazards of glaze ingredients, with what to do.
 *
 * Which ingredients carry them is common practice in the trade and no measurement.
 *
 * Units: none.
 * Source: usual cautions of data sheets and authorities; no single document. The data sheet of the
 * material in hand comes first.
 */
export const HAZARDS: readonly Hazard[] = [
  {
    code: 'silica',
    name: 'Silica',
    carriedBy: ['flint', 'quartz', 'most clays', 'feldspars', 'nepheline syenite', 'talc (some)'],
    harm: 'Fine crystalline dust of it scars the lungs for good.',
    care: ['Keep it wet wherever the work allows.'],
    isFumeInFire: false,
  },
  {
    code: 'manganese',
    name: 'Manganese',
    carriedBy: ['manganese dioxide', 'manganese carbonate', 'umber', 'many black and brown stains'],
    harm: 'Its dust and its kiln fume, breathed in over time, harm the nerves.',
    care: ['Use no more of it than the glaze needs; washes and slips of it fume most.'],
    isFumeInFire: true,
  },
  {
    code: 'barium',
    name: 'Barium',
    carriedBy: ['barium carbonate', 'barium frits'],
    harm: 'Barium carbonate is a poison when swallowed or breathed in.',
    care: ['Keep it away from mouths, and apart from whatever looks like flour.'],
    isFumeInFire: false,
  },
  {
    code: 'lithium',
    name: 'Lithium',
    carriedBy: ['lithium carbonate', 'spodumene', 'petalite', 'lepidolite'],
    harm: 'Lithium carbonate is harmful when swallowed and hurts the eyes; the minerals are dusty.',
    care: ['Wear eye protection with lithium carbonate.'],
    isFumeInFire: false,
  },
  {
    code: 'lead',
    name: 'Lead',
    carriedBy: ['lead bisilicate', 'lead frits', 'red lead', 'white lead', 'galena'],
    harm: 'It gathers in the body and harms nerves, blood and unborn children.',
    care: [ASK_FIRST, 'Keep its clothes and tools apart, and take none of them home.'],
    isFumeInFire: true,
  },
  {
    code: 'cadmium',
    name: 'Cadmium',
    carriedBy: ['red, orange and yellow cadmium stains', 'some bright enamels'],
    harm: 'Breathed in it harms kidneys and lungs, and can cause cancer.',
    care: [ASK_FIRST],
    isFumeInFire: true,
  },
  {
    code: 'chromium',
    name: 'Chromium',
    carriedBy: ['chromium oxide', 'iron chromate', 'potassium dichromate', 'green and pink stains'],
    harm: 'Dichromates and chromates burn, sensitise and can cause cancer; the green oxide is milder.',
    care: [SENSITISES, 'Leave dichromates out where the green oxide will do.'],
    isFumeInFire: true,
  },
  {
    code: 'cobalt',
    name: 'Cobalt',
    carriedBy: ['cobalt oxide', 'cobalt carbonate', 'cobalt sulphate', 'blue stains'],
    harm: 'Breathed in it can bring on asthma, and it may cause cancer.',
    care: [SENSITISES],
    isFumeInFire: false,
  },
  {
    code: 'nickel',
    name: 'Nickel',
    carriedBy: ['nickel oxide', 'nickel carbonate', 'some grey and brown stains'],
    harm: 'Breathed in it can cause cancer and asthma.',
    care: [SENSITISES],
    isFumeInFire: false,
  },
  {
    code: 'vanadium',
    name: 'Vanadium',
    carriedBy: ['vanadium pentoxide', 'yellow and turquoise vanadium stains'],
    harm: 'Its dust and fume irritate eyes, throat and lungs.',
    care: ['Wear eye protection with vanadium pentoxide.'],
    isFumeInFire: true,
  },
]

/**
 * What is known of one hazard.
 *
 * Units: none. Source: `HAZARDS`.
 */
export function hazardOf(code: HazardCode): Hazard {
  const found = HAZARDS.find((hazard) => hazard.code === code)
  if (found === undefined) throw new Error(`No words for the hazard ${code}.`)
  return found
}

/**
 * Whether limits of a place are told here at all.
 *
 * Units: none. Source: `LIMIT_JURISDICTIONS`.
 */
export function isLimitJurisdiction(place: Jurisdiction): place is LimitJurisdiction {
  return (LIMIT_JURISDICTIONS as readonly string[]).includes(place)
}

/**
 * What is stated of a material, with silica where its silica fraction says that it holds some and no
 * hazard does.
 *
 * Units: a fraction of the dry mass. Source: the data sheet, as it was entered.
 */
export function withSilicaOf(
  stated: readonly StatedHazard[],
  crystallineSilicaFraction: string | null,
): readonly StatedHazard[] {
  const isSaid = stated.some(({ hazard }) => hazard === 'silica')
  const holdsNone = crystallineSilicaFraction === null || Number(crystallineSilicaFraction) <= 0
  return isSaid || holdsNone ? stated : [...stated, { hazard: 'silica' }]
}

/**
 * Hazards that an ingredient of this name commonly carries, to ask about when it is written down.
 *
 * It is a hint from the name alone: what the data sheet states decides.
 *
 * Units: none. Source: `HAZARDS`.
 */
export function hazardsHintedBy(name: string): readonly HazardCode[] {
  const spelt = name.toLowerCase()
  return HAZARDS.filter((hazard) =>
    [hazard.name, ...hazard.carriedBy].some((carrier) => spelt.includes(carrier.toLowerCase())),
  ).map(({ code }) => code)
}
