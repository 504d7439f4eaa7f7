import { and, eq } from 'drizzle-orm'
import { BROKE_IN_THE_KILN, FIRE_OF_KIND } from '../shared/kiln-load.ts'
import { lossInWords } from '../shared/loss-in-words.ts'
import { Refusal } from '../shared/refusal.ts'
import { bisqueFire, glazeFire } from './acts/fire.ts'
import { losePieces } from './acts/lose.ts'
import type { Transaction } from './connection.ts'
import type { EntryView } from './entry-shown.ts'
import type { FiringSaid } from './firing-said.ts'
import {
  isLoad,
  readLoadInKiln,
  waitForOtherLoading,
  type KilnLoadView,
  type RunInLoad,
} from './kiln-loads.ts'
import {
  onceOnly,
  writeAct,
  type ActAnswer,
  type Circumstances,
  type Occasion,
  type Services,
} from './perform.ts'
import type { ReadingSaid } from './readings.ts'
import { kilnLoad, kilnLoadRun } from './schema.ts'

export interface UnloadSaid extends Circumstances {
  readonly kilnLoadId: string
  /** Runs of the load that did not come out all whole, or were weighed; the others all did. */
  readonly runs: readonly RunUnloaded[]
  /** What the fire took; of the kiln that the load named, where no other is named here. */
  readonly firing?:
    (Omit<FiringSaid, 'kilnId'> & { readonly kilnId?: string | undefined }) | undefined
}

export interface RunUnloaded {
  readonly runId: string
  readonly whole: number
  readonly cause?: string | undefined
  /** What all that went in weighs now, broken pieces too. After bisque only. */
  readonly reading?: ReadingSaid | undefined
}

interface At {
  readonly ledger: Transaction
  readonly services: Services
  readonly studioId: string
}

/**
 * Takes a load out of the kiln: what went in was fired, and what is not whole is lost. One transaction
 * writes the fire and then each loss, so that either all of it stands or none.
 *
 * Refuses: `kiln_load_not_found`, `kiln_load_must_be_in_the_kiln`, `run_not_found`,
 * `stage_must_hold_the_pieces`, `kiln_not_found`, and whatever fire and loss refuse.
 */
export function unloadKiln(
  services: Services,
  occasion: Occasion,
  said: UnloadSaid,
): Promise<{ answer: ActAnswer; isRetry: boolean }> {
  const { studioId } = occasion
  return onceOnly(services, occasion, {
    content: { act: 'unload_kiln', said },
    work: async (ledger) => {
      await waitForOtherLoading(ledger, studioId)
      const { kilnLoadId } = said
      const load = await readLoadInKiln(ledger, { studioId, kilnLoadId })
      refuseStrangers(load, said)
      // One moment for the fire and its losses: what one run of it lost is no history of another.
      const moment = services.now()
      const at = { ledger, services: { ...services, now: () => moment }, studioId }
      const fired = await writeFire(at, load, said)
      const unloadedAt = new Date(fired.entry.happenedAt)
      const firedByEntryId = fired.entry.entryId
      await ledger
        .update(kilnLoad)
        .set({ unloadedAt, firedByEntryId })
        .where(isLoad({ studioId, kilnLoadId }))
      const losses: EntryView[] = []
      for (const run of load.runs) losses.push(...(await writeLoss(at, { load, said, run })))
      const lossEntryIds = losses.map(({ entryId }) => entryId)
      const lossWords = losses.flatMap((entry) => entry.losses.map(lossInWords))
      return { ...fired, made: { ...fired.made, kilnLoadId, lossEntryIds, lossWords } }
    },
  })
}

function refuseStrangers(load: KilnLoadView, said: UnloadSaid): void {
  for (const [index, { runId, whole }] of said.runs.entries()) {
    const pointer = `/runs/${String(index)}`
    const inLoad = load.runs.find((run) => run.runId === runId)
    if (inLoad === undefined) {
      throw new Refusal('run_not_found', `No pots of '${runId}' are in this load.`, {
        pointer: `${pointer}/runId`,
      })
    }
    if (whole <= inLoad.pieces) continue
    throw new Refusal(
      'stage_must_hold_the_pieces',
      `${String(inLoad.pieces)} pieces of this run went in; ${String(whole)} cannot have come out whole. Change first what is in the load.`,
      { pointer: `${pointer}/whole`, facts: { runId, held: String(inLoad.pieces) } },
    )
  }
}

function writeFire(at: At, load: KilnLoadView, said: UnloadSaid) {
  const { happenedAt, by, note } = said
  const runs = load.runs.map(({ runId, pieces }) => {
    const reading = said.runs.find((run) => run.runId === runId)?.reading
    return { runId, pieces, ...(reading === undefined ? {} : { reading }) }
  })
  const act = load.kind === 'bisque' ? bisqueFire : glazeFire
  const fire = { runs, ...firingOf(load, said) }
  return writeAct(at, { act, said: saidOf({ happenedAt, by, note }, fire) })
}

function firingOf(load: KilnLoadView, { firing }: UnloadSaid): { firing?: FiringSaid } {
  if (firing === undefined) return {}
  const kilnId = firing.kilnId ?? load.kilnId
  if (kilnId !== null) return { firing: { ...firing, kilnId } }
  throw new Refusal('kiln_not_found', 'Which kiln was it? The load names none.', {
    pointer: '/firing/kilnId',
  })
}

/** The entry of what did not come out whole, where there is some. */
async function writeLoss(
  at: At,
  lost: { load: KilnLoadView; said: UnloadSaid; run: RunInLoad },
): Promise<EntryView[]> {
  const { load, said, run } = lost
  const out = said.runs.find(({ runId }) => runId === run.runId)
  const pieces = run.pieces - (out?.whole ?? run.pieces)
  if (pieces === 0) return []
  const { entry } = await writeAct(at, {
    act: losePieces,
    said: saidOf(
      { happenedAt: said.happenedAt, by: said.by },
      {
        runId: run.runId,
        pieces,
        stage: FIRE_OF_KIND[load.kind].loses,
        cause: out?.cause ?? BROKE_IN_THE_KILN,
      },
    ),
  })
  await at.ledger
    .update(kilnLoadRun)
    .set({ lostByEntryId: entry.entryId })
    .where(
      and(
        eq(kilnLoadRun.studioId, at.studioId),
        eq(kilnLoadRun.kilnLoadId, load.kilnLoadId),
        eq(kilnLoadRun.runId, run.runId),
      ),
    )
  return [entry]
}

/** What is kept as said holds no field that nobody said. */
function saidOf<Said extends object>(
  circumstances: Circumstances,
  said: Said,
): Said & Circumstances {
  const spoken = Object.entries(circumstances).filter(([, value]) => value !== undefined)
  return { ...said, ...(Object.fromEntries(spoken) as Circumstances) }
}
