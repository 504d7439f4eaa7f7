import { present } from './assert.ts'
import { FLOW_OF_KIND } from './entry-kind.ts'
import {
  amountsAt,
  cellOf,
  less,
  movesSomething,
  NO_AMOUNTS,
  printed,
  shownAlone,
  shownBetween,
  totalOf,
  type Amounts,
  rowSure,
  type Cell,
  type RowSure,
  type Shown,
} from './month-amounts.ts'
import { worldOf, type WorldCells } from './month-world-sums.ts'
import {
  summaryRows,
  unexplainedWords,
  type MadeRow,
  type MadeWorldSum,
  type SummaryRow,
} from './month-summary.ts'
import {
  WORLD_ROWS,
  type ActKind,
  type MonthMovement,
  type WorldPlace,
  type WorldRow,
} from './month-world.ts'
import { isInside, PLACES_INSIDE, type PlaceInside } from './place.ts'
import type { Quantities } from './quantity.ts'

/** What a place gained from `unexplained`, or lost to it, by entries of one kind. */
export interface UnexplainedPart extends Quantities {
  readonly place: PlaceInside
  readonly kind: ActKind
}

export interface FlowRow {
  readonly row: string
  readonly isBalance: boolean
  readonly kind: ActKind | undefined
  readonly places: Readonly<Record<PlaceInside, Cell>>
  readonly total: Cell
}

export interface WorldSum extends Cell {
  readonly row: string
  readonly words: string
  readonly place: WorldPlace
  readonly kinds: readonly ActKind[] | undefined
  readonly sure: RowSure
}

export interface MonthSheet {
  readonly flows: readonly FlowRow[]
  readonly world: readonly WorldSum[]
  readonly summary: readonly SummaryRow[]
  readonly unexplainedWords: string
}

export interface MonthFacts {
  readonly movements: readonly MonthMovement[]
  readonly unexplained: readonly UnexplainedPart[]
  readonly moneyDigits: number
}

const ALWAYS: readonly string[] = [
  'bought',
  'thrown',
  'turned_off',
  'slaked',
  'reclaimed',
  'lost',
  'bisque_fired',
  'sold',
  'unexplained',
]

/**
 * A month of the books: what was where, what moved it, and what came of that.
 *
 * Three views of the same lines. `flows` has a row for each kind of entry and a column for each place;
 * `world` has a row for each way through the studio's door; `summary` reads both in plain order. What
 * goes to or comes from `unexplained` is taken out of the row of the entry that found it.
 *
 * Shape: in each column the opening and the flows sum to the closing, exactly and as printed; the
 * opening total and the world's rows sum to the closing total, exactly and as printed; in each row the
 * places sum to the total, exactly, while printed they may miss it by a coin or a gram.
 * Units: grams, pieces, money; printed in kilograms and the currency's digits.
 */
export function monthSheet(facts: MonthFacts): MonthSheet {
  const flows = flowRows(facts)
  const opening = present(flows[0], 'a sheet begins with its opening')
  const closing = present(flows.at(-1), 'and ends with its closing')
  const ends = {
    opening: shownAlone(opening.total, facts.moneyDigits),
    closing: shownAlone(closing.total, facts.moneyDigits),
  }
  const world = worldSums(worldOf(facts.movements), ends, facts.moneyDigits)
  return {
    flows: flows.map(({ amounts: _amounts, together: _together, ...row }) => row),
    world: world.map(({ amounts: _amounts, ...row }) => row),
    summary: summaryRows({ flows, world, opening, closing }, facts.moneyDigits),
    unexplainedWords: unexplainedWords(world),
  }
}

type PlaceAmounts = Readonly<Record<PlaceInside, Amounts>>
type FlowMade = FlowRow & MadeRow
type WorldMade = WorldSum & MadeWorldSum
type BareRow = Pick<FlowRow, 'row' | 'isBalance' | 'kind'> & { readonly amounts: PlaceAmounts }

function flowRows(facts: MonthFacts): FlowMade[] {
  const inside = facts.movements.filter(({ place }) => isInside(place))
  const opening = perPlace((place) => amountsIn(inside, place, undefined))
  const flows = Object.entries(FLOW_OF_KIND).map(([name, row]): BareRow => {
    const kind = name as ActKind
    const amounts = perPlace((place) =>
      less(amountsIn(inside, place, kind), amountsIn(facts.unexplained, place, kind)),
    )
    return { row, isBalance: false, kind, amounts }
  })
  const unexplained: BareRow = {
    row: 'unexplained',
    isBalance: false,
    kind: undefined,
    amounts: perPlace((place) =>
      totalOf(
        facts.unexplained.filter((part) => part.place === place).map((p) => amountsAt(place, p)),
      ),
    ),
  }
  const kept = [...flows, unexplained].filter(
    ({ row, amounts }) =>
      ALWAYS.includes(row) || PLACES_INSIDE.some((place) => movesSomething(amounts[place])),
  )
  const closing = perPlace((place) =>
    totalOf([opening[place], ...kept.map(({ amounts }) => amounts[place])]),
  )
  return withShown({ opening, closing }, kept, facts.moneyDigits)
}

function amountsIn(
  moved: readonly (MonthMovement | UnexplainedPart)[],
  place: PlaceInside,
  kind: ActKind | undefined,
): Amounts {
  const here = moved.filter((one) => one.place === place && one.kind === kind)
  return totalOf(here.map((one) => amountsAt(place, one)))
}

function withShown(
  ends: { opening: PlaceAmounts; closing: PlaceAmounts },
  flows: readonly BareRow[],
  moneyDigits: number,
): FlowMade[] {
  const rows: BareRow[] = [
    { row: 'opening', isBalance: true, kind: undefined, amounts: ends.opening },
    ...flows,
    { row: 'closing', isBalance: true, kind: undefined, amounts: ends.closing },
  ]
  const totals = rows.map(({ amounts }) => totalOf(PLACES_INSIDE.map((place) => amounts[place])))
  const total = columnOf(totals, moneyDigits)
  const columns = perPlace((place) =>
    columnOf(
      rows.map(({ amounts }) => amounts[place]),
      moneyDigits,
    ),
  )
  return rows.map((row, index) => ({
    ...row,
    together: present(totals[index], 'each row has its total'),
    places: perPlace((place) => present(columns[place][index], 'each row has each place')),
    total: present(total[index], 'each row has its total'),
  }))
}

/** A column from its opening to its closing, as it is and as it is printed. */
function columnOf(amounts: readonly Amounts[], moneyDigits: number): Cell[] {
  const [opening, closing] = [amounts[0] ?? NO_AMOUNTS, amounts.at(-1) ?? NO_AMOUNTS]
  const ends = {
    opening: shownAlone(opening, moneyDigits),
    closing: shownAlone(closing, moneyDigits),
  }
  const flows = shownBetween(ends, amounts.slice(1, -1), moneyDigits)
  const shown = [ends.opening, ...flows, ends.closing]
  return amounts.map((some, index) =>
    cellOf(some, printed(present(shown[index], 'what is in a column is printed'), moneyDigits)),
  )
}

function perPlace<T>(give: (place: PlaceInside) => T): Record<PlaceInside, T> {
  return Object.fromEntries(PLACES_INSIDE.map((place) => [place, give(place)])) as Record<
    PlaceInside,
    T
  >
}

function worldSums(
  cells: WorldCells,
  ends: { opening: Shown; closing: Shown },
  moneyDigits: number,
): WorldMade[] {
  const rows = WORLD_ROWS.map((row: WorldRow) => ({
    ...row,
    amounts: cells.get(row.row) ?? NO_AMOUNTS,
  })).filter(({ isAlways, amounts }) => isAlways === true || movesSomething(amounts))
  const shown = shownBetween(
    ends,
    rows.map(({ amounts }) => amounts),
    moneyDigits,
  )
  return rows.map(({ row, words, place, kinds, amounts }, index) => ({
    row,
    words,
    place,
    kinds,
    amounts,
    ...cellOf(amounts, printed(present(shown[index], 'each row is printed'), moneyDigits)),
    sure: rowSure(amounts),
  }))
}
