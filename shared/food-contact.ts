import type { Jurisdiction } from './silica.ts'

/** A published test, or a limit of one, for what a glaze gives off to food. */
export interface FoodContactText {
  readonly jurisdiction: Jurisdiction
  readonly authority: string
  readonly document: string
  /** The date of the document or of the copy that we saw; none where we know of none. */
  readonly published: string | null
  readonly asOf: string
  readonly standing: 'seen' | 'second-hand' | 'from memory'
  readonly seenAt: string | null
  readonly limits: readonly FoodContactLimit[]
  readonly note: string
}

export interface FoodContactLimit {
  readonly ware: string
  readonly metal: 'lead' | 'cadmium'
  readonly amount: string
  /** Given off to the test liquid: by its volume, or by the area that touches it. */
  readonly unit: 'mg/L' | 'mg/dm²'
}

/** What is said wherever a glaze and food come together, and nothing more. */
export const FOOD_CONTACT_WORDS: readonly string[] = [
  'Whether a glaze is fit for food is for a laboratory and local law to say. Nothing here judges a glaze.',
  'A recipe does not show it: the same glaze can give off more after another firing, in another thickness, or over another clay or colour.',
  'Have finished, fired pots tested, and again when an ingredient, its supplier, the recipe or the firing changes.',
  'The limits below are of lead and cadmium. Other metals in glazes have limits in some places: ask.',
]

function limitsOf(
  ware: string,
  unit: FoodContactLimit['unit'],
  { lead, cadmium }: { readonly lead?: string; readonly cadmium?: string },
): FoodContactLimit[] {
  return [
    ...(lead === undefined ? [] : [{ ware, metal: 'lead' as const, amount: lead, unit }]),
    ...(cadmium === undefined ? [] : [{ ware, metal: 'cadmium' as const, amount: cadmium, unit }]),
  ]
}

/**
 * Published tests and limits for lead and cadmium that ware gives off to food.
 *
 * Units: milligrams in a litre of the test liquid, or from a square decimetre of ware.
 * Source: the `document` of each row, read as its `standing` and `seenAt` say. They change: ask a
 * laboratory.
 */
export const FOOD_CONTACT_TEXTS: readonly FoodContactText[] = [
  {
    jurisdiction: 'other',
    authority: 'ISO',
    document: 'ISO 6486-1:2019, release of lead and cadmium: test method',
    published: '2019-08-28',
    asOf: '2026-11',
    standing: 'seen',
    seenAt: 'https://evs.ee/en/iso-6486-1-2019',
    limits: [],
    note: 'The method. Its text is sold; we saw its title and scope.',
  },
  {
    jurisdiction: 'other',
    authority: 'ISO',
    document: 'ISO 6486-2:1999, release of lead and cadmium: permissible limits',
    published: '1999-12-16',
    asOf: '2026-11',
    standing: 'seen',
    seenAt: 'https://evs.ee/en/iso-6486-1-2019',
    limits: [],
    note: "The limits are not told here: see the authority's list. A new edition was being drafted in November 2025.",
  },
  {
    jurisdiction: 'EU',
    authority: 'European Union',
    document: 'Council Directive 84/500/EEC, article 2, as amended by Directive 2005/31/EC',
    published: '1984-10-15',
    asOf: '2026-11',
    standing: 'seen',
    seenAt:
      'http://sfpp3.agroparistech.fr/cache/EU/Guidance_documents/practicalguide/practicalguide-118.html',
    limits: [
      ...limitsOf('cannot be filled, or at most 25 mm deep', 'mg/dm²', {
        lead: '0.8',
        cadmium: '0.07',
      }),
      ...limitsOf('all else that can be filled', 'mg/L', { lead: '4.0', cadmium: '0.3' }),
      ...limitsOf('for cooking; for storing more than 3 L', 'mg/L', {
        lead: '1.5',
        cadmium: '0.1',
      }),
    ],
    note: 'A written declaration goes with the ware. Lower limits have been under discussion for years.',
  },
  {
    jurisdiction: 'US',
    authority: 'Food and Drug Administration',
    document: "Food Code 4-101.13 (lead), as printed in Washington State's WAC 246-215-04110",
    published: '2022-03-01',
    asOf: '2026-11',
    standing: 'second-hand',
    seenAt:
      'https://lawfilesext.leg.wa.gov/Law/WACArchive/2022/htm/WAC%20246%20%20TITLE/WAC%20246%20-215%20%20CHAPTER/WAC%20246%20-215%20-04110.htm',
    limits: [
      ...limitsOf('plates and saucers', 'mg/L', { lead: '3.0' }),
      ...limitsOf('bowls under 1.1 L', 'mg/L', { lead: '2.0' }),
      ...limitsOf('bowls of 1.1 L and more', 'mg/L', { lead: '1' }),
      ...limitsOf('cups, mugs and pitchers', 'mg/L', { lead: '0.5' }),
    ],
    note: 'Some states ask for more.',
  },
  {
    jurisdiction: 'US',
    authority: 'Food and Drug Administration',
    document: 'Compliance Policy Guide 545.400, pottery: cadmium',
    published: null,
    asOf: '2026-11',
    standing: 'second-hand',
    seenAt: 'https://haowendang.cn/c9cr0m9icr12wkqq4m2j6_1.html',
    limits: [
      ...limitsOf('at most 25 mm deep, mean of six', 'mg/L', { cadmium: '0.5' }),
      ...limitsOf('deeper, under 1.1 L, any one of six', 'mg/L', { cadmium: '0.5' }),
      ...limitsOf('deeper, 1.1 L and more, any one of six', 'mg/L', { cadmium: '0.25' }),
    ],
    note: 'Read in an undated copy, which prints micrograms in a millilitre: the same figure.',
  },
]
