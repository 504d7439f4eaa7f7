import type { Decimal } from './decimal.ts'
import { PLACE_WORDS, type Place } from './place.ts'
import {
  LOST_ONLY_AT_NIL,
  moreAtNil,
  type ClayCostMoved,
  type UnderBothRules,
} from './reclaim-at-nil.ts'

/** One line of what became of the cost of clay, under both rules for reclaim. */
export interface ClayCostRow extends UnderBothRules {
  readonly row: string
  readonly words: string
  /** By how much more at nil; below zero, by how much less. */
  readonly moreAtNil: Decimal
}

/** What both rules are called, in a potter's words. */
export const RULE_WORDS = {
  byMass: 'cost follows mass',
  atNil: 'reclaim at nil',
} as const

/** Why the choice between the rules matters little in the end. */
export const BOTH_RULES_WORDS =
  'The books let cost follow mass: turnings carry their cost back to the bucket, and whoever throws the reclaim pays it. Where reclaim counts at nil, the pots that were turned pay for their turnings and the reclaim is free. Over time both come to the same, for the clay was paid once: only when it shows differs, and on which pots.'

/**
 * What became of the cost of clay: what came in, what is in stock, what went out of the door and what was
 * lost, by name, under both rules.
 *
 * Units: money, exact; under each rule the first row is the sum of the others.
 * Source: arithmetic; what is lost goes by the name of its place or by `LOST_ONLY_AT_NIL`.
 */
export function clayCostRows({ cameIn, inStock, sold, lost }: ClayCostMoved): ClayCostRow[] {
  return [
    rowOf('came_in', 'clay that came in', cameIn),
    rowOf('in_stock', 'is in stock', inStock),
    rowOf('sold', 'went out of the door with pots', sold),
    ...[...lost]
      .sort(([one], [other]) => one.localeCompare(other, 'en'))
      .map(([name, amounts]) =>
        rowOf(name.startsWith('lost_') ? name : `lost_${name}`, lostWords(name), amounts),
      ),
  ]
}

function rowOf(row: string, words: string, { byMass, atNil }: UnderBothRules): ClayCostRow {
  return { row, words, byMass, atNil, moreAtNil: moreAtNil({ byMass, atNil }) }
}

function lostWords(name: string): string {
  if (name in LOST_ONLY_AT_NIL) {
    return `lost: ${LOST_ONLY_AT_NIL[name as keyof typeof LOST_ONLY_AT_NIL]}`
  }
  return `lost: ${PLACE_WORDS[name as Place]}`
}
