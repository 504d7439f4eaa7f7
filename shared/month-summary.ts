import { NOT_DISTINGUISHABLE } from './how-sure.ts'
import {
  cellOf,
  less,
  movesSomething,
  NO_AMOUNTS,
  plusMinusKilograms,
  printed,
  rowSure,
  shownAlone,
  type Amounts,
  type Cell,
  type Printed,
  type RowSure,
} from './month-amounts.ts'
import type { PlaceInside } from './place.ts'

export interface SummaryRow extends Cell {
  readonly row: string
  readonly words: string
  readonly isBalance: boolean
  /** True for what crosses the studio's door: with these the opening becomes the closing. */
  readonly isWorld: boolean
  readonly sure: RowSure
  /** Half the interval of the dry clay, printed. */
  readonly plusMinusKilograms: string
}

/** A row of flows with what its cells are made of. */
export interface MadeRow {
  readonly row: string
  readonly amounts: Readonly<Record<PlaceInside, Amounts>>
  readonly together: Amounts
  readonly total: Cell
}

/** A row of the world with what it is made of. */
export interface MadeWorldSum {
  readonly row: string
  readonly words: string
  readonly amounts: Amounts
  readonly shown: Printed
  readonly sure: RowSure
}

export interface MadeSheet {
  readonly flows: readonly MadeRow[]
  readonly world: readonly MadeWorldSum[]
  readonly opening: MadeRow
  readonly closing: MadeRow
}

/**
 * A month in plain order: from the opening over what came and went to the closing, with what moved
 * within.
 *
 * Units: grams, pieces, money; printed in kilograms and the currency's digits.
 * Source: as `monthSheet`.
 */
export function summaryRows(sheet: MadeSheet, moneyDigits: number): SummaryRow[] {
  const { flows, world, opening, closing } = sheet
  const inner = innerMoves(flows, moneyDigits)
  const balance = { isBalance: true, isWorld: false }
  // Moves within the studio stand after the row of the world that they belong beside.
  const between = world.flatMap((row) => [
    {
      ...{ row: row.row, words: row.words, isBalance: false, isWorld: true },
      ...cellOf(row.amounts, row.shown),
      ...sureOf(row.amounts),
    },
    ...inner.filter(({ after }) => after === row.row).map(({ after: _after, ...move }) => move),
  ])
  return [
    { row: 'opening', words: 'opening', ...balance, ...opening.total, ...sureOf(opening.together) },
    ...between,
    { row: 'closing', words: 'closing', ...balance, ...closing.total, ...sureOf(closing.together) },
  ]
}

function sureOf(amounts: Amounts): Pick<SummaryRow, 'sure' | 'plusMinusKilograms'> {
  const sure = rowSure(amounts)
  return { sure, plusMinusKilograms: plusMinusKilograms(sure.dry) }
}

/**
 * What is unexplained, in a sentence: a difference within its uncertainty is no finding.
 *
 * Units: kilograms. Source: as `howSure`.
 */
export function unexplainedWords(world: readonly MadeWorldSum[]): string {
  const row = world.find((one) => one.row === 'unexplained')
  if (row === undefined || !movesSomething(row.amounts)) return 'Unexplained: nothing.'
  const { dry } = row.sure
  const found = `Unexplained: ${row.shown.dryKilograms} kg of dry clay, give or take ${plusMinusKilograms(dry)} kg`
  return dry.isDistinguishableFromZero
    ? `${found}: more than what was measured leaves open.`
    : `${found}: ${NOT_DISTINGUISHABLE}.`
}

function innerMoves(flows: readonly MadeRow[], moneyDigits: number) {
  const at = (row: string, place: PlaceInside): Amounts =>
    flows.find((flow) => flow.row === row)?.amounts[place] ?? NO_AMOUNTS
  const intoFire = (row: string, place: PlaceInside) => less(NO_AMOUNTS, at(row, place))
  const inner = (row: string, words: string, amounts: Amounts) => ({
    row,
    words,
    after: INNER_AFTER[row] ?? 'pieces_begun',
    isBalance: false,
    isWorld: false,
    ...cellOf(amounts, printed(shownAlone(amounts, moneyDigits), moneyDigits)),
    ...sureOf(amounts),
  })
  return [
    inner('thrown', 'clay thrown', at('thrown', 'greenware')),
    inner('turned_off', 'turned off into scrap', at('turned_off', 'scrap')),
    inner('slaked', 'slaked', at('slaked', 'basin')),
    inner(
      'reclaimed',
      'lifted off plaster, or wedged from scrap',
      less(at('reclaimed', 'bench'), at('wedged', 'scrap')),
    ),
    inner('lost_back', 'lost before bisque, back into scrap', at('lost', 'scrap')),
    inner('bisque_fired', 'clay into the bisque fire', intoFire('bisque_fired', 'greenware')),
    inner('glaze_fired', 'bisque into the glaze fire', intoFire('glaze_fired', 'bisque')),
  ]
}

/** The row of the world that a move within stands after, where that is not the throwing. */
const INNER_AFTER: Readonly<Record<string, string>> = {
  lost_back: 'pieces_lost_before_bisque',
  bisque_fired: 'pieces_lost_before_bisque',
  glaze_fired: 'pieces_lost_before_bisque',
}
