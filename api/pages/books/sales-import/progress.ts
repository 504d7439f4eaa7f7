import { z } from 'zod'
import type { KnownSale } from '../../../../shared/sales-identity.ts'
import type { Typed } from '../../typed.ts'
import type { SalePlanned } from './planned.ts'

/** A sale that the books did not take, and why. */
export interface SaleRefused {
  readonly sale: KnownSale
  readonly detail: string
}

export interface Outcome {
  readonly recorded: readonly KnownSale[]
  /** Recorded meanwhile by another press. */
  readonly knownMeanwhile: readonly KnownSale[]
  readonly refused: readonly SaleRefused[]
}

const place = z.int().min(0)

const progressSchema = z.object({
  /** The place in the plan from which to go on. */
  from: place,
  recorded: z.array(place),
  knownMeanwhile: z.array(place),
  /** What was not taken: its place, and which of the words below say why. */
  refused: z.array(z.tuple([place, place])),
  words: z.array(z.string()),
})

/** How far a long file has come: places in its plan, which is the same at each press. */
export type Progress = z.infer<typeof progressSchema>

const NOTHING_YET: Progress = { from: 0, recorded: [], knownMeanwhile: [], refused: [], words: [] }

/** What the form says of how far it has come; the beginning where it says nothing sound. */
export function progressOf(typed: Typed): Progress {
  try {
    const read = progressSchema.safeParse(JSON.parse(typed.text('progress') ?? 'null'))
    return read.success ? read.data : NOTHING_YET
  } catch {
    return NOTHING_YET
  }
}

/** All that came of the file so far: what earlier presses did, and what this one did. */
export function outcomeOf(planned: readonly SalePlanned[], progress: Progress): Outcome {
  const salesAt = (places: readonly number[]) =>
    places.flatMap((one) => (planned[one] === undefined ? [] : [planned[one].sale]))
  return {
    recorded: salesAt(progress.recorded),
    knownMeanwhile: salesAt(progress.knownMeanwhile),
    refused: progress.refused.flatMap(([one, words]) => {
      const sale = planned[one]?.sale
      return sale === undefined ? [] : [{ sale, detail: progress.words[words] ?? '' }]
    }),
  }
}
