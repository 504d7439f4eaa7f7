import { describe, expect, test } from 'vitest'
import { studioDryingFrom, type DryingPrior } from '../../shared/drying-prior.ts'
import { forecastDrying } from '../../shared/drying.ts'
import { Refusal } from '../../shared/refusal.ts'
import { Chance } from '../support/chance.ts'
import {
  simulatedLoad,
  simulatedPast,
  simulatedStudio,
  type SimulatedLoad,
} from '../support/simulate-drying.ts'

const STUDIOS = 20
const BATS = ['north', 'east', 'south']
const LOADS_A_BAT = 4
const TARGET = 0.225

interface Tally {
  count: number
  held: number
  error: number
}

/** How a forecast without a weigh-in fares, with what any bat teaches and with what its own does. */
function tell(spreadOfBats: number): { any: Tally; own: Tally } {
  const chance = new Chance(77)
  const tallies = { any: { count: 0, held: 0, error: 0 }, own: { count: 0, held: 0, error: 0 } }
  for (let one = 0; one < STUDIOS; one += 1) {
    const studio = simulatedStudio(chance, 'page')
    const bats = BATS.map((batId) => ({
      batId,
      studio: { ...studio, logHours: studio.logHours + spreadOfBats * chance.normal() },
    }))
    const past = bats.flatMap((bat) =>
      simulatedPast(chance, bat.studio, LOADS_A_BAT).map((load) => ({ ...load, batId: bat.batId })),
    )
    const { anyBat, ofBat } = studioDryingFrom(past)
    for (const bat of bats) {
      const load = simulatedLoad(chance, bat.studio)
      note(tallies.any, load, anyBat)
      note(tallies.own, load, ofBat.get(bat.batId) ?? anyBat)
    }
  }
  return tallies
}

function note(tally: Tally, load: SimulatedLoad, prior: DryingPrior): void {
  const ready = load.hoursTo(TARGET)
  try {
    const { readyAtHours } = forecastDrying({
      load: load.load,
      weighIns: [],
      prior,
      targetWaterContentWetBasis: TARGET,
      tooDryWaterContentWetBasis: 0.19,
      nowHours: 0,
    })
    tally.count += 1
    tally.error += Math.abs(Math.log(readyAtHours.median / ready))
    if (ready >= readyAtHours.from && ready <= readyAtHours.to) tally.held += 1
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
  }
}

describe('past loads on the same bat', () => {
  const errorOf = ({ error, count }: Tally) => error / count

  test(
    'count most: where bats differ they take some of the error off',
    { timeout: 120_000 },
    () => {
      const { any, own } = tell(0.5)
      expect(errorOf(own)).toBeLessThan(0.85 * errorOf(any))
      expect(own.held / own.count).toBeGreaterThan(0.84)
    },
  )

  test('cost little where bats are alike', { timeout: 120_000 }, () => {
    const { any, own } = tell(0)
    expect(errorOf(own)).toBeLessThan(1.15 * errorOf(any))
    expect(own.held / own.count).toBeGreaterThan(0.84)
  })

  test('leave what is expected of a bat that none lay on', () => {
    const chance = new Chance(3)
    const studio = simulatedStudio(chance, 'newton')
    const past = simulatedPast(chance, studio, 3)
    const { anyBat, ofBat } = studioDryingFrom(past)
    expect(ofBat.size).toBe(0)
    expect(anyBat).toMatchObject({ loads: 3, loadsOnBat: 0 })
    const onOne = studioDryingFrom(past.map((load) => ({ ...load, batId: 'only' })))
    expect(onOne.anyBat).toEqual(anyBat)
    expect(onOne.ofBat.get('only')).toMatchObject({ loads: 3, loadsOnBat: 3 })
  })
})
