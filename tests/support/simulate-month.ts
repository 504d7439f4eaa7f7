import { decimal, toLedgerScale, type Decimal } from '../../shared/decimal.ts'
import type { FlowReading, MonthDescription, MonthFlow } from '../../shared/month-network.ts'
import { Chance } from './chance.ts'
import { workedDayMonth } from './simulate-worked-day.ts'
import { trueMonth, type TrueFlow } from './true-month.ts'

/**
 * How much is weighed: the pots only before and after the kiln; the pots also before and after they are
 * turned; these also known by their count and the usual mass of one; everything weighed twice; or as in
 * the handbook's worked day, told through the books.
 */
export const HABITS = [
  'once',
  'before_and_after',
  'counted_too',
  'all_twice',
  'as_the_worked_day',
] as const
export type Habit = (typeof HABITS)[number]

export interface SimulatedMonth {
  readonly description: MonthDescription
  /** What each reading would be if nothing erred, by its id. */
  readonly trueDryGrams: ReadonlyMap<string, number>
  /** What each reading of a scale errs by on its own, what it shares with others left aside. */
  readonly ownUncertaintyGrams: ReadonlyMap<string, number>
}

interface Reading {
  readonly chance: Chance
  readonly habit: Habit
  /** What each shared figure errs by, in its standard uncertainties. */
  readonly errors: ReadonlyMap<string, number>
}

const DIVISION_GRAMS = 5
const CAPACITY_GRAMS = 15_000
/** The full vessel and the empty one. */
const READINGS = 2
/** How much the water of one weigh-in differs from the figure for all: a part of the wet mass. */
const UNEVEN_WATER = 0.001
/** How well a count of pieces and their usual mass tell what they weigh. */
const COUNT_UNCERTAINTY = 0.02

/**
 * A month of which everything is known: what truly moved, and what was read of it.
 *
 * Every shared figure, every reading and every guess errs once, by chance, as much as it says.
 */
export function simulatedMonth(seed: number, habit: Habit): SimulatedMonth {
  if (habit === 'as_the_worked_day') return workedDayMonth(seed)
  const chance = new Chance(seed)
  const flows = trueMonth(chance)
  const sources = [...new Set(flows.flatMap(({ way }) => (way.by === 'scale' ? way.source : [])))]
  const lots = habit === 'all_twice' ? flows.map(({ id }) => lotSource(id)) : []
  const errors = new Map(sources.map((source) => [source, chance.normal()]))
  return {
    description: {
      flows: flows.map((flow) => readOf(flow, { chance, habit, errors })),
      sources: [...sources, ...lots].map((source) => ({ id: source, label: `The ${source}` })),
    },
    trueDryGrams: new Map(flows.map(({ id, dryGrams }) => [id, dryGrams])),
    ownUncertaintyGrams: new Map(
      flows.filter(({ way }) => way.by === 'scale').map((flow) => [flow.id, ownUncertainty(flow)]),
    ),
  }
}

/** The same month with one reading wrong by so many grams. */
export function withBadReading(
  { flows, ...rest }: MonthDescription,
  bad: { readonly id: string; readonly grams: number },
): MonthDescription {
  return {
    ...rest,
    flows: flows.map((flow) =>
      flow.id === bad.id && flow.dryGrams !== null
        ? { ...flow, dryGrams: toLedgerScale(flow.dryGrams.plus(decimal(bad.grams))) }
        : flow,
    ),
  }
}

function readOf(flow: TrueFlow, reading: Reading): MonthFlow {
  const { id, kind, from, to } = flow
  const named = { id, kind, from, to, label: `The ${id}` }
  const { habit, chance } = reading
  if (flow.way.by === 'guess') return { ...named, ...guessOf(flow.way) }
  if (flow.isWare === true && habit === 'once') {
    return { ...named, dryGrams: null, standardUncertaintyGrams: decimal(0) }
  }
  // The water of one lot of clay is what it is, however often the lot is weighed.
  const uneven = chance.normal()
  const weighed = { ...named, ...weighingOf(flow, { ...reading, uneven }) }
  if (habit === 'all_twice') {
    const second = weighingOf(flow, { ...reading, uneven })
    return { ...weighed, again: [{ id: `${id}, again`, label: `The ${id}, again`, ...second }] }
  }
  if (habit === 'counted_too' && flow.isWare === true) {
    return { ...weighed, again: [countOf(flow, chance)] }
  }
  return weighed
}

type Figures = Pick<FlowReading, 'isGuess' | 'dryGrams' | 'standardUncertaintyGrams' | 'sources'>

function guessOf(way: Extract<TrueFlow['way'], { by: 'guess' }>): Figures {
  const standardUncertaintyGrams = grams(way.uncertaintyGrams)
  return { isGuess: true, dryGrams: grams(way.dryGrams), standardUncertaintyGrams }
}

function weighingOf(flow: TrueFlow, reading: Reading & { uneven: number }): Figures {
  const { id, dryGrams, way } = flow
  const { chance, errors, uneven, habit } = reading
  const wet = wetGrams(flow)
  const source = way.by === 'scale' ? way.source : ''
  const figureGrams = way.by === 'scale' ? wet * way.waterUncertainty : 0
  const scaleGrams = scaleUncertainty(wet, dryGrams)
  const unevenGrams = UNEVEN_WATER * wet
  const error =
    figureGrams * (errors.get(source) ?? 0) + unevenGrams * uneven + scaleGrams * chance.normal()
  const figure = { sourceId: source, contributionGrams: grams(figureGrams) }
  const lot = { sourceId: lotSource(id), contributionGrams: grams(unevenGrams) }
  return {
    dryGrams: grams(dryGrams + error),
    standardUncertaintyGrams: grams(Math.hypot(figureGrams, scaleGrams, unevenGrams)),
    sources: habit === 'all_twice' ? [figure, lot] : [figure],
  }
}

function lotSource(id: string): string {
  return `water of the ${id}`
}

function wetGrams({ dryGrams, way }: TrueFlow): number {
  return way.by === 'scale' ? dryGrams / (1 - way.waterFraction) : dryGrams
}

/** The scale's, and that of the water of this lot of clay against the figure for all. */
function ownUncertainty(flow: TrueFlow): number {
  const wet = wetGrams(flow)
  return Math.hypot(scaleUncertainty(wet, flow.dryGrams), UNEVEN_WATER * wet)
}

/** A reading of the full vessel and one of the empty, as often as it takes to weigh all. */
function scaleUncertainty(wet: number, dry: number): number {
  const times = Math.ceil(wet / CAPACITY_GRAMS)
  return (dry / wet) * DIVISION_GRAMS * Math.sqrt((READINGS * times) / 12)
}

function countOf({ id, dryGrams }: TrueFlow, chance: Chance): FlowReading {
  const unsure = COUNT_UNCERTAINTY * dryGrams
  return {
    id: `count of ${id}`,
    label: `The count of ${id}`,
    dryGrams: grams(dryGrams + unsure * chance.normal()),
    standardUncertaintyGrams: grams(unsure),
  }
}

function grams(value: number): Decimal {
  return toLedgerScale(decimal(value))
}
