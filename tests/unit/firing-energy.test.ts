import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  bestOfElectricity,
  energyAsSaid,
  energyByMeter,
  energyByRule,
  energyByUsual,
  energyTogether,
  ENERGY_RATES,
  isKnown,
  RATED_DUTY,
} from '../../shared/firing-energy.ts'
import type { FiringEnergy, KnownEnergy } from '../../shared/firing-energy.ts'
import { gasBurnt } from '../../shared/firing-gas.ts'

const meter = (before: string, after: string, division = '1') =>
  energyByMeter({
    before: decimal(before),
    after: decimal(after),
    division: decimal(division),
  })
const known = (energy: FiringEnergy): KnownEnergy => {
  if (!isKnown(energy)) throw new Error(energy.words)
  return energy
}
const rule = (hours = '10') =>
  energyByRule({ ratedKilowatts: decimal(8), hours: decimal(hours), doing: 'bisque' })
const usual = (...past: string[]) => energyByUsual(past.map((one) => decimal(one)))

describe('by the meter', () => {
  test('is the difference of two readings, measured', () => {
    const found = meter('10423', '10481')
    expect(found.kilowattHours?.toFixed()).toBe('58')
    expect(found.standing).toBe('measured')
    // The root of 0.01² and (1/58)²/6.
    expect(found.relativeStandardUncertainty?.toFixed()).toBe('0.012229')
    expect(found.words).toBe('58 kWh by the meter.')
  })

  test('a meter that ran over its last digit tells a reason and no energy', () => {
    const found = meter('99980', '38')
    expect(found).toMatchObject({
      kilowattHours: null,
      relativeStandardUncertainty: null,
      whyNot: 'meter_ran_over_or_was_swapped',
    })
    expect(found.words).toContain('ran past its last digit')
  })

  test('a meter that did not move tells a reason', () => {
    expect(meter('40', '40').whyNot).toBe('meter_did_not_move')
  })

  test('readings below zero are a defect', () => {
    expect(() => meter('-1', '3')).toThrow('below zero')
  })

  test('a finer meter is surer', () => {
    const fine = meter('10', '20', '0.01').relativeStandardUncertainty
    expect(fine?.lessThan(known(meter('10', '20')).relativeStandardUncertainty ?? 0)).toBe(true)
  })
})

describe('as said', () => {
  test('kilowatt-hours stay as they are', () => {
    const said = energyAsSaid({
      value: decimal('58'),
      unit: 'kilowatt_hour',
      division: decimal(1),
    })
    expect(said).toMatchObject({ how: 'said', standing: 'measured', whyNot: null })
    expect(said.kilowattHours?.toFixed()).toBe('58')
    expect(said.words).toBe('58 kWh as said.')
  })

  test.each(ENERGY_RATES)('%s is a rate and no energy', (unit) => {
    const said = energyAsSaid({ value: decimal(20000), unit, division: decimal(1000) })
    expect(said).toMatchObject({ kilowattHours: null, whyNot: 'rate_is_no_total' })
    expect(said.words).toContain('how fast it burns')
  })

  test('nothing said is a defect', () => {
    expect(() => energyAsSaid({ value: decimal(0), unit: 'btu', division: decimal(1) })).toThrow(
      'above zero',
    )
  })
})

describe('by the rule', () => {
  test('is power by hours by duty, estimated, and says how', () => {
    expect(rule().kilowattHours.toFixed()).toBe('40')
    expect(rule()).toMatchObject({ how: 'rule', standing: 'estimated' })
    expect(rule().words).toBe('About 40 kWh: 8 kW × 10 h × 0.50. A meter reading is better.')
  })

  test("with the kiln's usual hours it is assumed, and less sure", () => {
    const kiln = { ratedKilowatts: decimal(8), hours: decimal(10), doing: 'glaze' } as const
    const assumed = energyByRule({ ...kiln, hoursAreUsual: true })
    expect(assumed.standing).toBe('assumed')
    expect(assumed.relativeStandardUncertainty?.toFixed()).toBe('0.35')
    expect(energyByRule(kiln).relativeStandardUncertainty?.toFixed()).toBe('0.25')
    expect(assumed.words).toContain('usual hours')
  })

  test("a kiln's own duty is taken before the rule's", () => {
    const kiln = { ratedKilowatts: decimal(8), hours: decimal(10), doing: 'candling' } as const
    expect(energyByRule(kiln).kilowattHours.toFixed()).toBe('12')
    expect(energyByRule({ ...kiln, dutyFraction: decimal('0.2') }).kilowattHours.toFixed()).toBe(
      '16',
    )
  })

  test('a duty above one is a defect', () => {
    const kiln = { ratedKilowatts: decimal(8), hours: decimal(10), doing: 'bisque' } as const
    expect(() => energyByRule({ ...kiln, dutyFraction: decimal('1.1') })).toThrow('a duty')
  })

  test('candling draws least and a glaze firing most', () => {
    expect(RATED_DUTY.candling.lessThan(RATED_DUTY.bisque)).toBe(true)
    expect(RATED_DUTY.bisque.lessThan(RATED_DUTY.glaze)).toBe(true)
  })
})

describe('as usual', () => {
  test('is the mean of past metered firings', () => {
    const found = usual('66', '70', '74')
    expect(found.kilowattHours?.toFixed()).toBe('70')
    expect(found.standing).toBe('estimated')
    // Squares 32 and a guess of 2 · 7² over 2 + 2 degrees, times 1 + 1/3, over 70².
    expect(found.relativeStandardUncertainty?.toFixed()).toBe('0.09404')
    expect(found.words).toContain('the mean of 3 metered firings')
  })

  test('one past firing leans on the first guess of the spread', () => {
    // 0.10 times the root of two.
    expect(usual('70').relativeStandardUncertainty?.toFixed()).toBe('0.141421')
    expect(usual('70').words).toContain('one metered firing')
  })

  test('no past firing tells a reason', () => {
    expect(usual()).toMatchObject({ kilowattHours: null, whyNot: 'no_metered_firing_yet' })
  })

  test('the order of the past does not matter, and more of the same is surer', () => {
    expect(usual('74', '66', '70')).toEqual(usual('66', '70', '74'))
    const twice = usual('66', '70', '74', '66', '70', '74').relativeStandardUncertainty
    expect(twice?.lessThan(known(usual('66', '70', '74')).relativeStandardUncertainty ?? 0)).toBe(
      true,
    )
  })
})

describe('the best of several ways', () => {
  test('a meter beats the usual, the usual beats the rule, in any order', () => {
    const ways = [rule(), usual('70', '71'), meter('1', '59')]
    expect(bestOfElectricity(ways)).toEqual(meter('1', '59'))
    expect(bestOfElectricity(ways.slice(0, 2)).how).toBe('usual')
    expect(bestOfElectricity([...ways].reverse()).how).toBe('meter')
    expect(bestOfElectricity([rule()])).toEqual(rule())
  })

  test('where the meter ran over the rule steps in, and the words keep why', () => {
    const found = bestOfElectricity([rule(), meter('9990', '30')])
    expect(found.how).toBe('rule')
    expect(found.words).toContain('ran past its last digit')
    expect(found.words).toContain('About 40 kWh')
  })

  test('where nothing is known the first reason stays', () => {
    expect(bestOfElectricity([usual(), meter('9990', '30')]).whyNot).toBe(
      'meter_ran_over_or_was_swapped',
    )
  })

  test('gas never stands in for electricity', () => {
    const gas = gasBurnt({ burntGrams: decimal(900), divisionGrams: decimal(10) })
    expect(() => bestOfElectricity([gas, rule()])).toThrow('gas is added')
  })
})

describe('energies together', () => {
  test('add up; what is off in the same way is off together', () => {
    const twice = energyTogether([rule(), rule('30')])
    expect(twice.kilowattHours.toFixed()).toBe('160')
    expect(twice.relativeStandardUncertainty?.toFixed()).toBe('0.25')
  })

  test('independent ways add in quadrature, and the weakest gives its standing', () => {
    const both = energyTogether([known(meter('0', '40')), rule()])
    expect(both.kilowattHours.toFixed()).toBe('80')
    expect(both).toMatchObject({ how: 'rule', standing: 'estimated' })
    // The root of 10² and of 40² · (0.01² + 1/9600), over 80.
    expect(both.relativeStandardUncertainty?.toFixed()).toBe('0.125204')
  })

  test('gas and electricity of one kiln both count', () => {
    const gas = gasBurnt({ burntGrams: decimal(1900), divisionGrams: decimal(10) })
    const both = energyTogether([known(meter('0', '40')), known(gas)])
    expect(both.kilowattHours.toFixed(1)).toBe('66.7')
    expect(both.standing).toBe('measured')
  })
})
