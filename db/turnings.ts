import { sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { dryGramsAPiece, kilnOutcome, type KilnOutcome } from '../shared/kiln-outcome.ts'
import { isAlive } from '../shared/run-flows.ts'
import { turnedOffShare, type TurnedOffShare, type Turning } from '../shared/turned-off.ts'
import { piecesByStage } from '../shared/yield.ts'
import type { Transaction } from './connection.ts'
import { isoText } from './report-reading.ts'
import { readRunFlows, type NamedRunFlows } from './run-flows.ts'

/** When a run was thrown, by whom, and what was turned off it. */
interface RunTurning {
  readonly runId: string
  readonly thrownAt: string
  readonly maker: string | null
  /** True where an entry of turning names somebody else than the maker. */
  readonly isTurnedByAnother: boolean
  /** Null where it was not turned. */
  readonly turning: Turning | null
}

type Row = {
  runId: string
  thrownAt: string
  maker: string | null
  isTurnedByAnother: boolean
  turnedOff: string | null
  turnedOffUncertainty: string | null
  before: string | null
}

/**
 * The turnings of each run of a studio, or of one form, in order of throwing.
 *
 * Entries that were taken back count for nothing. What was there before is what came to the run's
 * greenware until it was first turned; throwing comes first also where both are told of one moment.
 *
 * Grain: one row a run. Units: grams of dry clay. A wrong water content is wrong for all turnings of a
 * run alike, so their uncertainties add up.
 */
async function readTurnings(
  ledger: Transaction,
  { studioId, formId }: { readonly studioId: string; readonly formId?: string | undefined },
): Promise<RunTurning[]> {
  const ofForm = sql`n.studio_id = ${studioId}
    ${formId === undefined ? sql`` : sql`and n.form_id = ${formId}`}`
  const rows = await ledger.execute<Row>(sql`
    with moved as (
      select h.run_id, n.maker, e.entry_id, e.kind, e.happened_at, e.recorded_by, l.dry_grams
        from run n
        join holding h on h.studio_id = n.studio_id and h.run_id = n.run_id
                      and h.place = 'greenware'
        join line l on l.studio_id = h.studio_id and l.holding_id = h.holding_id
        join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
       where ${ofForm} and e.reverses_entry_id is null
         and not exists (select from entry t where t.studio_id = e.studio_id
                                               and t.reverses_entry_id = e.entry_id)),
    first_turned as (
      select distinct on (m.run_id) m.run_id, m.entry_id, m.happened_at
        from moved m where m.kind = 'turn'
       order by m.run_id, m.happened_at, m.entry_id),
    turned as (
      select m.run_id, -sum(m.dry_grams) as grams, sum(s.uncertainty) as uncertainty,
             bool_or(m.recorded_by <> m.maker) as by_another
        from moved m
        left join (select entry_id, sum(standard_uncertainty_grams) as uncertainty
                     from estimate where studio_id = ${studioId} and "of" = 'turnings'
                    group by 1) s on s.entry_id = m.entry_id
       where m.kind = 'turn' group by 1),
    before as (
      select m.run_id, sum(m.dry_grams) as grams
        from moved m
        join first_turned f on f.run_id = m.run_id
       where m.kind <> 'turn'
         and (m.happened_at < f.happened_at
              or m.happened_at = f.happened_at
                 and (m.kind in ('throw', 'open_books') or m.entry_id < f.entry_id))
       group by 1)
    select n.run_id as "runId", ${isoText(sql`n.thrown_at`)} as "thrownAt", n.maker as "maker",
           coalesce(t.by_another, false) as "isTurnedByAnother", t.grams as "turnedOff",
           t.uncertainty as "turnedOffUncertainty", b.grams as "before"
      from run n
      left join turned t on t.run_id = n.run_id
      left join before b on b.run_id = n.run_id
     where ${ofForm}
     order by n.thrown_at, n.run_id`)
  return rows.map(({ turnedOff, turnedOffUncertainty, before, ...run }) => ({
    ...run,
    turning:
      turnedOff === null
        ? null
        : {
            turnedOffDryGrams: decimal(turnedOff),
            turnedOffUncertaintyGrams: decimal(turnedOffUncertainty ?? 0),
            beforeDryGrams: decimal(before ?? 0),
          },
  }))
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
      dryGramsAPiece: dryGramsAPiece(flows),
    }
  })
}
