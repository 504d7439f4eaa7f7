import { mistakeTest, type MistakeTest } from '../../shared/gross-error.ts'
import { monthNetwork, type MonthNetwork } from '../../shared/month-network.ts'
import { reconciled, type ResidualSpace } from '../../shared/reconciliation.ts'
import { Chance } from './chance.ts'
import { simulatedMonth, type Habit } from './simulate-month.ts'

/** How often one bad weigh-in was named, of so many months; shares from 0 to 1. */
export interface NamingRow {
  readonly habit: Habit
  /** So many times the noise, which is all that the reading is unsure of, or its own part alone. */
  readonly times: number
  readonly noise: 'stated' | 'own'
  readonly months: number
  /** First in line, by itself or as one of a set that nothing tells apart. */
  readonly first: number
  readonly firstAlone: number
  /** Something stands out, and the bad one is first or so near to it that it is named with it. */
  readonly named: number
  readonly standsOut: number
  /** Months in which the rest of the readings could see the mistake at all, and first among these. */
  readonly visible: number
  readonly firstOfVisible: number
}

export interface NamingTable {
  readonly rows: readonly NamingRow[]
  /** Months without a mistake in which something stood out nevertheless. */
  readonly falseAlarms: number
  /** Chi-square a degree of freedom in months without a mistake; one if the noise is as stated. */
  readonly meanChiSquare: number
}

interface Trial {
  readonly network: MonthNetwork
  readonly residuals: ResidualSpace
  readonly suspect: number
  readonly sign: number
  readonly noiseGrams: Readonly<Record<'stated' | 'own', number>>
  readonly honest: MistakeTest
}

const CONFIDENCE = 0.95
const NEARLY_AS_WELL = 2 * Math.log(10)
/** A mistake that moves the residuals by so many deviations is visible. */
const VISIBLE_DEVIATIONS = 5

/** Months with a bad weigh-in each, chosen from all that something checks, at several sizes. */
export function namingTable(asked: {
  habit: Habit
  months: number
  sizes: readonly { times: number; noise: 'stated' | 'own' }[]
}): NamingTable {
  const { habit, months, sizes } = asked
  const trials = Array.from({ length: months }, (_, month) => trialOf(month + 1, habit))
  const share = (count: number) => count / months
  return {
    rows: sizes.map((size) => ({ habit, ...size, months, ...rowOf(trials, size) })),
    falseAlarms: share(trials.filter(({ honest }) => honest.isAnythingLarge).length),
    meanChiSquare: share(
      trials.reduce((sum, { honest: { globalTest } }) => {
        return sum + globalTest.chiSquare / globalTest.degreesOfFreedom
      }, 0),
    ),
  }
}

function trialOf(seed: number, habit: Habit): Trial {
  const month = simulatedMonth(seed, habit)
  const network = monthNetwork(month.description)
  const { residuals } = reconciled(network.network)
  const honest = mistakeTest(residuals, { suspects: network.suspects, confidence: CONFIDENCE })
  const chance = new Chance(1_000_000 + seed)
  const candidates = network.suspects.flatMap((one, suspect) => {
    if (one.what !== 'reading' || honest.unseen.includes(suspect)) return []
    const own = month.ownUncertaintyGrams.get(one.reading.id)
    const stated = one.reading.standardUncertaintyGrams.toNumber()
    return own === undefined ? [] : [{ suspect, noiseGrams: { own, stated } }]
  })
  const sign = chance.uniform() < 0.5 ? -1 : 1
  return { network, residuals, honest, sign, ...chance.pick(candidates) }
}

function rowOf(
  trials: readonly Trial[],
  size: { times: number; noise: 'stated' | 'own' },
): Omit<NamingRow, 'habit' | 'times' | 'noise' | 'months'> {
  const outcomes = trials.map((trial) =>
    outcomeOf(trial, trial.sign * size.times * trial.noiseGrams[size.noise]),
  )
  const share = (some: readonly boolean[]) =>
    some.filter((one) => one).length / Math.max(1, some.length)
  const visible = outcomes.filter(({ isVisible }) => isVisible)
  return {
    first: share(outcomes.map(({ isFirst }) => isFirst)),
    firstAlone: share(outcomes.map(({ isAlone }) => isAlone)),
    named: share(outcomes.map(({ isNamed }) => isNamed)),
    standsOut: share(outcomes.map(({ standsOut }) => standsOut)),
    visible: share(outcomes.map(({ isVisible }) => isVisible)),
    firstOfVisible: share(visible.map(({ isFirst }) => isFirst)),
  }
}

/** What happens when one reading is wrong: all residuals move by what it adds to them. */
function outcomeOf({ network, residuals, suspect }: Trial, grams: number) {
  const effect = network.suspects[suspect]?.effect ?? []
  const moved = residuals.effects.map((row) =>
    row.reduce((sum, one, flow) => sum + grams * one * (effect[flow] ?? 0), 0),
  )
  const residual = residuals.residual.map((one, index) => one + (moved[index] ?? 0))
  const test = mistakeTest(
    { ...residuals, residual },
    { suspects: network.suspects, confidence: CONFIDENCE },
  )
  const isIt = (one: MistakeTest['suspicions'][number]) =>
    one.suspect === suspect || one.alike.some((other) => other.suspect === suspect)
  const [first] = test.suspicions
  const own = test.suspicions.find(isIt)
  const isFirst = first !== undefined && isIt(first)
  const behind = (first?.evidence ?? Infinity) - (own?.evidence ?? -Infinity)
  return {
    isFirst,
    isAlone: isFirst && first.alike.length === 0,
    isNamed: test.isAnythingLarge && behind < NEARLY_AS_WELL,
    standsOut: test.isAnythingLarge,
    isVisible: Math.hypot(...moved) >= VISIBLE_DEVIATIONS,
  }
}
