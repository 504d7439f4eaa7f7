import { stockReport, type StockReport } from '../../db/reports/stock.ts'
import { Refusal } from '../../shared/refusal.ts'
import { normalQuantile } from '../../shared/statistics.ts'
import { Chance } from '../support/chance.ts'
import { coverageOf, nothingYet, outcomeOf, type Tally } from './coverage.ts'
import { newStudio, type Ledger } from './ledger.ts'
import { heldCell, perCent, table } from './markdown.ts'
import { threeWeeks } from './three-weeks.ts'
import type { Batches } from './true-clay.ts'
import { TruePotter } from './true-potter.ts'

/** A dry mass by the books, how unsure it is said to be, and what it truly is. Units: grams. */
export interface StockFigure {
  /** Single holdings by their place; bodies; places; all. */
  readonly grain: 'holding' | 'body' | 'place' | 'all'
  readonly what: string
  readonly bookGrams: number
  readonly uncertaintyGrams: number
  /** If each holding were off on its own. */
  readonly apartGrams: number
  readonly trueGrams: number
}

/** The figures of one studio after three weeks, or nothing where the ledger refused an act. */
export interface StockStudio {
  readonly figures: readonly StockFigure[]
  readonly refused: string | undefined
}

export const STOCK_SEED = 20_261_201
/** Studios that work at a time, so that the server is never idle. */
const AT_ONCE = 4
const TESTS_BAGS = 1 / 3
const TELL_EVERY = 50
/** Nine times in ten. */
const COVERAGE_FACTOR = normalQuantile(0.95)
/** Below this a heap is what rounding left of one. */
const NOTHING_GRAMS = 0.01

interface StockAsked {
  readonly ledger: Ledger
  readonly studios: number
  readonly batches: Batches
}

/** So many studios, each working for three weeks in the real ledger. */
export async function stockStudios(
  asked: StockAsked,
  tell: (line: string) => void,
): Promise<StockStudio[]> {
  const { studios } = asked
  const seen: StockStudio[] = []
  for (let first = 0; first < studios; first += AT_ONCE) {
    const some = Array.from({ length: Math.min(AT_ONCE, studios - first) }, (_, one) => first + one)
    seen.push(...(await Promise.all(some.map((index) => oneStudio(asked, index)))))
    if (seen.length % TELL_EVERY < AT_ONCE) tell(`stock: ${String(seen.length)} studios`)
  }
  return seen
}

async function oneStudio({ ledger, batches }: StockAsked, index: number): Promise<StockStudio> {
  const chance = new Chance(STOCK_SEED + index)
  const studioId = `studio-${String(index + 1)}`
  const potter = new TruePotter(chance, batches, await newStudio(ledger, studioId))
  try {
    await threeWeeks(potter, chance.uniform() < TESTS_BAGS)
  } catch (error) {
    if (error instanceof Refusal) return { figures: [], refused: error.code }
    throw error
  }
  const report = await stockReport(ledger.connection.db, { studioId })
  return { figures: figuresOf(report, trueGramsIn(potter)), refused: undefined }
}

function trueGramsIn(potter: TruePotter): Map<string, number> {
  return new Map([...potter.truth.heaps].map(([place, { dryGrams }]) => [place, dryGrams]))
}

type ReportRow = StockReport['holdings'][number] | StockReport['total']

function figuresOf(report: StockReport, truth: ReadonlyMap<string, number>): StockFigure[] {
  const holdings = report.holdings.map((row) => {
    const trueGrams = truth.get(`${row.place}/${row.bodyId}/${nameOf(row)}`) ?? 0
    return { ...row, trueGrams }
  })
  const sumOver = (isOf: (row: (typeof holdings)[number]) => boolean) => {
    const some = holdings.filter(isOf)
    return {
      trueGrams: some.reduce((sum, row) => sum + row.trueGrams, 0),
      apartGrams: Math.hypot(...some.map((row) => Number(row.standardUncertaintyGrams))),
    }
  }
  return [
    ...holdings.map((row) => ({
      ...{ grain: 'holding' as const, what: row.place, ...booked(row) },
      ...{ trueGrams: row.trueGrams, apartGrams: Number(row.standardUncertaintyGrams) },
    })),
    ...report.bodies.map((row) => ({
      ...{ grain: 'body' as const, what: row.bodyId ?? '', ...booked(row) },
      ...sumOver(({ bodyId }) => bodyId === row.bodyId),
    })),
    ...report.places.map((row) => ({
      ...{ grain: 'place' as const, what: row.place ?? '', ...booked(row) },
      ...sumOver(({ place }) => place === row.place),
    })),
    { grain: 'all', what: 'all', ...booked(report.total), ...sumOver(() => true) },
  ]
}

function nameOf(row: StockReport['holdings'][number]): string {
  return row.runId ?? row.lotId ?? row.vesselId ?? ''
}

function booked(row: ReportRow) {
  return {
    bookGrams: Number(row.dryGrams),
    uncertaintyGrams: Number(row.standardUncertaintyGrams),
  }
}

/** A row a grain and what it is of: how often the interval holds, and by how much the books are off. */
export function stockTable(studios: readonly StockStudio[]): string {
  const grains = ['holding', 'body', 'place', 'all'] as const
  const lines = grains.flatMap((grain) => {
    const kinds = new Set(
      studios.flatMap(({ figures }) => figures.filter((one) => one.grain === grain).map(whatOf)),
    )
    const names = [...kinds].sort()
    return [
      ...(grain === 'all' ? [] : names.map((what) => lineOf(studios, { grain, what }))),
      lineOf(studios, { grain, what: undefined }),
    ]
  })
  return table(
    ['figure', 'of', 'held %', 'less %', 'more %', 'off by', 'unsure by', 'if independent'],
    lines,
  )
}

function whatOf({ what }: StockFigure): string {
  return what
}

function lineOf(
  studios: readonly StockStudio[],
  asked: { grain: StockFigure['grain']; what: string | undefined },
): string[] {
  const each = studios.map(({ figures }) =>
    figures.filter(
      (one) => one.grain === asked.grain && (asked.what ?? one.what) === one.what && isThere(one),
    ),
  )
  const all = each.flat()
  const held = coverageOf(each.map((some) => tallyOf(some, (one) => one.uncertaintyGrams)))
  const apart = coverageOf(each.map((some) => tallyOf(some, (one) => one.apartGrams)))
  return [
    asked.grain,
    asked.what ?? 'each',
    heldCell(held),
    perCent(held?.early ?? 0),
    perCent(held?.late ?? 0),
    `${perCent(rootMeanSquare(all, (one) => one.bookGrams - one.trueGrams))} %`,
    `${perCent(rootMeanSquare(all, (one) => one.uncertaintyGrams))} %`,
    asked.grain === 'holding' ? '-' : heldCell(apart),
  ]
}

function isThere({ bookGrams, trueGrams }: StockFigure): boolean {
  return bookGrams > NOTHING_GRAMS || trueGrams > NOTHING_GRAMS
}

function tallyOf(
  figures: readonly StockFigure[],
  uncertaintyOf: (one: StockFigure) => number,
): Tally {
  const tally = nothingYet()
  for (const one of figures) {
    const half = COVERAGE_FACTOR * uncertaintyOf(one)
    const interval = { from: one.bookGrams - half, to: one.bookGrams + half }
    tally[outcomeOf(one.trueGrams, interval)] += 1
  }
  return tally
}

/** As a part of the true mass. */
function rootMeanSquare(
  figures: readonly StockFigure[],
  gramsOf: (one: StockFigure) => number,
): number {
  const squares = figures.map((one) => (gramsOf(one) / one.trueGrams) ** 2)
  return Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / Math.max(1, squares.length))
}
