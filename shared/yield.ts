import { decimalOfNumber, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import type { ActKind } from './month-world.ts'
import type { PotPlace } from './place.ts'
import { wilsonInterval } from './proportion.ts'
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
  readonly words: string
}

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
 * Pieces that wait count neither way, so that a run in the middle of its making is not called bad.
 *
 * Shape: making, bisque to glaze, glaze firing with grading, the shop, and the whole way to the shelf.
 * Units: pieces, fractions at six digits; a 95 % interval for the share of all pieces made this way.
 * Source: the score interval of E. B. Wilson, J. Am. Stat. Assoc. 22 (1927), 209-212.
 */
export function stageYields(pieces: PiecesByStage): StageYield[] {
  const making = sum(pieces.lostAtWheel, pieces.lostLeatherHard, pieces.lostDrying)
  const bisque = sum(pieces.lostInBisqueFiring, pieces.lostInGlazing)
  const glaze = sum(pieces.lostInGlazeFiring, pieces.wasters)
  const good = sum(pieces.firsts, pieces.seconds)
  const gone = sum(pieces.soldFirsts, pieces.soldSeconds, pieces.givenAway, pieces.kept)
  const { waitingGreenware, waitingBisque, waitingGlazed, waitingFinished } = pieces
  const onTheWay = sum(waitingGreenware, waitingBisque, waitingGlazed)
  return [
    stageYield('making', { passed: pieces.intoBisque, lost: making, waiting: waitingGreenware }),
    stageYield('bisque', { passed: pieces.glazeFired, lost: bisque, waiting: waitingBisque }),
    stageYield('glaze_firing', { passed: good, lost: glaze, waiting: waitingGlazed }),
    stageYield('shop', {
      passed: gone,
      lost: sum(pieces.lostInHandling, pieces.brokenInShop),
      waiting: waitingFinished,
    }),
    stageYield('whole', { passed: good, lost: sum(making, bisque, glaze), waiting: onTheWay }),
  ]
}

function stageYield(
  stage: StageYield['stage'],
  counts: { passed: Decimal; lost: Decimal; waiting: Decimal },
): StageYield {
  const { passed, lost, waiting } = counts
  const decided = passed.plus(lost)
  const isKnown = passed.greaterThan(0) || (lost.greaterThan(0) && waiting.isZero())
  if (!isKnown) {
    return { stage, ...counts, yieldFraction: null, interval95: null, words: NOT_YET_KNOWN }
  }
  return {
    stage,
    ...counts,
    yieldFraction: toLedgerScale(passed.dividedBy(decided)),
    interval95: scoreInterval(passed, decided),
    words: `${passed.toFixed()} of ${decided.toFixed()}`,
  }
}

function scoreInterval(passed: Decimal, decided: Decimal): { from: Decimal; to: Decimal } {
  const { from, to } = wilsonInterval({ events: passed.toNumber(), trials: decided.toNumber() })
  return { from: decimalOfNumber(from), to: decimalOfNumber(to) }
}

function sum(...amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((total, amount) => total.plus(amount), ZERO)
}
