import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  drySolidsInSlurry,
  slurryDensityGramsPerMillilitre,
  slurryWaterContentWetBasis,
  waterDensityGramsPerMillilitre,
} from '../../shared/slurry.ts'
import { ledgerAmount } from './arbitrary.ts'
import { refusedWith } from './refused.ts'

const water = decimal(1)
const solids = decimal('2.6')
const litre = (grams: string) => () =>
  drySolidsInSlurry({
    slurryGrams: decimal(grams),
    slurryMillilitres: decimal(1000),
    waterGramsPerMillilitre: water,
    solidsGramsPerMillilitre: solids,
  })
const density = (gramsPerMillilitre: string) => () =>
  slurryWaterContentWetBasis({
    densityGramsPerMillilitre: decimal(gramsPerMillilitre),
    waterGramsPerMillilitre: water,
    solidsGramsPerMillilitre: solids,
  })

describe('a measured volume of slurry', () => {
  test('clay and water add up to the slurry, for every reading it accepts', () => {
    fc.assert(
      fc.property(
        ledgerAmount(1, 50_000),
        fc.integer({ min: 1, max: 1_599_999 }),
        (slurryMillilitres, millionthsAboveWater) => {
          const perMillilitre = decimal(millionthsAboveWater).dividedBy(1_000_000).plus(1)
          const slurryGrams = slurryMillilitres.times(perMillilitre).toDecimalPlaces(6)
          fc.pre(slurryGrams.greaterThan(slurryMillilitres))
          fc.pre(slurryGrams.lessThan(slurryMillilitres.times(solids)))
          const { dryGrams, waterGrams } = drySolidsInSlurry({
            slurryGrams,
            slurryMillilitres,
            waterGramsPerMillilitre: water,
            solidsGramsPerMillilitre: solids,
          })
          expect(dryGrams.plus(waterGrams).toFixed()).toBe(slurryGrams.toFixed())
          expect(dryGrams.isNegative() || waterGrams.isNegative()).toBe(false)
        },
      ),
    )
  })

  test('a heavier litre holds more clay', () => {
    expect(litre('1600')().dryGrams.greaterThan(litre('1500')().dryGrams)).toBe(true)
  })

  test('what weighs no more than water is refused', () => {
    expect(refusedWith(litre('1000'))).toBe('density_must_exceed_water')
    expect(refusedWith(litre('900'))).toBe('density_must_exceed_water')
  })

  test('what weighs as much as solid clay is refused', () => {
    expect(refusedWith(litre('2600'))).toBe('density_must_be_below_solids')
    expect(refusedWith(litre('3000'))).toBe('density_must_be_below_solids')
  })
})

describe('the water content of a slurry of known density', () => {
  test('agrees with the clay found in a litre of it', () => {
    const { waterGrams } = litre('1500')()
    expect(density('1.5')().toFixed(9)).toBe(waterGrams.dividedBy(1500).toFixed(9))
  })

  test('is refused at either end', () => {
    expect(refusedWith(density('1'))).toBe('density_must_exceed_water')
    expect(refusedWith(density('2.6'))).toBe('density_must_be_below_solids')
  })
})

test('water outside the range of the formula is a defect', () => {
  for (const celsius of ['-1', '41', 'NaN']) {
    expect(() => waterDensityGramsPerMillilitre(decimal(celsius))).toThrow('between 0 and 40')
  }
})

test('solids lighter than water are a defect', () => {
  expect(() =>
    slurryWaterContentWetBasis({
      densityGramsPerMillilitre: decimal('1.5'),
      waterGramsPerMillilitre: decimal(1),
      solidsGramsPerMillilitre: decimal(1),
    }),
  ).toThrow('clay sinks')
})

test('the density of a slurry and its water content undo each other', () => {
  for (const content of ['0.3', '0.37137', '0.5', '0.8']) {
    const densities = {
      waterGramsPerMillilitre: decimal('0.9982'),
      solidsGramsPerMillilitre: decimal('2.6'),
    }
    const densityGramsPerMillilitre = slurryDensityGramsPerMillilitre({
      ...densities,
      waterContentWetBasis: decimal(content),
    })
    const back = slurryWaterContentWetBasis({ ...densities, densityGramsPerMillilitre })
    expect(back.toFixed(12)).toBe(decimal(content).toFixed(12))
  }
})
