import { setImmediate as letOthersGo } from 'node:timers/promises'
import { dryingPriorFrom, type DryingPrior } from '../../shared/drying-prior.ts'
import { forecastDrying } from '../../shared/drying.ts'
import { Refusal } from '../../shared/refusal.ts'
import { Chance } from '../support/chance.ts'
import {
  believedStudio,
  OTHER_LAWS,
  OWN_LAWS,
  simulatedLoad,
  simulatedPast,
  simulatedStudio,
  type Law,
  type SimulatedLoad,
  type SimulatedStudio,
} from '../support/simulate-drying.ts'
import { coverageOf, nothingYet, outcomeOf, together, type Tally } from './coverage.ts'
import { heldCell, perCent, table } from './markdown.ts'

/** Forecasts for one load a studio, so that no two of a row have anything in common. */
export interface ReadinessRow {
  readonly group: string
  readonly law: Law
  readonly pastLoads: number
  readonly weighIns: number
  /** One a studio, empty where it was refused. */
  readonly tallies: readonly Tally[]
  readonly refused: number
  /** Of those that were not refused. Units: hours. */
  readonly widthsHours: readonly number[]
}

interface Group {
  readonly name: string
  readonly law: Law
  readonly seed: number
  readonly studios: number
  readonly studio: (chance: Chance) => SimulatedStudio
}

const PAST_LOADS = [0, 3, 10] as const
const WEIGH_INS = [0, 1, 2, 3] as const
const TARGET = 0.225
const TOO_DRY = 0.19
export const READINESS_SEED = 20_261_101

/**
 * Studios that are as the forecast believes studios to be, by its own two laws; others that are more
 * alike, by the same laws; and some that dry by laws that it does not know.
 */
function groupsOf(studios: number): Group[] {
  const third = Math.ceil(studios / 3)
  const groups = [
    ...OWN_LAWS.map((law) => ({
      ...{ name: 'as believed', law, studios },
      studio: (chance: Chance) => believedStudio(chance, law),
    })),
    ...[...OWN_LAWS, ...OTHER_LAWS].map((law) => ({
      ...{ name: isOwn(law) ? 'more alike' : 'another law', law, studios: third },
      studio: (chance: Chance) => simulatedStudio(chance, law),
    })),
  ]
  return groups.map((group, index) => ({ ...group, seed: READINESS_SEED + index }))
}

function isOwn(law: Law): boolean {
  return (OWN_LAWS as readonly Law[]).includes(law)
}

interface SeenForecast {
  readonly pastLoads: number
  readonly weighIns: number
  /** Nothing where it was refused. */
  readonly forecast: { readonly tally: Tally; readonly widthHours: number } | undefined
}

/** The rows of all laws, past loads and weigh-ins, from so many studios a law. */
export async function readinessRows(
  studios: number,
  tell: (line: string) => void,
): Promise<ReadinessRow[]> {
  const rows: ReadinessRow[] = []
  for (const group of groupsOf(studios)) {
    rows.push(...(await rowsOf(group)))
    tell(`readiness: ${group.name}, ${group.law}, ${String(group.studios)} studios`)
  }
  return rows
}

async function rowsOf({ name, law, seed, studios, studio }: Group): Promise<ReadinessRow[]> {
  const chance = new Chance(seed)
  const seen: SeenForecast[] = []
  for (let one = 0; one < studios; one += 1) {
    seen.push(...oneStudio(chance, studio(chance)))
    await letOthersGo()
  }
  return PAST_LOADS.flatMap((pastLoads) =>
    WEIGH_INS.map((weighIns) => {
      const here = seen.filter((row) => row.pastLoads === pastLoads && row.weighIns === weighIns)
      const told = here.flatMap(({ forecast }) => (forecast === undefined ? [] : [forecast]))
      return {
        ...{ group: name, law, pastLoads, weighIns },
        tallies: here.map(({ forecast }) => forecast?.tally ?? nothingYet()),
        refused: here.length - told.length,
        widthsHours: told.map(({ widthHours }) => widthHours),
      }
    }),
  )
}

/** One load of a studio, seen with fewer or more past loads and weigh-ins. */
function oneStudio(chance: Chance, studio: SimulatedStudio): SeenForecast[] {
  const past = simulatedPast(chance, studio, Math.max(...PAST_LOADS))
  const load = simulatedLoad(chance, studio)
  const ready = load.hoursTo(TARGET)
  const shares = [chance.between(0.15, 0.35), chance.between(0.4, 0.6), chance.between(0.7, 0.9)]
  const hours = shares.map((share) => share * ready)
  const weighed = load.weighedAt(hours)
  return PAST_LOADS.flatMap((pastLoads) => {
    const prior = dryingPriorFrom(past.slice(0, pastLoads))
    return WEIGH_INS.map((weighIns) => ({
      pastLoads,
      weighIns,
      forecast: forecastOf({ load, prior, weighed: weighed.slice(0, weighIns), ready }),
    }))
  })
}

function forecastOf(of: {
  load: SimulatedLoad
  prior: DryingPrior
  weighed: ReturnType<SimulatedLoad['weighedAt']>
  ready: number
}): SeenForecast['forecast'] {
  try {
    const { readyAtHours } = forecastDrying({
      load: of.load.load,
      weighIns: of.weighed,
      prior: of.prior,
      targetWaterContentWetBasis: TARGET,
      tooDryWaterContentWetBasis: TOO_DRY,
      nowHours: Math.max(0, ...of.weighed.map(({ hours }) => hours)),
    })
    const tally = nothingYet()
    tally[outcomeOf(of.ready, readyAtHours)] += 1
    return { tally, widthHours: readyAtHours.to - readyAtHours.from }
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}

/**
 * A row a law and its past loads, a column each count of weigh-ins, then all of them; and the laws of a
 * group together.
 */
export function readinessTable(rows: readonly ReadinessRow[]): string {
  const lines = groupBy(rows, (row) => row.group).flatMap((group) => [
    ...groupBy(group, (row) => String(row.pastLoads)).flatMap((same) => [
      ...groupBy(same, (row) => row.law).map(lineOf),
      lineOf(same),
    ]),
    lineOf(group),
  ])
  const weighed = WEIGH_INS.map((count) => `${String(count)} weigh-ins`)
  const head = ['studios', 'law', 'past loads', ...weighed, 'all', 'early %', 'late %']
  return table([...head, 'refused %', 'median width h'], lines)
}

function lineOf(rows: readonly ReadinessRow[]): string[] {
  const one = <T>(of: (row: ReadinessRow) => T) => {
    const all = [...new Set(rows.map(of))]
    return all.length === 1 ? String(all[0]) : 'all'
  }
  const each = WEIGH_INS.map((count) => rows.filter(({ weighIns }) => weighIns === count))
  const whole = coverageOf(studiosOf(rows))
  const asked = rows.reduce((sum, row) => sum + row.tallies.length, 0)
  return [
    one((row) => row.group),
    one((row) => row.law),
    one((row) => row.pastLoads),
    ...each.map((some) => heldCell(coverageOf(studiosOf(some)))),
    heldCell(whole),
    perCent(whole?.early ?? 0),
    perCent(whole?.late ?? 0),
    perCent(rows.reduce((sum, row) => sum + row.refused, 0) / asked),
    each.map(medianWidth).join(', '),
  ]
}

function medianWidth(rows: readonly ReadinessRow[]): string {
  const widths = rows.flatMap((row) => row.widthsHours).sort((a, b) => a - b)
  return widths[Math.floor(widths.length / 2)]?.toFixed(1) ?? '-'
}

/** A studio's forecasts after fewer or more weigh-ins and past loads are of one load. */
function studiosOf(rows: readonly ReadinessRow[]): Tally[] {
  return groupBy(rows, (row) => row.law).flatMap((same) => {
    const studios = same[0]?.tallies.length ?? 0
    return Array.from({ length: studios }, (_, index) =>
      together(same.flatMap((row) => row.tallies[index] ?? [])),
    )
  })
}

function groupBy<T>(rows: readonly T[], key: (row: T) => string): T[][] {
  const names = [...new Set(rows.map(key))]
  return names.map((name) => rows.filter((row) => key(row) === name))
}
