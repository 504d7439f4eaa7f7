import { sql } from 'drizzle-orm'
import { decimal } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import type { ClayState, MoistureFigure } from '../shared/moisture.ts'
import type { ActKind } from '../shared/month-world.ts'
import type { PotsMove } from '../shared/turned-off.ts'
import type { Transaction } from './connection.ts'
import { findBody } from './studio.ts'
import { studioFigure, testsOf } from './water-figures.ts'

/** Which runs: those of a studio, or of one form. */
export interface RunsAsked {
  readonly studioId: string
  readonly formId?: string | undefined
}

export interface NamedMove extends PotsMove {
  readonly recordedBy: string | null
}

type Row = {
  runId: string
  entryId: string
  kind: string
  recordedBy: string | null
  dryGrams: string
  dryDoubt: unknown
  testedState: string | null
  bodyId: string | null
  state: string | null
  wetGrams: string | null
  reckonedGrams: string | null
}

/**
 * What happened to the leather-hard pots of each run, oldest first, with the figures that hold now for
 * what was reckoned with a figure.
 *
 * Entries that were taken back count for nothing; throwing comes first also where it is told of the same
 * moment as what follows it.
 *
 * Grain of the query: one row an entry and run. Units: grams.
 */
export async function readPotsMoves(
  ledger: Transaction,
  asked: RunsAsked,
): Promise<Map<string, NamedMove[]>> {
  const rows = await rowsOf(ledger, asked)
  const figures = await figuresNow(ledger, asked.studioId, rows)
  const moves = new Map<string, NamedMove[]>()
  for (const row of rows) {
    moves.set(row.runId, [...(moves.get(row.runId) ?? []), moveOf(row, figures)])
  }
  return moves
}

function rowsOf(ledger: Transaction, { studioId, formId }: RunsAsked) {
  return ledger.execute<Row>(sql`
    select h.run_id as "runId", e.entry_id as "entryId", e.kind as "kind",
           e.recorded_by as "recordedBy", l.dry_grams as "dryGrams", l.dry_doubt as "dryDoubt",
           t.state as "testedState",
           case when e.kind = 'turn' then h.body_id else s.body_id end as "bodyId",
           coalesce(e.said->>'state', 'turnings') as "state",
           s.dry_grams + s.water_grams as "wetGrams", s.dry_grams as "reckonedGrams"
      from run n
      join holding h on h.studio_id = n.studio_id and h.run_id = n.run_id
                    and h.place = 'greenware'
      join line l on l.studio_id = h.studio_id and l.holding_id = h.holding_id
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
      left join dry_test t on t.studio_id = e.studio_id and t.entry_id = e.entry_id
      left join (select m.entry_id, g.body_id, m.dry_grams, m.water_grams
                   from estimate m
                   join holding g on g.studio_id = m.studio_id and g.holding_id = m.holding_id
                  where m.studio_id = ${studioId}
                    and m."of" in ('turnings', 'slops', 'off_cuts', 'throwing_water')
                    and m.method in ('studio_tests', 'body_figure', 'default_for_state')) s
             on s.entry_id = e.entry_id and e.kind in ('turn', 'collect_slops')
     where n.studio_id = ${studioId} ${formId === undefined ? sql`` : sql`and n.form_id = ${formId}`}
       and e.reverses_entry_id is null
       and not exists (select from entry r where r.studio_id = e.studio_id
                                             and r.reverses_entry_id = e.entry_id)
     order by h.run_id, e.happened_at, e.kind in ('throw', 'open_books') desc, e.entry_id`)
}

function moveOf(row: Row, figures: ReadonlyMap<string, MoistureFigure>): NamedMove {
  const { entryId, recordedBy, bodyId, wetGrams, reckonedGrams } = row
  const state = row.state as ClayState
  const figureNow = figures.get(keyOf(row))
  const isReckoned = bodyId !== null && wetGrams !== null && figureNow !== undefined
  return {
    entryId,
    recordedBy,
    kind: row.kind as ActKind,
    dry: { amount: decimal(row.dryGrams), doubt: doubtRead(row.dryDoubt) },
    testedState: row.testedState as ClayState | null,
    reckoned: isReckoned
      ? {
          ...{ bodyId, state, figureNow },
          wetGrams: decimal(wetGrams),
          dryGrams: decimal(reckonedGrams ?? 0),
        }
      : null,
  }
}

/** This studio's figure as it is known now, for each clay and state that some row was reckoned in. */
async function figuresNow(ledger: Transaction, studioId: string, rows: readonly Row[]) {
  const figures = new Map<string, MoistureFigure>()
  for (const row of rows) {
    const { bodyId, wetGrams } = row
    if (bodyId === null || wetGrams === null || figures.has(keyOf(row))) continue
    const state = row.state as ClayState
    const body = await findBody(ledger, studioId, bodyId)
    const tests = await testsOf(ledger, { studioId, bodyId, state })
    figures.set(keyOf(row), studioFigure(body, state, tests))
  }
  return figures
}

function keyOf({ bodyId, state }: Pick<Row, 'bodyId' | 'state'>): string {
  return JSON.stringify([bodyId, state])
}
