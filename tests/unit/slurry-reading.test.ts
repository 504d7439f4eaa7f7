import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { doubtOfDifference, doubtRead, standardUncertaintyOfDoubt } from '../../shared/doubt.ts'
import {
  dryMassOfSlurry,
  slurryByVolume,
  slurrySaid,
  type SlurryJug,
} from '../../shared/slurry-reading.ts'

const CLAY = {
  waterGramsPerMillilitre: decimal(1),
  solidsGramsPerMillilitre: decimal('2.5'),
  grainSource: 'grain|2.5|buff',
}
const jug = (net: string, more: Partial<SlurryJug> = {}): SlurryJug => ({
  netGrams: decimal(net),
  netDoubt: doubtRead({ 'reading|e|1': '1' }),
  millilitres: decimal(1000),
  jugSource: 'jug|e|2',
  ...more,
})
const near = (one: Decimal | undefined, other: number, digits = 9) =>
  expect((one ?? ZERO).toNumber()).toBeCloseTo(other, digits)

describe('a litre of 1.5 kg, clay of 2.5 and water of 1 g/mL', () => {
  const said = slurrySaid(jug('1500'), CLAY)

  test('is four ninths water', () => {
    // A millilitre holds (1.5 - 1) / (2.5 - 1) = 1/3 mL of clay, which is 5/6 g of its 1.5 g: 5/9.
    expect(said.densityGramsPerMillilitre.toFixed()).toBe('1.5')
    near(said.waterContentWetBasis, 4 / 9)
  })

  test('is as unsure as its reading, its jug and its grains make it', () => {
    // Of the density: 1 g in 1000 mL, and one per cent the other way. Clay is 5/3 x (1 - 1/density), so
    // water falls by 5/3 / 1.5^2 = 0.740741 for each g/mL; and it rises with heavier grains by
    // (0.5 / 1.5) / 1.5^2 = 0.148148 for each, of which 0.05 is doubted.
    expect(said.densityDoubt).toEqual(doubtRead({ 'reading|e|1': '0.001', 'jug|e|2': '-0.015' }))
    near(said.waterDoubt.get('reading|e|1'), -0.000740740740741)
    near(said.waterDoubt.get('jug|e|2'), 0.011111111111111)
    near(said.waterDoubt.get('grain|2.5|buff'), 0.007407407407407)
  })

  test('of a basin by its volume, a jug that held more makes less clay twice over, as one source', () => {
    const whole = { millilitres: decimal(10_000), volumeSource: 'volume|e|3' }
    const wet = slurryByVolume(said, whole)
    expect(wet.netGrams.toFixed()).toBe('15000')
    expect(wet.netDoubt).toEqual(
      doubtRead({ 'reading|e|1': '10', 'jug|e|2': '-150', 'volume|e|3': '150' }),
    )
    const { dryGrams, dryDoubt } = dryMassOfSlurry(said, wet)
    near(dryGrams, 8333.333333, 6)
    // Clay in V mL is V x 2.5/1.5 x (density - 1): of the jug -0.015 x 10000 x 5/3 = -250. Taken for two
    // mistakes it would be -83.3 and -166.7 apart.
    near(dryDoubt.get('jug|e|2'), -250, 5)
    near(dryDoubt.get('reading|e|1'), 16.666667, 5)
    near(dryDoubt.get('volume|e|3'), 83.333333, 5)
    // Grains: V x (density - 1) x d(s/(s-1))/ds = 10000 x 0.5 x -1/2.25 x 0.05.
    near(dryDoubt.get('grain|2.5|buff'), -111.111111, 5)
  })
})

test('two readings of one clay share its grains, and so differ by their jugs and scales alone', () => {
  const one = slurrySaid(jug('1500'), CLAY)
  const other = slurrySaid(
    jug('1500', { jugSource: 'jug|f|2', netDoubt: doubtRead({ 'reading|f|1': '1' }) }),
    CLAY,
  )
  const apart = doubtOfDifference(one.waterDoubt, other.waterDoubt)
  expect(apart.has('grain|2.5|buff')).toBe(false)
  expect(apart.size).toBe(4)
  const expected = Math.sqrt(2) * Math.hypot(0.000740740741, 0.011111111111)
  expect(standardUncertaintyOfDoubt(apart).toNumber()).toBeCloseTo(expected, 6)
})

test('a jug weighed with its tare shares it with the basin that is weighed in the same vessel', () => {
  const tare = { 'tare|400|jug': '-1' }
  const said = slurrySaid(jug('1500', { netDoubt: doubtRead(tare) }), CLAY)
  const { dryDoubt } = dryMassOfSlurry(said, { netGrams: decimal(1500), netDoubt: doubtRead(tare) })
  // -1 x 5/9 of the mass, and -0.001 x 0.740741 of the water in 1500 g.
  near(dryDoubt.get('tare|400|jug'), -5 / 9 - 1500 * 0.000740740740741, 5)
})

test('moves with each of its sources as the reading itself does', () => {
  const masses = fc
    .integer({ min: 1_050_000, max: 2_400_000 })
    .map((mg) => decimal(mg).dividedBy(1e3))
  fc.assert(
    fc.property(masses, fc.integer({ min: 2_450, max: 2_800 }), (netGrams, grain) => {
      const clay = { ...CLAY, solidsGramsPerMillilitre: decimal(grain).dividedBy(1000) }
      const at = (by: { net?: number; volume?: number; grain?: number }) => {
        const moved = {
          ...jug('1', { netGrams: netGrams.plus(by.net ?? 0) }),
          millilitres: decimal(1000).times(1 + (by.volume ?? 0)),
        }
        const solids = clay.solidsGramsPerMillilitre.plus(by.grain ?? 0)
        const said = slurrySaid(moved, { ...clay, solidsGramsPerMillilitre: solids })
        const wet = slurryByVolume(said, { millilitres: decimal(9000), volumeSource: 'volume|e|3' })
        return wet.netGrams.times(ONE_LESS(said.waterContentWetBasis))
      }
      const said = slurrySaid(jug('1', { netGrams }), clay)
      const wet = slurryByVolume(said, { millilitres: decimal(9000), volumeSource: 'volume|e|3' })
      const { dryDoubt } = dryMassOfSlurry(said, wet)
      const slope = (by: (step: number) => Decimal, unit: number) =>
        by(1e-4).minus(by(-1e-4)).dividedBy(2e-4).times(unit).toNumber()
      const close = (source: string, expected: number) => {
        const found = (dryDoubt.get(source) ?? ZERO).toNumber()
        expect(Math.abs(found - expected)).toBeLessThanOrEqual(0.02 + 1e-4 * Math.abs(expected))
      }
      close(
        'reading|e|1',
        slope((net) => at({ net }), 1),
      )
      close(
        'jug|e|2',
        slope((volume) => at({ volume }), 0.01),
      )
      close(
        'grain|2.5|buff',
        slope((by) => at({ grain: by }), 0.05),
      )
    }),
  )
})

const ONE_LESS = (water: Decimal) => decimal(1).minus(water)
