import type { Transaction } from './connection.ts'
import { findMaterial, refuseOtherKinds } from './materials.ts'
import { pointingAt } from './readings.ts'

/** What goes with each sold piece of a form: pieces of what is counted, grams as supplied of what is weighed. */
export interface PackingPart {
  readonly materialId: string
  readonly perPiece: string
}

/**
 * Asks that what a form is packed in is there and is packaging.
 *
 * Refuses: `material_not_found`, `material_must_be_of_the_kind`, each at the line that names it.
 */
export async function refuseWrongPacking(
  ledger: Transaction,
  studioId: string,
  packing: readonly PackingPart[],
): Promise<void> {
  for (const [index, { materialId }] of packing.entries()) {
    const pointer = `/packing/${String(index)}/materialId`
    const found = await pointingAt(pointer, () => findMaterial(ledger, studioId, materialId))
    refuseOtherKinds(found, ['packaging'], pointer)
  }
}
