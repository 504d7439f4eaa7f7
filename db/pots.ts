import { present } from '../shared/assert.ts'
import { firedGramsFrom } from '../shared/firing.ts'
import { shareOut } from '../shared/money.ts'
import { decimal, toLedgerScale, type Decimal } from '../shared/decimal.ts'
import { doubtBy, doubtOfPart } from '../shared/doubt.ts'
import { dryMassEstimate, type DryMassEstimate } from '../shared/dry-mass.ts'
import type { PotPlace } from '../shared/place.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import { blendInto, holdingsOfRuns, vesselFor } from './making.ts'
import { findBody, findRun } from './studio.ts'
import { waterFigure } from './water-figures.ts'

/** The name of the holding of a run's pieces at a place. Refuses: `run_not_found`. */
export async function potsOf(
  book: Book,
  asked: { runId: string; place: PotPlace; grade?: string },
) {
  const run = await findRun(book.ledger, book.studioId, asked.runId)
  return {
    place: asked.place,
    bodyId: run.bodyId,
    runId: run.runId,
    ...(asked.grade === undefined ? {} : { grade: asked.grade }),
  }
}

/**
 * All of a run's fired pieces inside, wherever they are, locked; those too that this very act has
 * moved somewhere new, of which the tables know nothing yet. Greenware is no survivor of a fire.
 */
export async function firedPotsOf(book: Book, runId: string): Promise<Slot[]> {
  await findRun(book.ledger, book.studioId, runId)
  const recorded = await holdingsOfRuns(book, [runId])
  const moved = book.heldWhere((ref) => ref.runId === runId).map((slot) => slot.holdingId)
  const all = await book.holdById([...new Set([...recorded, ...moved])].sort())
  return all.filter((slot) => slot.ref.place !== 'greenware')
}

/**
 * Refuses where fewer pieces are at a stage than were named.
 *
 * Refuses: `stage_must_hold_the_pieces`.
 */
export function refuseMoreThanThere(
  book: Book,
  slot: Slot,
  asked: { pieces: Decimal; doing: string; pointer: string },
): void {
  const { pieces } = book.now(slot)
  if (asked.pieces.lessThanOrEqualTo(pieces)) return
  throw new Refusal(
    'stage_must_hold_the_pieces',
    `${pieces.toFixed()} pieces of this run can be ${asked.doing}; ${asked.pieces.toFixed()} were named. Record first how the others came here, or count them.`,
    { pointer: asked.pointer, facts: { holdingId: slot.holdingId, held: pieces.toFixed() } },
  )
}

/**
 * Takes one measured amount of clay from several runs together, from each by its dry mass.
 *
 * Units: grams; the parts sum to the whole. Refuses: `clay_must_be_enough`.
 */
export async function takeFromRuns(
  book: Book,
  taken: { runs: readonly Slot[]; goal: Slot; estimate: DryMassEstimate },
): Promise<void> {
  const { runs, goal, estimate } = taken
  const weights = runs.map((run) => book.now(run).dryGrams)
  const dryParts = shareOut(estimate.dryGrams, weights)
  const waterParts = shareOut(estimate.waterGrams, weights)
  for (const [index, run] of runs.entries()) {
    const part = (parts: readonly Decimal[]) => present(parts[index], 'each run has its part')
    const share = { part: part(dryParts), whole: estimate.dryGrams }
    await book.moveMeasured(run, goal, {
      estimate: dryMassEstimate({
        ...estimate,
        dryGrams: share.part,
        waterGrams: part(waterParts),
        dryDoubt: doubtOfPart(estimate.dryDoubt, share),
      }),
    })
  }
}

/** Pots that nobody weighed may be off by so much of their mass. Our choice. */
const GUESS_UNCERTAINTY_FRACTION = decimal('0.15')

/**
 * What pots weigh that nobody weighed: their form's ball less what is turned off, and less what the
 * fire takes where they are through it. Stands as assumed until they are weighed.
 *
 * Units: grams. Refuses: `reading_must_be_above_zero` where the form has no ball to go by.
 */
export async function guessedPots(
  book: Book,
  asked: {
    form: { name: string; ballGrams: string | null; turnedOffFraction: string | null }
    bodyId: string
    at: PotPlace
    pieces: Decimal
    pointer: string
  },
): Promise<DryMassEstimate> {
  const { form, bodyId, at, pieces, pointer } = asked
  if (form.ballGrams === null) {
    throw new Refusal(
      'reading_must_be_above_zero',
      `The form ${form.name} has no ball mass to go by. Weigh the pots, or give the form its ballGrams.`,
      { pointer },
    )
  }
  const body = await findBody(book.ledger, book.studioId, bodyId)
  const water = await waterFigure(book, {
    said: undefined,
    state: 'as_delivered',
    bodyId,
    pointer: `${pointer}/water`,
  })
  const kept = decimal(1).minus(decimal(form.turnedOffFraction ?? '0'))
  const thrown = decimal(form.ballGrams).times(pieces).times(kept)
  const dryGrams = toLedgerScale(thrown.times(decimal(1).minus(water.waterContentWetBasis)))
  const mass =
    at === 'greenware'
      ? dryGrams
      : firedGramsFrom({ dryGrams, lossOnIgnitionFraction: body.lossOnIgnitionFraction })
  return dryMassEstimate({
    dryGrams: mass,
    waterGrams: decimal(0),
    dryDoubt: doubtBy(book.ownSource('guess'), mass.times(GUESS_UNCERTAINTY_FRACTION)),
    method: water.method,
    standing: 'assumed',
  })
}

/**
 * A vessel and the runs that its clay comes from, all held, the vessel ready for it.
 *
 * Refuses: `run_not_found`, `vessel_not_found`, `bodies_must_not_mix_unless_declared`.
 */
export async function vesselAndRuns(
  book: Book,
  said: { vesselId: string; blendBodyId?: string | undefined },
  from: { runIds: readonly string[]; bodyIds: readonly string[] },
): Promise<{ goal: Slot; runs: Slot[] }> {
  const refs = []
  for (const runId of from.runIds) refs.push(await potsOf(book, { runId, place: 'greenware' }))
  const bucket = await vesselFor(book, {
    place: 'scrap',
    vesselId: said.vesselId,
    bodyIds: [...from.bodyIds, ...refs.map((ref) => ref.bodyId)],
    blendBodyId: said.blendBodyId,
    pointer: '/vesselId',
  })
  const [goal, ...runs] = await book.hold([bucket.ref, ...refs])
  blendInto(book, goal, await book.holdById(bucket.blending))
  return { goal, runs }
}
