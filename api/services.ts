import type { Services } from '../db/perform.ts'
import type { Voice } from './pages/voice.ts'

/** One line of the log: what happened, in named facts that hold nothing of what a caller sent. */
export type LogFacts = Readonly<Record<string, string | number | undefined>>

export interface Logger {
  readonly info: (message: string, facts?: LogFacts) => void
  readonly error: (message: string, facts?: LogFacts) => void
}

/** What every route works with: the ledger, the clock, the maker of ids, and where to write lines. */
export interface ApiServices extends Services {
  readonly log: Logger
}

/** What a request carries through the routes. */
export interface Environment {
  Variables: {
    services: ApiServices
    requestId: string
    studioId: string
    /** How the studio says things; set for every page that is a studio's. */
    voice: Voice
    /** Who works at this phone or table, where somebody said so. */
    by: string | undefined
    /** How light the room is, where somebody said so. */
    light: 'dim' | 'bright' | undefined
  }
}
