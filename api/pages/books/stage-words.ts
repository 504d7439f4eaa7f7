import type { Stage } from '../../../shared/yield-stages.ts'
import type { PiecesByStage } from '../../../shared/yield.ts'
import type { MassByPart } from '../../../shared/yield-mass.ts'

/** The stages between the wheel and the shelf, as a potter calls them. */
export const STAGE_WORDS: Readonly<Record<Stage['stage'], string>> = {
  making: 'Making, up to the bisque',
  bisque: 'Bisque and glazing',
  glaze_firing: 'Glaze firing and grading',
  shop: 'The shop',
  whole: 'From the wheel to the shelf',
}

/** What became of pieces. */
export const PIECE_WORDS: Readonly<Record<keyof PiecesByStage, string>> = {
  thrown: 'begun at the wheel',
  openedWith: 'here before the books began',
  lostAtWheel: 'lost at the wheel',
  lostLeatherHard: 'lost leather-hard',
  lostDrying: 'lost while drying',
  intoBisque: 'bisque-fired',
  lostInBisqueFiring: 'lost in the bisque firing',
  lostInGlazing: 'lost while glazing',
  glazeFired: 'glaze-fired',
  lostInGlazeFiring: 'lost in the glaze firing',
  wasters: 'graded as wasters',
  firsts: 'graded as firsts',
  seconds: 'graded as seconds',
  lostInHandling: 'lost in handling, once finished',
  soldFirsts: 'firsts sold',
  soldSeconds: 'seconds sold',
  givenAway: 'given away',
  kept: 'kept',
  brokenInShop: 'broken in the shop',
  counted: 'found when counted, more than the books had',
  waitingGreenware: 'waiting as greenware',
  waitingBisque: 'waiting as bisque',
  waitingGlazed: 'waiting to be graded',
  waitingFinished: 'waiting to be sold',
}

/** Pieces that did not make it, by stage. */
export const LOST_PIECES = [
  'lostAtWheel',
  'lostLeatherHard',
  'lostDrying',
  'lostInBisqueFiring',
  'lostInGlazing',
  'lostInGlazeFiring',
  'wasters',
  'lostInHandling',
  'brokenInShop',
] as const satisfies readonly (keyof PiecesByStage)[]

/** What became of the clay of pots. */
export const MASS_WORDS: Readonly<Record<keyof MassByPart, string>> = {
  thrown: 'thrown',
  openedWith: 'here before the books began',
  joinedOn: 'joined on',
  slopsAndOffCuts: 'slops and off-cuts',
  turnedOff: 'turned off',
  lostBeforeBisque: 'lost before bisque',
  lossOnIgnition: 'taken by the fire',
  lostAfterBisque: 'lost after bisque',
  sold: 'sold',
  givenAway: 'given away',
  kept: 'kept',
  brokenInShop: 'broken in the shop',
  unexplained: 'unexplained',
  waiting: 'still here',
}
