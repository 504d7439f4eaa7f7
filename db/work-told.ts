import type { ReclaimWay } from '../shared/reclaim-worth.ts'

/** What may be told of the work of an act; it moves nothing. */
export interface MinutesTold {
  /** How long hands were at it, drying and waiting left out. */
  readonly minutes?: string | undefined
}

/** The same of an act that makes clay of scrap, with how that was done. */
export interface WayTold extends MinutesTold {
  readonly way?: ReclaimWay | undefined
}
