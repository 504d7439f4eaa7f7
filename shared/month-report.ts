import { FLOW_OF_KIND } from './entry-kind.ts'
import {
  amountsAt,
  less,
  movesSomething,
  NO_AMOUNTS,
  shownAlone,
  shownBetween,
  totalOf,
  totalShown,
  type Amounts,
  type Cell,
  type Shown,
} from './month-amounts.ts'
import { worldOf, type WorldCells } from './month-world-sums.ts'
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
}

export interface SummaryRow extends Cell {
  readonly row: string
  readonly words: string
  readonly isBalance: boolean
  /** True for what crosses the studio's door: with these the opening becomes the closing. */
  readonly isWorld: boolean
}

export interface MonthSheet {
  readonly flows: readonly FlowRow[]
  readonly world: readonly WorldSum[]
  readonly summary: readonly SummaryRow[]
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
 * Shape: in each column the opening and the flows sum to the closing, exactly and as printed; in each
 * row the places sum to the total; the opening total and the world's rows sum to the closing total.
 * Units: grams, pieces, money; printed in kilograms and the currency's digits.
 */
export function monthSheet(facts: MonthFacts): MonthSheet {
  const flows = flowRows(facts)
  const [opening, closing] = [flows[0], flows.at(-1)]
  if (opening === undefined || closing === undefined) throw new TypeError('a sheet has two ends')
  const ends = { opening: opening.total.shown, closing: closing.total.shown }
  const world = worldSums(worldOf(facts.movements), ends, facts.moneyDigits)
  return { flows, world, summary: summaryRows({ flows, world, opening, closing }, facts) }
}

type PlaceAmounts = Readonly<Record<PlaceInside, Amounts>>
type PlaceShown = Readonly<Record<PlaceInside, Shown>>
type BareRow = Pick<FlowRow, 'row' | 'isBalance' | 'kind'> & { readonly amounts: PlaceAmounts }

function flowRows(facts: MonthFacts): FlowRow[] {
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
  const ends = { opening, closing }
  return withShown(ends, kept, facts.moneyDigits)
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
): FlowRow[] {
  const shownEnd = (amounts: PlaceAmounts): PlaceShown =>
    perPlace((place) => shownAlone(amounts[place], moneyDigits))
  const [opening, closing] = [shownEnd(ends.opening), shownEnd(ends.closing)]
  const columns = perPlace((place) =>
    shownBetween(
      { opening: opening[place], closing: closing[place] },
      flows.map(({ amounts }) => amounts[place]),
      moneyDigits,
    ),
  )
  const balance = (row: string, amounts: PlaceAmounts, shown: PlaceShown) =>
    finished({ row, isBalance: true, kind: undefined, amounts }, shown)
  return [
    balance('opening', ends.opening, opening),
    ...flows.map((flow, index) =>
      finished(
        flow,
        perPlace((place) => columns[place][index] ?? totalShown([])),
      ),
    ),
    balance('closing', ends.closing, closing),
  ]
}

function finished({ amounts, ...row }: BareRow, shown: PlaceShown): FlowRow {
  const total = totalOf(PLACES_INSIDE.map((place) => amounts[place]))
  return {
    ...row,
    places: perPlace((place) => ({ ...amounts[place], shown: shown[place] })),
    total: { ...total, shown: totalShown(PLACES_INSIDE.map((place) => shown[place])) },
  }
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
): WorldSum[] {
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
    ...amounts,
    shown: shown[index] ?? totalShown([]),
  }))
}

function summaryRows(
  sheet: {
    flows: readonly FlowRow[]
    world: readonly WorldSum[]
    opening: FlowRow
    closing: FlowRow
  },
  facts: MonthFacts,
): SummaryRow[] {
  const { flows, world, opening, closing } = sheet
  const inner = innerMoves(flows, facts.moneyDigits)
  const balance = { isBalance: true, isWorld: false }
  // Moves within the studio stand after the row of the world that they belong beside.
  const between = world.flatMap((row) => [
    { row: row.row, words: row.words, isBalance: false, isWorld: true, ...cellOf(row) },
    ...inner.filter(({ after }) => after === row.row).map(({ after: _after, ...move }) => move),
  ])
  return [
    { row: 'opening', words: 'opening', ...balance, ...opening.total },
    ...between,
    { row: 'closing', words: 'closing', ...balance, ...closing.total },
  ]
}

function cellOf({ dryGrams, waterGrams, bags, pots, cost, shown }: Cell): Cell {
  return { dryGrams, waterGrams, bags, pots, cost, shown }
}

function innerMoves(flows: readonly FlowRow[], moneyDigits: number) {
  const at = (row: string, place: PlaceInside): Amounts =>
    flows.find((flow) => flow.row === row)?.places[place] ?? NO_AMOUNTS
  const inner = (row: string, words: string, amounts: Amounts) => ({
    row,
    words,
    after: 'pieces_begun',
    isBalance: false,
    isWorld: false,
    ...cellOf({ ...amounts, shown: shownAlone(amounts, moneyDigits) }),
  })
  return [
    inner('thrown', 'clay thrown', at('thrown', 'greenware')),
    inner('turned_off', 'turned off into scrap', at('turned_off', 'scrap')),
    inner('slaked', 'slaked', at('slaked', 'basin')),
    inner(
      'reclaimed',
      'reclaimed: lifted off plaster, or wedged straight from scrap',
      less(at('reclaimed', 'bench'), at('wedged', 'scrap')),
    ),
    {
      ...inner('lost_back', 'lost before bisque, back into scrap', at('lost', 'scrap')),
      after: 'pieces_lost_before_bisque',
    },
  ]
}
