import { HAZARD_LIMITS_US } from './hazard-limits-america.ts'
import { HAZARD_LIMITS_EU, HAZARD_LIMITS_GB } from './hazard-limits-europe.ts'
import {
  HAZARD_CODES,
  SEE_THE_LIST,
  isLimitJurisdiction,
  type HazardCode,
  type HazardLimit,
  type LimitJurisdiction,
} from './material-hazards.ts'
import { SILICA_LIMITS, type Jurisdiction, type SilicaLimit } from './silica.ts'

/** A limit that is not told here, because we neither saw it nor are sure of it. */
export interface LimitLeftOut {
  readonly hazard: HazardCode
  readonly jurisdiction: LimitJurisdiction
  readonly authority: string
  readonly what: string
  readonly words: string
}

/**
 * Published limits for what harms in glaze ingredients, in the air that a person breathes.
 *
 * Units: milligrams in a cubic metre of air, over the time that each row names.
 * Source: the `document` of each row, with how it was read in `standing` and where in `seenAt`.
 */
export const HAZARD_LIMITS: readonly HazardLimit[] = [
  ...SILICA_LIMITS.flatMap(asHazardLimit),
  ...HAZARD_LIMITS_GB,
  ...HAZARD_LIMITS_US,
  ...HAZARD_LIMITS_EU,
]

function asHazardLimit(limit: SilicaLimit): HazardLimit[] {
  if (!isLimitJurisdiction(limit.jurisdiction)) return []
  return [
    {
      ...limit,
      jurisdiction: limit.jurisdiction,
      hazard: 'silica',
      measured: 'respirable crystalline silica',
      kind: 'average',
      published: null,
      seenAt: null,
    },
  ]
}

const AUTHORITIES: Readonly<Record<LimitJurisdiction, string>> = {
  GB: 'Health and Safety Executive',
  US: 'OSHA',
  EU: 'European Union',
  AU: 'Safe Work Australia',
}
/** Australia's whole list is replaced on 1 December 2026; we saw neither list for these. */
const WITHOUT_AUSTRALIA: readonly HazardCode[] = HAZARD_CODES.filter((code) => code !== 'silica')

/**
 * The limits that are not told here.
 *
 * Units: none. Source: what we could not see; a wrong limit is worse than none.
 */
export const LIMITS_LEFT_OUT: readonly LimitLeftOut[] = [
  leftOut('GB', 'lithium', 'compounds of lithium'),
  leftOut('US', 'lithium', 'compounds of lithium'),
  leftOut('EU', 'lithium', 'compounds of lithium'),
  leftOut('GB', 'chromium', 'chromates and dichromates'),
  leftOut('EU', 'cobalt', 'cobalt and its compounds'),
  leftOut('EU', 'vanadium', 'vanadium and its compounds'),
  ...WITHOUT_AUSTRALIA.map((code) => leftOut('AU', code, `${code} and its compounds`)),
]

function leftOut(jurisdiction: LimitJurisdiction, hazard: HazardCode, what: string): LimitLeftOut {
  const authority = AUTHORITIES[jurisdiction]
  const words = `${jurisdiction}, ${what}: ${SEE_THE_LIST} (${authority}).`
  return { hazard, jurisdiction, authority, what, words }
}

/**
 * What is published of one hazard at a place, and what is left out; of all places where the place
 * has none here.
 *
 * Units: as `HAZARD_LIMITS`. Source: as each row says.
 */
export function limitsOfHazard(
  code: HazardCode,
  place: Jurisdiction,
): { readonly limits: readonly HazardLimit[]; readonly leftOut: readonly LimitLeftOut[] } {
  const isOf = (row: { hazard: HazardCode; jurisdiction: LimitJurisdiction }) =>
    row.hazard === code && (!isLimitJurisdiction(place) || row.jurisdiction === place)
  return { limits: HAZARD_LIMITS.filter(isOf), leftOut: LIMITS_LEFT_OUT.filter(isOf) }
}
