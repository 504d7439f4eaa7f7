import { decimal } from '../../../shared/decimal.ts'
import { waterContentWetBasisOf } from '../../../shared/quantity.ts'
import { silicaCautions, type Caution, type Jurisdiction } from '../../../shared/silica.ts'
import type { Body } from '../things.ts'

/** Clay that may be handled: of which body, and how wet by the books. */
interface ClayThere {
  readonly bodyId: string | null
  readonly dryGrams: string
  readonly waterGrams: string
}

/** What to know before any of the clays that are offered is handled: of the first that is dry. */
export function dustCautions(
  clays: readonly ClayThere[],
  of: { readonly bodies: readonly Body[]; readonly jurisdiction: Jurisdiction },
): readonly Caution[] {
  const cautions = clays.map((clay) => cautionsOf(clay, of))
  return cautions.find((some) => some.length > 0) ?? []
}

function cautionsOf(
  { bodyId, dryGrams, waterGrams }: ClayThere,
  of: { readonly bodies: readonly Body[]; readonly jurisdiction: Jurisdiction },
): readonly Caution[] {
  const threshold = of.bodies.find((body) => body.bodyId === bodyId)?.dustThresholdWetBasis
  return silicaCautions({
    handlesDryClay: false,
    dryAct: undefined,
    waterContentWetBasis: waterContentWetBasisOf({
      dryGrams: decimal(dryGrams),
      waterGrams: decimal(waterGrams),
    }),
    dustThresholdWetBasis:
      threshold === undefined || threshold === null ? undefined : decimal(threshold),
    jurisdiction: of.jurisdiction,
  })
}

/** What to know before powders are mixed in. */
export function powderCautions(jurisdiction: Jurisdiction): readonly Caution[] {
  return silicaCautions({
    handlesDryClay: false,
    dryAct: 'mixing_powders',
    waterContentWetBasis: undefined,
    dustThresholdWetBasis: undefined,
    jurisdiction,
  })
}
