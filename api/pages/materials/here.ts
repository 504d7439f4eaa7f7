import type { Context } from 'hono'
import { materialsHere, type MaterialsHere } from '../../../db/reports/materials-here.ts'
import { hazardCautions } from '../../../shared/hazard-cautions.ts'
import { withSilicaOf } from '../../../shared/material-hazards.ts'
import type { MaterialKind } from '../../../shared/material.ts'
import { Refusal } from '../../../shared/refusal.ts'
import type { Caution } from '../../../shared/silica.ts'
import type { Environment } from '../../services.ts'
import { allMaterials, type Material } from '../things.ts'
import type { Voice } from '../voice.ts'

export type OnShelf = MaterialsHere[number]

/** A material, what of it is on the shelf, and what harms in it. */
export interface MaterialAtHand {
  readonly material: Material
  readonly shelf: OnShelf
  readonly cautions: readonly Caution[]
}

/** The material that the address names. */
export async function materialAtHand(c: Context<Environment>): Promise<MaterialAtHand> {
  const materialId = c.req.param('materialId')
  const rows = await materialsHere(c.get('services').db, c.get('studioId'))
  const shelf = rows.find((row) => row.materialId === materialId)
  const material = (await allMaterials(c)).find((one) => one.materialId === materialId)
  if (shelf === undefined || material === undefined) {
    throw new Refusal('material_not_found', 'There is no such material in this studio.')
  }
  return { material, shelf, cautions: cautionsOf(material, c.get('voice')) }
}

/** What harms in a powder, as its data sheet was entered. */
function cautionsOf(material: Material, voice: Voice): readonly Caution[] {
  const { name, kind, hazards, crystallineSilicaFraction } = material
  const { jurisdiction } = voice.studio
  const materials = [{ name, statedHazards: withSilicaOf(hazards, crystallineSilicaFraction) }]
  return hazardCautions({ materials, isDry: isPowder(kind), jurisdiction })
}

export function isPowder(kind: MaterialKind): boolean {
  return kind === 'ingredient' || kind === 'glaze'
}

/** So much of it as lies there: `12.4 kg`, `40 pieces`. */
export function amountWords({ keptBy, pieces, wetGrams }: OnShelf, voice: Voice): string {
  if ((keptBy === 'mass' ? wetGrams : pieces) === '0') return 'none'
  if (keptBy === 'mass') return voice.mass(wetGrams)
  return `${pieces} ${pieces === '1' ? 'piece' : 'pieces'}`
}
