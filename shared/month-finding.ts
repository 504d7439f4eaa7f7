import { present } from './assert.ts'
import { decimal, toLedgerScale, type Decimal } from './decimal.ts'
import type { FlowNetwork } from './flow-network.ts'
import type { MistakeTest, Suspicion } from './gross-error.ts'
import { flowGroups, type FlowGroup } from './month-groups.ts'
import { monthNetwork } from './month-network.ts'
import type { FlowReading, MonthDescription, MonthNetwork, MonthSuspect } from './month-network.ts'
import { reconciled } from './reconciliation.ts'
import type { FlowStanding, GlobalTest } from './reconciliation.ts'
import { serialElimination } from './serial-elimination.ts'
import { normalQuantile } from './statistics.ts'

/** A reading, or a figure that several share, which the rest of the month speaks against. */
export interface NamedSuspicion {
  readonly what: MonthSuspect['what']
  readonly id: string
  readonly label: string
  /** Grams too many for a reading; for a shared figure, so many of its standard uncertainties. */
  readonly size: Decimal
  readonly standardUncertainty: Decimal
  /** What chance alone gives a deviation of one. */
  readonly standardised: number
  /** Others, any of which may be meant: nothing tells them apart. */
  readonly alike: readonly AlikeSuspicion[]
  /** Known mistakes that would make as much of it. */
  readonly mistakes: readonly string[]
  /** Of what no scale said. */
  readonly asking?: FlowReading['asking']
}

/** One that nothing tells from another. */
export type AlikeSuspicion = Pick<NamedSuspicion, 'what' | 'id' | 'label' | 'size' | 'mistakes'>

export interface FoundSuspicion extends NamedSuspicion {
  /** Those that explain it nearly as well. */
  readonly nearly: readonly NamedSuspicion[]
}

export interface ReconciledReading {
  readonly id: string
  /** Left out are readings that were found not to fit: their flow is worked out from the others. */
  readonly standing: FlowStanding | 'left_out'
  readonly dryGrams: Decimal | null
  readonly reconciledDryGrams: Decimal | null
  readonly standardUncertaintyGrams: Decimal | null
  /** A mistake of this size would most likely be found; null where none would. */
  readonly wouldShowFromGrams: Decimal | null
}

export interface MonthFinding {
  readonly verdict: 'nothing_to_check' | 'agrees' | 'something_stands_out' | 'does_not_agree'
  readonly globalTest: GlobalTest
  readonly criticalValue: number
  /** In the order in which they were found, each sized beside the others. */
  readonly found: readonly FoundSuspicion[]
  /** The first in line, whether they stand out or not. */
  readonly inLine: readonly NamedSuspicion[]
  readonly readings: readonly ReconciledReading[]
  readonly groups: readonly FlowGroup[]
}

const CONFIDENCE = 0.95
const FOUND_MAX = 3
const IN_LINE = 3
/** Ten to one, as a difference of twice the natural logarithm. */
const NEARLY_AS_WELL = 2 * Math.log(10)
/** How often a mistake is found that is just large enough that it would most likely show. */
const MOST_LIKELY = 0.8
/** A known mistake is meant where it lies within so many uncertainties of the size. */
const MISTAKE_COVERAGE = 2
const MISTAKES_MAX = 2
/** How much wider than it was thought a figure is taken that was found not to fit. */
const WIDENING = 100

/**
 * What a month's readings say together: the flows that fit them all, and what fits least.
 *
 * Readings and shared figures that stand out are taken out one after the other, at most three; the flows
 * are then reconciled without them. What is named fits least, which need not be what is wrong: those
 * that nothing tells apart from it, and those that explain it nearly as well, are named with it.
 *
 * Shape: as `monthNetwork`.
 * Units: grams of dry clay at ledger scale; a shared figure's size is in its standard uncertainties.
 * Source: as `reconciled` and `serialElimination`; at most three, 95 % and ten to one are our choice,
 * because a month with more faults is better looked through by hand.
 */
export function monthFinding(description: MonthDescription): MonthFinding {
  const month = monthNetwork(description)
  const { residuals } = reconciled(month.network)
  const { found, tests } = serialElimination(residuals, {
    suspects: month.suspects,
    confidence: CONFIDENCE,
    limit: FOUND_MAX,
  })
  const first = present(tests[0], 'there is a test before anything is taken out')
  const leftOut = found.map(({ suspect }) => suspectAt(month, suspect))
  const fitted = reconciled(withoutFaults(month, leftOut))
  const wouldShowFrom = smallestFound(month, first)
  return {
    verdict: verdictOf(first, found.length),
    globalTest: first.globalTest,
    criticalValue: first.criticalValue,
    found: found.map((one, index) => ({
      ...namedIn(month, one),
      nearly: nearlyAsWell(one, tests[index]).map((other) => namedIn(month, other)),
    })),
    inLine: inLine(first).map((one) => namedIn(month, one)),
    readings: month.readings.map((reading, index) => {
      const flow = present(fitted.flows[index], 'each reading is a column')
      const isOut = leftOut.some((one) => one.what === 'reading' && one.reading === reading)
      return {
        id: reading.id,
        standing: isOut ? 'left_out' : flow.standing,
        dryGrams: reading.dryGrams,
        reconciledDryGrams: gramsOrNull(flow.value),
        standardUncertaintyGrams: gramsOrNull(flow.standardUncertainty),
        wouldShowFromGrams: gramsOrNull(wouldShowFrom.get(reading.id) ?? null),
      }
    }),
    groups: flowGroups(month, fitted),
  }
}

function verdictOf(test: MistakeTest, found: number): MonthFinding['verdict'] {
  if (test.globalTest.degreesOfFreedom === 0) return 'nothing_to_check'
  if (found > 0) return 'something_stands_out'
  return test.globalTest.pValue < 1 - CONFIDENCE ? 'does_not_agree' : 'agrees'
}

/** For each reading that something checks, the mistake that most likely passes the critical value. */
function smallestFound(month: MonthNetwork, test: MistakeTest): Map<string, number> {
  const deviations = test.criticalValue + normalQuantile(MOST_LIKELY)
  const smallest = new Map<string, number>()
  for (const { suspect, alike, standardUncertainty } of test.suspicions) {
    for (const one of [{ suspect, unitsAUnit: 1 }, ...alike]) {
      const named = suspectAt(month, one.suspect)
      if (named.what !== 'reading') continue
      smallest.set(named.reading.id, deviations * standardUncertainty * Math.abs(one.unitsAUnit))
    }
  }
  return smallest
}

/** Those that stand out by their evidence; after them the others by how far they are off. */
function inLine({ suspicions, criticalValue }: MistakeTest): Suspicion[] {
  const isLarge = (one: Suspicion) => Math.abs(one.standardised) > criticalValue
  const others = suspicions
    .filter((one) => !isLarge(one))
    .sort((one, other) => Math.abs(other.standardised) - Math.abs(one.standardised))
  return [...suspicions.filter(isLarge), ...others].slice(0, IN_LINE)
}

/** Those that explain what is left nearly as well as the one that was found, fit and size both. */
function nearlyAsWell({ suspect }: Suspicion, test: MistakeTest | undefined): Suspicion[] {
  const suspicions = test?.suspicions ?? []
  const first = suspicions.find((one) => one.suspect === suspect)
  if (first === undefined) return []
  return suspicions.filter(
    (one) =>
      one !== first &&
      first.evidence - one.evidence < NEARLY_AS_WELL &&
      first.standardised ** 2 - one.standardised ** 2 < NEARLY_AS_WELL,
  )
}

function namedIn(month: MonthNetwork, suspicion: Suspicion): NamedSuspicion {
  const { suspect, size, standardUncertainty, standardised } = suspicion
  const named = suspectAt(month, suspect)
  const asking = named.what === 'reading' ? named.reading.asking : undefined
  return {
    ...nameOf(named),
    size: grams(size),
    standardUncertainty: grams(standardUncertainty),
    standardised,
    alike: suspicion.alike.map((other) => {
      const alike = suspectAt(month, other.suspect)
      const sized = {
        size: size * other.unitsAUnit,
        standardUncertainty: standardUncertainty * Math.abs(other.unitsAUnit),
      }
      return { ...nameOf(alike), size: grams(sized.size), mistakes: fitting(alike, sized) }
    }),
    mistakes: fitting(named, { size, standardUncertainty }),
    ...(asking === undefined ? {} : { asking }),
  }
}

/** Those of about that size, the nearest first; one that is as good as nothing explains nothing. */
function fitting(
  suspect: MonthSuspect,
  { size, standardUncertainty }: Pick<Suspicion, 'size' | 'standardUncertainty'>,
): string[] {
  const mistakes = suspect.what === 'reading' ? (suspect.reading.mistakes ?? []) : []
  const reach = MISTAKE_COVERAGE * standardUncertainty
  return mistakes
    .map(({ words, dryGrams }) => ({ words, grams: dryGrams.toNumber() }))
    .filter(({ grams: made }) => Math.abs(made - size) <= reach && Math.abs(made) > reach)
    .sort((one, other) => Math.abs(one.grams - size) - Math.abs(other.grams - size))
    .slice(0, MISTAKES_MAX)
    .map(({ words }) => words)
}

function nameOf(suspect: MonthSuspect): Pick<NamedSuspicion, 'what' | 'id' | 'label'> {
  const { id, label } = suspect.what === 'reading' ? suspect.reading : suspect.source
  return { what: suspect.what, id, label }
}

function suspectAt(month: MonthNetwork, index: number): MonthSuspect {
  return present(month.suspects[index], 'a suspect has its place')
}

/** The network with faulty readings taken for not made, and faulty figures for hardly known. */
function withoutFaults(
  { network, readings, covariance }: MonthNetwork,
  faults: readonly MonthSuspect[],
): FlowNetwork {
  const wide = faults.flatMap((one) => (one.what === 'source' ? [one.effect] : []))
  return {
    balances: network.balances,
    measured: network.measured.map((value, index) =>
      faults.some((one) => one.what === 'reading' && one.reading === readings[index])
        ? null
        : value,
    ),
    covariance: covariance.map((row, one) =>
      row.map((value, other) =>
        wide.reduce(
          (sum, shift) => sum + WIDENING ** 2 * (shift[one] ?? 0) * (shift[other] ?? 0),
          value,
        ),
      ),
    ),
  }
}

function grams(value: number): Decimal {
  return toLedgerScale(decimal(value))
}

function gramsOrNull(value: number | null): Decimal | null {
  return value === null ? null : grams(value)
}
