import { limitsOfHazard } from './hazard-limits.ts'
import {
  CARE_WITH_FUME,
  CARE_WITH_INGREDIENTS,
  CARE_WITH_POWDERS,
  HAZARDS,
  HAZARDS_DEFER_TO,
  type Hazard,
  type StatedHazard,
} from './material-hazards.ts'
import { silicaCautions, type Caution, type Jurisdiction } from './silica.ts'

export interface HandledMaterial {
  readonly name: string
  readonly statedHazards: readonly StatedHazard[]
}

export interface MaterialHandling {
  readonly materials: readonly HandledMaterial[]
  /** The powder is dry: it can dust. */
  readonly isDry: boolean
  readonly jurisdiction: Jurisdiction
}

/**
 * The cautions that go before materials are weighed, mixed or delivered: one a hazard, however many
 * materials carry it.
 *
 * Of silica only where it is dry, in the words of dry work with clay. Nothing is reckoned of how much
 * there is or of the air.
 *
 * Shape: at most one caution for each of `HAZARD_CODES`, in their order.
 * Units: none.
 * Source: what the suppliers' data sheets state, and `HAZARDS`.
 */
export function hazardCautions(handled: MaterialHandling): Caution[] {
  return HAZARDS.flatMap((hazard) => {
    const carriers = carriersOf(hazard, handled.materials)
    if (carriers.length === 0) return []
    if (hazard.code === 'silica') return silicaOf(handled, carriers)
    return [cautionOf(hazard, carriers, handled)]
  })
}

interface Carrier {
  readonly name: string
  readonly stated: readonly StatedHazard[]
}

function carriersOf(hazard: Hazard, materials: readonly HandledMaterial[]): Carrier[] {
  return materials
    .map(({ name, statedHazards }) => ({
      name,
      stated: statedHazards.filter((stated) => stated.hazard === hazard.code),
    }))
    .filter(({ stated }) => stated.length > 0)
}

function silicaOf(handled: MaterialHandling, carriers: readonly Carrier[]): Caution[] {
  if (!handled.isDry) return []
  const cautions = silicaCautions({
    handlesDryClay: false,
    dryAct: 'mixing_powders',
    waterContentWetBasis: undefined,
    dustThresholdWetBasis: undefined,
    jurisdiction: handled.jurisdiction,
  })
  // The figure for when clay counts as dusty has no say in powders.
  return cautions.map(({ hazard, instead, limits, deferTo }) => ({
    hazard,
    why: `${whoSays(carriers, 'silica')} Dry powder gives off dust when it is moved.`,
    instead,
    limits,
    deferTo,
  }))
}

function cautionOf(
  hazard: Hazard,
  carriers: readonly Carrier[],
  { isDry, jurisdiction }: MaterialHandling,
): Caution {
  const { limits, leftOut } = limitsOfHazard(hazard.code, jurisdiction)
  return {
    title: hazard.name,
    hazard: `${hazard.name}: ${hazard.harm.slice(0, -1)}`,
    why: `${whoSays(carriers, hazard.name.toLowerCase())} ${hazard.harm}`,
    instead: [
      ...(isDry ? CARE_WITH_POWDERS : []),
      ...CARE_WITH_INGREDIENTS,
      ...hazard.care,
      ...(hazard.isFumeInFire ? [CARE_WITH_FUME] : []),
    ],
    limits,
    deferTo: [...leftOut.map(({ words }) => words), HAZARDS_DEFER_TO].join(' '),
  }
}

/** Which materials carry it, with what the sheet prints of it. */
function whoSays(carriers: readonly Carrier[], what: string): string {
  const named = carriers.map(({ name, stated }) => {
    const said = stated.flatMap(wordsOfSheet)
    return said.length === 0 ? name : `${name} (${said.join('; ')})`
  })
  const sentence = `${listed(named)} ${named.length === 1 ? 'holds' : 'hold'} ${what}, as stated.`
  return sentence.charAt(0).toUpperCase() + sentence.slice(1)
}

function wordsOfSheet({ statement, percentage }: StatedHazard): string[] {
  return [percentage === undefined ? '' : `${percentage} %`, statement ?? ''].filter(
    (words) => words !== '',
  )
}

function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('')
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`
}
