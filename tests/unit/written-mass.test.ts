import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { writtenMass, writtenMassSure } from '../../shared/written-mass.ts'

const metric = (grams: string, digits?: number) => writtenMass(decimal(grams), 'metric', digits)
const pounds = (grams: string, digits?: number) =>
  writtenMass(decimal(grams), 'pounds_ounces', digits)
const OUNCE = decimal('28.349523125')

describe('a mass in grams and kilograms', () => {
  test.each([
    ['12460', '12.46 kg'],
    ['12465', '12.46 kg'],
    ['12475', '12.48 kg'],
    ['1000', '1.00 kg'],
    ['999.6', '1.00 kg'],
    ['999.4', '999 g'],
    ['460', '460 g'],
    ['0.5', '0 g'],
    ['1.5', '2 g'],
    ['0', '0 g'],
    ['-0.3', '0 g'],
    ['-12460', '-12.46 kg'],
    ['1250000', '1250.00 kg'],
  ])('%s g is written %s', (grams, words) => {
    expect(metric(grams)).toBe(words)
  })

  test('finer or coarser, where somebody asks', () => {
    expect(metric('12463.4', 3)).toBe('12.463 kg')
    expect(metric('460.25', 4)).toBe('460.2 g')
    expect(metric('12463', 1)).toBe('12.5 kg')
    expect(metric('463', 1)).toBe('463 g')
  })
})

describe('a mass in pounds and ounces', () => {
  test.each([
    ['12460', '27 lb 7.5 oz'],
    ['453.59237', '1 lb 0.0 oz'],
    ['453.59', '1 lb 0.0 oz'],
    ['400', '14.1 oz'],
    ['0', '0.0 oz'],
    ['-0.1', '0.0 oz'],
    ['-12460', '-27 lb 7.5 oz'],
  ])('%s g is written %s', (grams, words) => {
    expect(pounds(grams)).toBe(words)
  })

  test('rounds once, then splits: sixteen ounces are a pound', () => {
    expect(pounds(OUNCE.times('15.96').toFixed())).toBe('1 lb 0.0 oz')
    expect(pounds(OUNCE.times('31.96').toFixed())).toBe('2 lb 0.0 oz')
    expect(pounds(OUNCE.times('15.94').toFixed())).toBe('15.9 oz')
    expect(pounds(OUNCE.times('15.95').toFixed())).toBe('1 lb 0.0 oz')
    expect(pounds(OUNCE.times('15.85').toFixed())).toBe('15.8 oz')
    expect(pounds(OUNCE.times('15.6').toFixed(), 1)).toBe('1 lb 0 oz')
  })

  test('never writes sixteen ounces, and is never off by more than half of its last place', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50_000_000 }), (milligrams) => {
        const grams = decimal(milligrams).dividedBy(1000)
        const words = writtenMass(grams, 'pounds_ounces')
        const found = /^(?:(\d+) lb )?(\d+\.\d) oz$/.exec(words)
        expect(Number(found?.[2])).toBeLessThan(16)
        const ounces = decimal(found?.[1] ?? 0)
          .times(16)
          .plus(found?.[2] ?? 0)
        expect(ounces.minus(grams.dividedBy(OUNCE)).abs().lessThanOrEqualTo('0.05')).toBe(true)
      }),
      { numRuns: 500, seed: 1959 },
    )
  })
})

describe('a mass with its give or take, 1.96 standard uncertainties in two digits', () => {
  const sure = (grams: string, u: string, system: 'metric' | 'pounds_ounces' = 'metric') =>
    writtenMassSure({ grams: decimal(grams), standardUncertaintyGrams: decimal(u) }, system)

  test.each([
    ['12460', '61', '12.46 kg ± 0.12'],
    ['12463', '6.1', '12.463 kg ± 0.012'],
    ['460', '6.1', '460 g ± 12'],
    ['460.04', '0.7', '460.0 g ± 1.4'],
    ['999.6', '6.1', '1.000 kg ± 0.012'],
    ['460', '612', '0.5 kg ± 1.2'],
    ['234567', '120000', '230 kg ± 240'],
    ['12460', '0', '12.46 kg'],
    ['-138', '148', '-140 g ± 290'],
    ['0.4', '61', '0 g ± 120'],
    // 0.0996 kg is 0.10 in two digits, and the place moves with it.
    ['12463', '50.8', '12.46 kg ± 0.10'],
  ])('%s g with %s g is %s', (grams, u, words) => {
    expect(sure(grams, u)).toBe(words)
  })

  test.each([
    ['12460', '61', '27 lb 7.5 oz ± 4.2 oz'],
    ['12460', '229', '27 lb 8 oz ± 1 lb 0 oz'],
    ['12460', '612', '27 lb 8 oz ± 2 lb 10 oz'],
    ['12460', '2500', '27 lb ± 11 lb'],
    ['460', '0.7', '1 lb 0.226 oz ± 0.048 oz'],
    ['12460', '0', '27 lb 7.5 oz'],
  ])('%s g with %s g is %s', (grams, u, words) => {
    expect(sure(grams, u, 'pounds_ounces')).toBe(words)
  })
})
