import type { Context } from 'hono'
import { boardsReport, type BoardOfPots } from '../../../db/reports/boards.ts'
import { traceRun, type RunTraced } from '../../../db/reports/runs.ts'
import { POT_PLACES, type PotPlace } from '../../../shared/place.ts'
import type { Environment } from '../../services.ts'

/** A run, and what the books know of its drying where some of it is unfired. */
export interface RunHere {
  readonly run: RunTraced
  readonly board: BoardOfPots | undefined
}

export async function runHere(c: Context<Environment>): Promise<RunHere> {
  const { db, now } = c.get('services')
  const studioId = c.get('studioId')
  const runId = c.req.param('runId') ?? ''
  const run = await traceRun(db, { studioId, runId })
  const boards = await boardsReport(db, { studioId, now: now() })
  return { run, board: boards.find((board) => board.runId === runId) }
}

/** The places where some of its pieces are, in the order in which pots pass. */
export function placesOf(run: RunTraced): PotPlace[] {
  return POT_PLACES.filter((place) =>
    run.isNow.some((held) => held.place === place && held.pieces !== '0'),
  )
}
