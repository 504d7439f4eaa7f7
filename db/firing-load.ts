import { decimal, type Decimal } from '../shared/decimal.ts'
import type { LoadedPots } from '../shared/firing-share.ts'
import type { Transaction } from './connection.ts'
import { findForm, findRun } from './studio.ts'

/** Pots of a run in a kiln. */
export interface PotsInKiln {
  readonly runId: string
  readonly pieces: Decimal
  /** Dry clay of all of them. */
  readonly dryGrams: Decimal
}

/** What is in a kiln with the room that it takes. Units: pieces, grams. Refuses: `run_not_found`. */
export async function loadOf(
  ledger: Transaction,
  studioId: string,
  pots: readonly PotsInKiln[],
): Promise<LoadedPots[]> {
  const load: LoadedPots[] = []
  for (const { runId, pieces, dryGrams } of pots) {
    const run = await findRun(ledger, studioId, runId)
    const form = await findForm(ledger, studioId, run.formId)
    const [footprint, height] = [
      decimalOr(form.kilnFootprintSquareCentimetres),
      decimalOr(form.kilnHeightCentimetres),
    ]
    const room =
      footprint === null || height === null
        ? null
        : { footprintSquareCentimetres: footprint, heightCentimetres: height }
    load.push({ name: form.name, pieces, dryGrams, room })
  }
  return load
}

export function decimalOr(text: string | null): Decimal | null {
  return text === null ? null : decimal(text)
}
