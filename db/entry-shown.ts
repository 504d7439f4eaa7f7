import type { EntryFacts } from './entry-facts.ts'
import type { LineSure } from './line-sure.ts'

/** An entry as it is shown: what happened, what was read, what it was taken to mean, what moved. */
export interface EntryView extends EntryFacts {
  readonly entryId: string
  readonly kind: string
  readonly happenedAt: string
  readonly recordedAt: string
  readonly recordedBy: string | null
  readonly note: string | null
  readonly reversesEntryId: string | null
  readonly reversedByEntryId: string | null
  readonly said: unknown
  readonly lines: readonly LineView[]
  readonly weighings: readonly WeighingView[]
  readonly estimates: readonly EstimateView[]
}

export interface LineView extends LineSure {
  readonly lineNo: number
  readonly holdingId: string
  readonly place: string
  readonly bodyId: string | null
  readonly materialId: string | null
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly grade: string | null
  readonly dryGrams: string
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
  /** By layer, what of the cost is no clay's. */
  readonly costLayers: unknown
}

export interface WeighingView {
  readonly weighingNo: number
  readonly purpose: string
  readonly kind: string
  readonly asRead: unknown
  readonly grossGrams: string
  readonly tareGrams: string
  readonly netGrams: string
  readonly standardUncertaintyGrams: string
  readonly vesselId: string | null
  readonly scaleId: string | null
  readonly weighedAt: string
  readonly weighedBy: string | null
}

export interface EstimateView {
  readonly estimateNo: number
  readonly holdingId: string
  readonly of: string
  readonly dryGrams: string
  readonly waterGrams: string
  readonly method: string
  readonly standing: string
  readonly standardUncertaintyGrams: string
  readonly weighingNo: number | null
}
