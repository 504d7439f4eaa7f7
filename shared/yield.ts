import { decimalOfNumber, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import type { ActKind } from './month-world.ts'
import type { PotPlace } from './place.ts'
import { clumpedDeviations, type RunCount } from './clumping.ts'
import { scoreInterval } from './proportion.ts'
import { cameTo, heldAt, piecesLost, wentFrom, type PotFlows } from './run-flows.ts'

export const NOT_YET_KNOWN = 'not yet known'

export interface PiecesByStage {
  readonly thrown: Decimal
  readonly openedWith: Decimal
  readonly lostAtWheel: Decimal
  readonly lostLeatherHard: Decimal
  readonly lostDrying: Decimal
  readonly intoBisque: Decimal
  readonly lostInBisqueFiring: Decimal
  readonly lostInGlazing: Decimal
  readonly glazeFired: Decimal
  readonly lostInGlazeFiring: Decimal
  readonly wasters: Decimal
  readonly firsts: Decimal
  readonly seconds: Decimal
  readonly lostInHandling: Decimal
  readonly soldFirsts: Decimal
  readonly soldSeconds: Decimal
  readonly givenAway: Decimal
  readonly kept: Decimal
  readonly brokenInShop: Decimal
  /** Found (plus) or missed (minus) when they were counted. */
  readonly counted: Decimal
  readonly waitingGreenware: Decimal
  readonly waitingBisque: Decimal
  readonly waitingGlazed: Decimal
  readonly waitingFinished: Decimal
}

export interface StageYield {
  readonly stage: 'making' | 'bisque' | 'glaze_firing' | 'shop' | 'whole'
  readonly passed: Decimal
  readonly lost: Decimal
  /** Pieces that are still in the stage, and count neither way. */
  readonly waiting: Decimal
  /** Null where none has passed yet. */
  readonly yieldFraction: Decimal | null
  readonly interval95: { readonly from: Decimal; readonly to: Decimal } | null
  readonly intervalBasis: IntervalBasis | null
  readonly words: string
}

/**
 * What an interval takes the pieces of one run for: as alike in their fate as the runs show them to be, or
 * independent, because there are too few runs to show it.
 */
export type IntervalBasis = 'widened_as_runs_vary' | 'pieces_taken_as_independent'

/** So many runs of which a stage has decided something it takes to tell how runs vary. Our choice. */
export const RUNS_THAT_VARY_MIN = 4
const CONFIDENCE = 0.95

/**
 * A run's pieces by what became of them; what was thrown or opened with is lost, gone or waiting.
 *
 * Units: pieces; exact. Source: the entries, taken-back ones cancelled out.
 */
export function piecesByStage(run: PotFlows): PiecesByStage {
  const out = (kind: ActKind, grade?: 'first' | 'second') =>
    wentFrom(run, { kinds: [kind], ...(grade === undefined ? {} : { grade }) }).pieces
  const into = (kind: ActKind, place: PotPlace) =>
    cameTo(run, { kinds: [kind], places: [place] }).pieces
  const graded = (grade: 'first' | 'second') =>
    cameTo(run, { kinds: ['grade'], places: ['finished'], grade }).pieces
  const wasters = out('grade')
  return {
    thrown: into('throw', 'greenware'),
    openedWith: cameTo(run, { kinds: ['open_books'] }).pieces,
    lostAtWheel: piecesLost(run, ['wheel']),
    lostLeatherHard: piecesLost(run, ['leather_hard']),
    lostDrying: piecesLost(run, ['drying']),
    intoBisque: into('bisque', 'bisque'),
    lostInBisqueFiring: piecesLost(run, ['bisque_firing']),
    lostInGlazing: piecesLost(run, ['glazing']),
    glazeFired: into('glaze_fire', 'glazed'),
    lostInGlazeFiring: piecesLost(run, ['glaze_firing']).minus(wasters),
    wasters,
    firsts: graded('first'),
    seconds: graded('second'),
    lostInHandling: piecesLost(run, ['handling']),
    soldFirsts: out('sell', 'first'),
    soldSeconds: out('sell', 'second'),
    givenAway: out('give_away'),
    kept: out('keep'),
    brokenInShop: out('break_in_shop'),
    counted: cameTo(run, { kinds: ['count'] }).pieces,
    waitingGreenware: heldAt(run, 'greenware').pieces,
    waitingBisque: heldAt(run, 'bisque').pieces,
    waitingGlazed: heldAt(run, 'glazed').pieces,
    waitingFinished: heldAt(run, 'finished').pieces,
  }
}

/**
 * How many of those that a stage has decided on came through it: passed / (passed + lost).
 *
 * Pieces that wait count neither way, so that a run in the middle of its making is not called bad. Their
 * run may still look worse than it is, because losses are told at once and survivors when they go on: the
 * words say so. What befalls one piece of a run often befalls others, a kiln or a batch of clay being bad,
 * so with four runs or more the interval is as much wider as the runs differ more than chance makes them.
 *
 * Shape: making, bisque to glaze, glaze firing with grading, the shop, and the whole way to the shelf; all
 * pieces together, and run by run where they are of several.
 * Units: pieces, fractions at six digits; a 95 % interval for the share of all pieces made this way.
 * Source: the score interval of E. B. Wilson, J. Am. Stat. Assoc. 22 (1927), 209-212; as much wider as
 * `clumpedDeviations` says.
 */
export function stageYields(
  pieces: PiecesByStage,
  runs: readonly PiecesByStage[] = [pieces],
): StageYield[] {
  const byRun = runs.map(countsOf)
  return countsOf(pieces).map((counts, at) =>
    stageYield(
      counts,
      byRun.flatMap((stages) => stages[at] ?? []),
    ),
  )
}

type Counts = Pick<StageYield, 'stage' | 'passed' | 'lost' | 'waiting'>

function countsOf(pieces: PiecesByStage): Counts[] {
  const making = sum(pieces.lostAtWheel, pieces.lostLeatherHard, pieces.lostDrying)
  const bisque = sum(pieces.lostInBisqueFiring, pieces.lostInGlazing)
  const glaze = sum(pieces.lostInGlazeFiring, pieces.wasters)
  const good = sum(pieces.firsts, pieces.seconds)
  const gone = sum(pieces.soldFirsts, pieces.soldSeconds, pieces.givenAway, pieces.kept)
  const { waitingGreenware, waitingBisque, waitingGlazed, waitingFinished } = pieces
  const onTheWay = sum(waitingGreenware, waitingBisque, waitingGlazed)
  const inShop = sum(pieces.lostInHandling, pieces.brokenInShop)
  return [
    { stage: 'making', passed: pieces.intoBisque, lost: making, waiting: waitingGreenware },
    { stage: 'bisque', passed: pieces.glazeFired, lost: bisque, waiting: waitingBisque },
    { stage: 'glaze_firing', passed: good, lost: glaze, waiting: waitingGlazed },
    { stage: 'shop', passed: gone, lost: inShop, waiting: waitingFinished },
    { stage: 'whole', passed: good, lost: sum(making, bisque, glaze), waiting: onTheWay },
  ]
}

function stageYield(counts: Counts, runs: readonly Counts[]): StageYield {
  const { passed, lost, waiting } = counts
  const decided = passed.plus(lost)
  const isKnown = passed.greaterThan(0) || (lost.greaterThan(0) && waiting.isZero())
  if (!isKnown) {
    const unknown = { yieldFraction: null, interval95: null, intervalBasis: null }
    return { ...counts, ...unknown, words: NOT_YET_KNOWN }
  }
  return {
    ...counts,
    yieldFraction: toLedgerScale(passed.dividedBy(decided)),
    ...intervalOf(countOf(counts), runs.map(countOf)),
    words: `${passed.toFixed()} of ${decided.toFixed()}${mayRiseWords(counts)}`,
  }
}

function countOf({ passed, lost }: Counts): RunCount {
  return { events: passed.toNumber(), trials: passed.plus(lost).toNumber() }
}

function intervalOf(
  counted: RunCount,
  runs: readonly RunCount[],
): Pick<StageYield, 'interval95' | 'intervalBasis'> {
  const telling = runs.filter(({ trials }) => trials > 0)
  const isEnough = telling.length >= RUNS_THAT_VARY_MIN
  const deviations = clumpedDeviations(isEnough ? [telling] : [], CONFIDENCE)
  const { from, to } = scoreInterval(counted, deviations)
  return {
    interval95: { from: decimalOfNumber(from), to: decimalOfNumber(to) },
    intervalBasis: isEnough ? 'widened_as_runs_vary' : 'pieces_taken_as_independent',
  }
}

/**
 * What is said of a share while some pieces wait at the stage; nothing where none do.
 *
 * In the shop nothing is told before anything else, so what waits there says nothing.
 *
 * Units: pieces. Source: our choice of words.
 */
export function mayRiseWords({ stage, waiting }: Pick<Counts, 'stage' | 'waiting'>): string {
  if (stage === 'shop' || !waiting.greaterThan(0)) return ''
  const wait = waiting.equals(1) ? 'one still waits' : `${waiting.toFixed()} still wait`
  return `; ${wait}, and as losses are told first the share may rise`
}

function sum(...amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((total, amount) => total.plus(amount), ZERO)
}
