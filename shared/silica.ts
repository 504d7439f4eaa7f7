import { percentWords } from './percent.ts'
import { ZERO, decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'

export const JURISDICTIONS = ['GB', 'US', 'EU', 'AU', 'other'] as const
export type Jurisdiction = (typeof JURISDICTIONS)[number]

export interface SilicaLimit {
  readonly jurisdiction: Jurisdiction
  readonly authority: string
  readonly name: string
  readonly milligramsPerCubicMetre: string
  readonly averagedOver: string
  readonly document: string
  /** The date of the source, or of our reading of it. */
  readonly asOf: string
  readonly standing: 'seen' | 'second-hand' | 'from memory'
  readonly note: string
  /** What of the air is weighed; of silica, the respirable dust. */
  readonly measured?: string
  /** A ceiling is not to be passed at any moment; where nothing is said, it is an average. */
  readonly kind?: 'average' | 'ceiling'
}

/**
 * Published limits for respirable crystalline silica in the air that a person breathes.
 *
 * Units: milligrams in a cubic metre of air, averaged over the time each row names.
 * Source: the `document` of each row, with how it was read in `standing`. They change: ask the
 * authority.
 */
export const SILICA_LIMITS: readonly SilicaLimit[] = [
  {
    jurisdiction: 'GB',
    authority: 'Health and Safety Executive',
    name: 'Workplace exposure limit',
    milligramsPerCubicMetre: '0.1',
    averagedOver: '8 h',
    document: 'EH40/2005 Workplace exposure limits',
    asOf: '2026-11',
    standing: 'seen',
    note: 'In force since October 2006, 0.3 before; that the fourth edition of 2020 keeps it is from memory.',
  },
  {
    jurisdiction: 'US',
    authority: 'OSHA',
    name: 'Permissible exposure limit',
    milligramsPerCubicMetre: '0.05',
    averagedOver: '8 h',
    document: '29 CFR 1910.1053',
    asOf: '2026-11',
    standing: 'second-hand',
    note: 'Read in a report on the final rule, not in the rule.',
  },
  {
    jurisdiction: 'US',
    authority: 'OSHA',
    name: 'Action level',
    milligramsPerCubicMetre: '0.025',
    averagedOver: '8 h',
    document: '29 CFR 1910.1053',
    asOf: '2026-11',
    standing: 'second-hand',
    note: 'Duties begin here. Read in a report on the final rule, not in the rule.',
  },
  {
    jurisdiction: 'US',
    authority: 'NIOSH',
    name: 'Recommended exposure limit',
    milligramsPerCubicMetre: '0.05',
    averagedOver: 'up to 10 h a day in a 40 h week',
    document: 'NIOSH Manual of Analytical Methods, chapter R, table 2',
    asOf: '2026-11',
    standing: 'seen',
    note: 'Advice, not law.',
  },
  {
    jurisdiction: 'US',
    authority: 'ACGIH',
    name: 'Threshold limit value',
    milligramsPerCubicMetre: '0.025',
    averagedOver: '8 h',
    document: 'Threshold limit values, quartz and cristobalite',
    asOf: '2026-11',
    standing: 'seen',
    note: 'Advice, not law. Read in a university table; older tables still print 0.05.',
  },
  {
    jurisdiction: 'EU',
    authority: 'European Union',
    name: 'Occupational exposure limit',
    milligramsPerCubicMetre: '0.1',
    averagedOver: '8 h',
    document: 'Directive 2004/37/EC, annex III, as amended by Directive (EU) 2017/2398',
    asOf: '2026-11',
    standing: 'seen',
    note: 'A member state may set a lower one.',
  },
  {
    jurisdiction: 'AU',
    authority: 'Safe Work Australia',
    name: 'Workplace exposure standard',
    milligramsPerCubicMetre: '0.05',
    averagedOver: '8 h',
    document: 'Workplace exposure standard for respirable crystalline silica',
    asOf: '2026-11',
    standing: 'seen',
    note: 'From 1 December 2026 a workplace exposure limit at the same figure; a lower one has been proposed.',
  },
]

/**
 * The average exposure over a working day of eight hours.
 *
 * Time without exposure counts as clean air, so the divisor is eight hours however long the spells
 * were.
 *
 * Units: any concentration, hours; the same concentration; 60 digits.
 * Source: 29 CFR 1910.1000(d)(1)(i).
 */
export function timeWeightedAverage(
  spells: readonly { readonly concentration: Decimal; readonly hours: Decimal }[],
): Decimal {
  const sum = spells.reduce(
    (total, { concentration, hours }) => total.plus(concentration.times(hours)),
    ZERO,
  )
  return sum.dividedBy(8)
}

/** Acts that raise dust whatever the clay was before. */
export const DRY_ACTS = [
  'sweeping',
  'sanding',
  'dry_fettling',
  'crushing',
  'mixing_powders',
  'grinding_fired_ware',
  'cleaning_dry_moulds',
] as const
export type DryAct = (typeof DRY_ACTS)[number]

/**
 * The water content below which clay counts as dusty, where the studio has set none for the body.
 *
 * Units: a fraction of the wet mass.
 * Source: our choice, because no published threshold exists; air-dry clay holds one to three per cent.
 */
export const HOUSE_DUST_THRESHOLD_WET_BASIS: Decimal = decimal('0.05')

const HOUSE_LABEL = 'Our own house figure: no published moisture threshold for clay dust exists.'
const STUDIO_LABEL =
  "The studio's own figure for this body: no published moisture threshold for clay dust exists."
const DEFER_TO =
  'Local law and licensed practice come first. These are published limits for the air that a person breathes; this page measures no air and judges no room.'
const INSTEAD_OF_DRY_CLAY = [
  'Wet it first: tip it gently into water, or mist it until it no longer dusts.',
  'Do not crush, sweep or blow it. Keep drying scraps covered and out of draughts.',
  'Where dust cannot be avoided, wear a fitted respirator of class P2 (FFP2, N95) or better.',
  'Clean up wet: wipe or mop, or use a vacuum of class H with a HEPA filter.',
]
/** Pots that go into a fire are not to be wetted. */
const INSTEAD_WITH_WARE = [
  'Lift the pots gently; do not rub, scrape or blow on them.',
  'Clean shelves and boards wet afterwards: wipe or mop, or use a vacuum of class H with a HEPA filter.',
  'Where dust cannot be avoided, wear a fitted respirator of class P2 (FFP2, N95) or better.',
]
const INSTEAD_OF_ACT: Readonly<Record<DryAct, readonly string[]>> = {
  sweeping: ['Do not sweep: damp the floor down and mop, or use a vacuum of class H.'],
  sanding: ['Do not sand dry: sponge the piece, or sand it wet.'],
  dry_fettling: ['Fettle at leather-hard, or with a wet sponge.'],
  crushing: [
    'Do not crush: dry the scraps thin enough to slake whole, or break them in a closed bag.',
  ],
  mixing_powders: ['Add the powder to the water, low and slowly, never the water to the powder.'],
  grinding_fired_ware: ['Grind wet, with water on the stone.'],
  cleaning_dry_moulds: ['Wipe the mould with a damp sponge, or use a vacuum of class H.'],
}
const INSTEAD_AFTER_ACT = [
  'Where dust cannot be avoided, wear a fitted respirator of class P2 (FFP2, N95) or better.',
  'Clean up wet, the apron too.',
]

/** What to know before an act that may do harm. Plain text throughout, ready for JSON. */
export interface Caution {
  /** The word that it begins with; 'Dust' where there is none. */
  readonly title?: string
  readonly hazard: string
  readonly why: string
  readonly instead: readonly string[]
  readonly limits: readonly SilicaLimit[]
  /** Our own figure for when clay counts as dusty; only of clay. */
  readonly houseFigure?: HouseFigure
  readonly deferTo: string
}

export interface HouseFigure {
  readonly waterContentWetBasis: string
  readonly label: string
}

/** A caution for dust of clay, which always says by what figure the clay counts as dusty. */
export interface SilicaCaution extends Caution {
  readonly houseFigure: HouseFigure
}

export interface DustyAct {
  readonly handlesDryClay: boolean
  /** The dry clay is pots on their way into the kiln or out of it. */
  readonly isWare?: boolean | undefined
  /** One of `DRY_ACTS`, or another in the potter's own word. */
  readonly dryAct: string | undefined
  readonly waterContentWetBasis: Decimal | undefined
  readonly dustThresholdWetBasis: Decimal | undefined
  readonly jurisdiction: Jurisdiction
}

/**
 * The cautions that go before an act, and none when nothing is dry.
 *
 * Dry clay is dust to be: said to be dry, estimated to be drier than the threshold, or handled in a
 * way that raises dust. Published limits come with their source; where the place has none here, all
 * of them do.
 *
 * Shape: at most one caution for the clay and one for the act.
 * Units: fractions of the wet mass.
 * Source: Health and Safety Executive, ceramics silica sheets CR0 to CR4 and Australia's silica
 * agency, for what to do instead; 29 CFR 1910.1053(h) on sweeping (from memory).
 */
export function silicaCautions(act: DustyAct): SilicaCaution[] {
  const reasons = [reasonInTheClay(act), reasonInTheAct(act)]
  return reasons
    .filter((reason) => reason !== undefined)
    .map(({ why, instead }) => ({
      hazard: 'Respirable crystalline silica in clay and glaze dust',
      why,
      instead,
      limits: limitsIn(act.jurisdiction),
      houseFigure: {
        waterContentWetBasis: thresholdOf(act).toFixed(),
        label: act.dustThresholdWetBasis === undefined ? HOUSE_LABEL : STUDIO_LABEL,
      },
      deferTo: DEFER_TO,
    }))
}

type Reason = Pick<Caution, 'why' | 'instead'>

function reasonInTheClay(act: DustyAct): Reason | undefined {
  const { handlesDryClay, waterContentWetBasis: water } = act
  if (act.isWare !== true && water?.lessThan(thresholdOf(act))) {
    const why = `This clay is estimated to hold ${percentWords(water)} of its mass as water, less than the ${percentWords(thresholdOf(act))} below which we count it as dusty.`
    return { why, instead: INSTEAD_OF_DRY_CLAY }
  }
  if (!handlesDryClay) return undefined
  const instead = act.isWare === true ? INSTEAD_WITH_WARE : INSTEAD_OF_DRY_CLAY
  return { why: 'Dry clay gives off dust when it is moved.', instead }
}

function reasonInTheAct({ dryAct }: DustyAct): Reason | undefined {
  if (dryAct === undefined) return undefined
  const known = DRY_ACTS.find((act) => act === dryAct)
  const special = known === undefined ? [] : INSTEAD_OF_ACT[known]
  return {
    why: `Dust rises from dry work (${dryAct.replaceAll('_', ' ')}), whatever the clay was before.`,
    instead: [...special, ...INSTEAD_AFTER_ACT],
  }
}

/**
 * The published limits of a place, all of them where it has none here, and whose word comes first.
 *
 * Units: as `SILICA_LIMITS`. Source: as each row says.
 */
export function limitsFor(jurisdiction: Jurisdiction): {
  readonly limits: readonly SilicaLimit[]
  readonly deferTo: string
} {
  return { limits: limitsIn(jurisdiction), deferTo: DEFER_TO }
}

function limitsIn(jurisdiction: Jurisdiction): readonly SilicaLimit[] {
  if (jurisdiction === 'other') return SILICA_LIMITS
  return SILICA_LIMITS.filter((limit) => limit.jurisdiction === jurisdiction)
}

function thresholdOf({ dustThresholdWetBasis }: DustyAct): Decimal {
  return dustThresholdWetBasis ?? HOUSE_DUST_THRESHOLD_WET_BASIS
}
