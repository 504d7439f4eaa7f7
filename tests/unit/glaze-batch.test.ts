import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { doubtRead, NO_DOUBT } from '../../shared/doubt.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import {
  batchWeighedOut,
  glazeForRuns,
  glazeOfDryGrams,
  glazeOfVolume,
  piecesCovered,
} from '../../shared/glaze-batch.ts'
import { drySolidsInSlurry, slurryWaterContentWetBasis } from '../../shared/slurry.ts'
import { fractionBelowOne, sum } from './arbitrary.ts'

const AT = (density: string) => ({
  densityGramsPerMillilitre: decimal(density),
  waterGramsPerMillilitre: decimal(1),
  solidsGramsPerMillilitre: decimal('2.6'),
})
const part = (materialId: string, parts: string, water = '0') => ({
  materialId,
  parts: decimal(parts),
  waterContentWetBasis: decimal(water),
})

describe('a bucket of ten litres at 1.45', () => {
  const wanted = glazeOfVolume(decimal(10_000), AT('1.45'))

  test('is 7.3125 kg of dry glaze and as much water as makes 14.5 kg', () => {
    expect(
      [wanted.dryGrams, wanted.waterGrams, wanted.slurryGrams].map((one) => one.toFixed()),
    ).toEqual(['7312.5', '7187.5', '14500'])
  })

  test('wants less water from the tap where a powder is damp', () => {
    const batch = batchWeighedOut(wanted, [part('feldspar', '80'), part('kaolin', '20', '0.1')])
    // Kaolin: 1462.5 g dry is 1625 g as it comes, of which 162.5 g is water.
    expect(batch.ingredients[1]).toEqual({
      materialId: 'kaolin',
      dryGrams: decimal('1462.5'),
      asSuppliedGrams: decimal(1625),
      waterGrams: decimal('162.5'),
    })
    expect(batch.waterFromPowdersGrams.toFixed()).toBe('162.5')
    expect(batch.waterToAddGrams.toFixed()).toBe('7025')
    expect(batch.waterTooMuchGrams.toFixed()).toBe('0')
    // All that goes in is all that the bucket then weighs.
    const weighedOut = sum(batch.ingredients.map(({ asSuppliedGrams }) => asSuppliedGrams))
    expect(weighedOut.plus(batch.waterToAddGrams).toFixed()).toBe('14500')
  })

  test('is told to come out thinner where the powders alone bring more water than it wants', () => {
    const batch = batchWeighedOut(wanted, [part('wet ash', '1', '0.6')])
    expect(batch.waterToAddGrams.toFixed()).toBe('0')
    // 7312.5 g of dry ash is 18281.25 g, with 10968.75 g of water.
    expect(batch.waterTooMuchGrams.toFixed()).toBe('3781.25')
  })
})

test('what is weighed out for a bucket is what a reading by density finds in it', () => {
  const densities = fc.integer({ min: 1_200, max: 1_700 })
  const grains = fc.integer({ min: 2_300, max: 3_200 })
  const volumes = fc.integer({ min: 200, max: 60_000 })
  fc.assert(
    fc.property(densities, grains, volumes, (density, grain, millilitres) => {
      const at = {
        densityGramsPerMillilitre: decimal(density).dividedBy(1000),
        waterGramsPerMillilitre: decimal('0.9982'),
        solidsGramsPerMillilitre: decimal(grain).dividedBy(1000),
      }
      const made = glazeOfVolume(decimal(millilitres), at)
      const found = dryMassFromWet({
        netGrams: made.dryGrams.plus(made.waterGrams),
        netDoubt: NO_DOUBT,
        waterContentWetBasis: slurryWaterContentWetBasis(at),
        waterDoubt: NO_DOUBT,
        method: 'slurry_density',
        standing: 'measured',
      })
      expect(found.dryGrams.minus(made.dryGrams).abs().lessThanOrEqualTo('1e-6')).toBe(true)
      const again = glazeOfDryGrams(made.dryGrams, at)
      expect(again.slurryGrams.minus(made.slurryGrams).abs().lessThan('1e-5')).toBe(true)
      expect(again.millilitres.minus(millilitres).abs().lessThan('1e-5')).toBe(true)
    }),
  )
})

test('a batch of damp powders loses no unit, and reads by density as it was weighed out', () => {
  const lines = fc.array(fc.tuple(fc.integer({ min: 1, max: 9_999 }), fractionBelowOne), {
    ...{ minLength: 1, maxLength: 8 },
  })
  fc.assert(
    fc.property(lines, fc.integer({ min: 500, max: 30_000 }), (recipe, millilitres) => {
      const wanted = glazeOfVolume(decimal(millilitres), AT('1.45'))
      const parts = recipe.map(([hundredths, water], index) =>
        part(String(index), String(hundredths), water.dividedBy(5).toFixed()),
      )
      const batch = batchWeighedOut(wanted, parts)
      const dry = sum(batch.ingredients.map(({ dryGrams }) => dryGrams))
      expect(dry.equals(wanted.dryGrams)).toBe(true)
      expect(batch.waterTooMuchGrams.isZero()).toBe(true)
      const all = sum(batch.ingredients.map(({ asSuppliedGrams }) => asSuppliedGrams)).plus(
        batch.waterToAddGrams,
      )
      expect(all.equals(wanted.slurryGrams)).toBe(true)
      const read = drySolidsInSlurry({
        slurryGrams: all,
        slurryMillilitres: decimal(millilitres),
        waterGramsPerMillilitre: decimal(1),
        solidsGramsPerMillilitre: decimal('2.6'),
      })
      expect(read.dryGrams.equals(dry)).toBe(true)
    }),
  )
})

describe('a density that no glaze has', () => {
  test('is refused as for a slurry', () => {
    expect(() => glazeOfVolume(decimal(1000), AT('1'))).toThrow('no more than as much water')
    expect(() => glazeOfDryGrams(decimal(1000), AT('2.6'))).toThrow('as much as its solids')
  })
})

describe('enough for the pots that wait', () => {
  const runs = [
    { pieces: decimal(16), dryGramsPerPiece: decimal(80) },
    { pieces: decimal(30), dryGramsPerPiece: decimal(20) },
  ]

  test('what is short is still to be made', () => {
    // 1280 + 600 = 1880, and 5 in a hundred beside: 1974.
    const glaze = glazeForRuns(runs, {
      dryGrams: decimal(1500),
      carriedOffFraction: decimal('0.05'),
    })
    expect([glaze.onPotsDryGrams, glaze.neededDryGrams].map((one) => one.toFixed())).toEqual([
      ...['1880', '1974'],
    ])
    expect([glaze.toMakeDryGrams, glaze.toSpareDryGrams].map((one) => one.toFixed())).toEqual([
      ...['474', '0'],
    ])
  })

  test('what is over is to spare', () => {
    const glaze = glazeForRuns(runs, { dryGrams: decimal(2000), carriedOffFraction: decimal(0) })
    expect([glaze.toMakeDryGrams, glaze.toSpareDryGrams].map((one) => one.toFixed())).toEqual([
      ...['0', '120'],
    ])
  })

  test('without pots nothing is needed', () => {
    const glaze = glazeForRuns([], { dryGrams: decimal(5), carriedOffFraction: decimal('0.05') })
    expect(glaze.toMakeDryGrams.toFixed()).toBe('0')
  })
})

describe('how many pots are left in a bucket', () => {
  const jug = {
    dryGramsPerPiece: decimal(80),
    standardUncertaintyGramsPerPiece: decimal(0),
    carriedOffFraction: decimal('0.05'),
  }

  test('whole ones only', () => {
    const covered = piecesCovered({ amount: decimal('1343.999999'), doubt: NO_DOUBT }, jug)
    expect([covered.pieces, covered.from, covered.to].map((one) => one.toFixed())).toEqual([
      ...['15', '15', '15'],
    ])
    const sixteen = piecesCovered({ amount: decimal(1344), doubt: NO_DOUBT }, jug)
    expect(sixteen.pieces.toFixed()).toBe('16')
  })

  test('between as many as bucket and form leave open', () => {
    // 4200 / 84 = 50; 168 g of the bucket are 2 pieces, 2.4 g in 80 are 1.5: together 2.5, times 1.96.
    const covered = piecesCovered(
      { amount: decimal(4200), doubt: doubtRead({ 'reading|e|1': '168' }) },
      { ...jug, standardUncertaintyGramsPerPiece: decimal('2.4') },
    )
    expect([covered.pieces, covered.from, covered.to].map((one) => one.toFixed())).toEqual([
      ...['50', '45', '54'],
    ])
  })

  test('none in an empty bucket, or in one that the books have below zero', () => {
    for (const amount of ['0', '-3']) {
      expect(
        piecesCovered({ amount: decimal(amount), doubt: NO_DOUBT }, jug).pieces.toFixed(),
      ).toBe('0')
    }
  })
})
