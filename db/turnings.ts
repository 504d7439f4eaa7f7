import { sql } from 'drizzle-orm'
import type { Decimal } from '../shared/decimal.ts'
import { dryGramsAPiece, kilnOutcome, type KilnOutcome } from '../shared/kiln-outcome.ts'
import { isAlive } from '../shared/run-flows.ts'
import {
  potsOverBooked,
  turnedOffShare,
  turningOf,
  type TurnedOffShare,
  type Turning,
} from '../shared/turned-off.ts'
import { piecesByStage } from '../shared/yield.ts'
import type { Transaction } from './connection.ts'
import { isoText } from './report-reading.ts'
import { readRunFlows, type NamedRunFlows } from './run-flows.ts'
import { readPotsMoves, type NamedMove, type RunsAsked } from './turning-moves.ts'

/** When a run was thrown, by whom, and what was turned off it. */
interface RunTurning {
  readonly runId: string
  readonly thrownAt: string
  readonly maker: string | null
  /** True where an entry of turning names somebody else than the maker. */
  readonly isTurnedByAnother: boolean
  /** Null where it was not turned. */
  readonly turning: Turning | null
  /** Its dry clay as one knows now, over what the books had of it before the fire. */
  readonly potsOverBooked: Decimal
}

type RunRow = { runId: string; thrownAt: string; maker: string | null }

/**
 * The turnings of each run of a studio, or of one form, in order of throwing.
 *
 * What was there before is what came to the run's greenware until it was first turned.
 *
 * Grain: one row a run. Units: grams of dry clay.
 */
async function readTurnings(ledger: Transaction, asked: RunsAsked): Promise<RunTurning[]> {
  const { studioId, formId } = asked
  const rows = await ledger.execute<RunRow>(sql`
    select n.run_id as "runId", ${isoText(sql`n.thrown_at`)} as "thrownAt", n.maker as "maker"
      from run n
     where n.studio_id = ${studioId} ${formId === undefined ? sql`` : sql`and n.form_id = ${formId}`}
     order by n.thrown_at, n.run_id`)
  const moves = await readPotsMoves(ledger, asked)
  return rows.map((run) => {
    const ofRun = moves.get(run.runId) ?? []
    return {
      ...run,
      turning: turningOf(ofRun),
      potsOverBooked: potsOverBooked(ofRun),
      isTurnedByAnother: isByAnother(run, ofRun),
    }
  })
}

function isByAnother({ maker }: RunRow, moves: readonly NamedMove[]): boolean {
  if (maker === null) return false
  return moves.some(
    ({ kind, recordedBy }) => kind === 'turn' && recordedBy !== null && recordedBy !== maker,
  )
}

/** A run with all that the turning report asks of it. */
export interface TurnedRunFlows extends RunTurning {
  readonly flows: NamedRunFlows
  /** Null where it was not turned, or where the books do not tell from what. */
  readonly share: TurnedOffShare | null
  /** Null while some of its pots wait between the kilns, or none has been fired. */
  readonly outcome: KilnOutcome | null
  readonly dryGramsAPiece: Decimal | null
}

/** The runs of a studio, or of one form, in order of throwing; those that were taken back left out. */
export async function readTurnedRuns(
  ledger: Transaction,
  asked: {
    readonly studioId: string
    readonly timeZone: string
    readonly formId?: string | undefined
  },
): Promise<TurnedRunFlows[]> {
  const all = await readRunFlows(ledger, asked)
  const flowsOf = new Map(all.filter(isAlive).map((run) => [run.runId, run]))
  return (await readTurnings(ledger, asked)).flatMap((run) => {
    const flows = flowsOf.get(run.runId)
    if (flows === undefined) return []
    const { turning } = run
    return {
      ...run,
      flows,
      share: turning === null ? null : turnedOffShare(turning),
      outcome: kilnOutcome(piecesByStage(flows)),
      dryGramsAPiece: dryGramsAPiece(flows)?.times(run.potsOverBooked) ?? null,
    }
  })
}
