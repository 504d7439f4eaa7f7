import { setImmediate as letOthersGo } from 'node:timers/promises'
import { wilsonInterval } from '../../shared/proportion.ts'
import { namingTable, type NamingTable } from '../support/naming-table.ts'
import { HABITS, type Habit } from '../support/simulate-month.ts'
import { perCent, table } from './markdown.ts'

/** A bad weigh-in of three times its noise, in months of a habit of weighing. */
export interface HabitNaming {
  readonly habit: Habit
  readonly months: number
  readonly naming: NamingTable
}

const SIZES = [
  { times: 3, noise: 'stated' as const },
  { times: 10, noise: 'stated' as const },
]

/** So many months of each habit. */
export async function habitNamings(
  months: number,
  tell: (line: string) => void,
): Promise<HabitNaming[]> {
  const seen: HabitNaming[] = []
  for (const habit of HABITS) {
    seen.push({ habit, months, naming: namingTable({ habit, months, sizes: SIZES }) })
    tell(`naming: ${habit}, ${String(months)} months`)
    await letOthersGo()
  }
  return seen
}

/** A row a habit and a size of mistake. */
export function namingLines(habits: readonly HabitNaming[]): string {
  const lines = habits.flatMap(({ habit, months, naming }) =>
    naming.rows.map((row) => [
      habit,
      String(row.times),
      withMargin(row.first, months),
      perCent(row.firstAlone),
      perCent(row.standsOut),
      perCent(row.visible),
      perCent(row.firstOfVisible),
      withMargin(naming.falseAlarms, months),
      naming.meanChiSquare.toFixed(2),
    ]),
  )
  const head = ['weighed', 'times the noise', 'named first %', 'alone %', 'stands out %']
  return table([...head, 'visible %', 'first of these %', 'false alarms %', 'chi²/dof'], lines)
}

function withMargin(share: number, months: number): string {
  const { from, to } = wilsonInterval({ events: Math.round(share * months), trials: months })
  return `${perCent(share)} ±${perCent((to - from) / 2)}`
}
