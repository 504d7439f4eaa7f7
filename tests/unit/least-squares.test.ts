import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fittedCurve } from '../../shared/least-squares.ts'
import { refusedWith } from './refused.ts'

const decay =
  (xs: readonly number[]) =>
  ([height = 0, rate = 0]: readonly number[]) =>
    xs.map((x) => height * Math.exp(-rate * x))
const xs = [0, 1, 2, 4, 8]

describe('a fitted curve', () => {
  test('goes through points that lie on one, from a start that is far off', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 50, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (height, rate) => {
          const observed = decay(xs)([height, rate])
          const found = fittedCurve({ curve: decay(xs), observed, start: [10, 0.3] })
          expect((found.parameters[0] ?? 0) / height).toBeCloseTo(1, 7)
          expect((found.parameters[1] ?? 0) / rate).toBeCloseTo(1, 7)
        },
      ),
      { numRuns: 40 },
    )
  })

  test('says the same in any unit', () => {
    const observed = [9.8, 7.6, 5.7, 3.5, 1.1]
    const inGrams = fittedCurve({ curve: decay(xs), observed, start: [8, 0.2] })
    const inKilograms = fittedCurve({
      curve: decay(xs.map((x) => x / 1000)),
      observed: observed.map((one) => one / 1000),
      start: [0.008, 200],
    })
    expect((inKilograms.parameters[0] ?? 0) * 1000).toBeCloseTo(inGrams.parameters[0] ?? 0, 8)
    expect((inKilograms.parameters[1] ?? 0) / 1000).toBeCloseTo(inGrams.parameters[1] ?? 0, 8)
  })

  test('leans on the readings that are surer', () => {
    const mean = (standardUncertainties: readonly number[]) =>
      fittedCurve({
        curve: ([level = 0]) => [level, level],
        observed: [10, 20],
        standardUncertainties,
        start: [1],
      })
    expect(mean([1, 1]).parameters[0]).toBeCloseTo(15, 9)
    expect(mean([1, 2]).parameters[0]).toBeCloseTo(12, 9)
    expect(mean([1, 2]).standardUncertainties[0]).toBeCloseTo(Math.sqrt(4 / 5), 9)
  })

  test('takes a prior as one more reading', () => {
    const withPrior = fittedCurve({
      curve: ([level = 0]) => [level],
      observed: [10],
      standardUncertainties: [1],
      start: [1],
      priors: [{ mean: 20, standardUncertainty: 2 }],
    })
    expect(withPrior.parameters[0]).toBeCloseTo(12, 9)
    expect(withPrior.degreesOfFreedom).toBe(1)
    expect(withPrior.residualSumOfSquares).toBeCloseTo(4, 9)
  })

  test('is its prior where nothing was read', () => {
    const found = fittedCurve({
      curve: () => [],
      observed: [],
      standardUncertainties: [],
      start: [0, 0],
      priors: [
        { mean: 3, standardUncertainty: 2 },
        { mean: -1, standardUncertainty: 0.5 },
      ],
    })
    expect(found.parameters[0]).toBeCloseTo(3, 9)
    expect(found.standardUncertainties[1]).toBeCloseTo(0.5, 9)
  })
})

describe('what readings do not settle', () => {
  test('is refused: more figures than readings', () => {
    const act = () => fittedCurve({ curve: decay([1]), observed: [5], start: [6, 0.1] })
    expect(refusedWith(act)).toBe('parameters_must_be_identifiable')
  })

  test('is refused: two figures that only count together', () => {
    const act = () =>
      fittedCurve({
        curve: ([one = 0, other = 0]) => xs.map((x) => (one + other) * x),
        observed: [0, 1, 2.1, 3.9, 8],
        start: [0.4, 0.7],
      })
    expect(refusedWith(act)).toBe('parameters_must_be_identifiable')
  })

  test('is settled by a prior on one of them', () => {
    const found = fittedCurve({
      curve: ([one = 0, other = 0]) => xs.map((x) => (one + other) * x),
      observed: [0, 1, 2, 4, 8],
      standardUncertainties: xs.map(() => 0.1),
      start: [0.4, 0.7],
      priors: [{ mean: 0.25, standardUncertainty: 0.1 }, undefined],
    })
    expect(found.parameters[0]).toBeCloseTo(0.25, 7)
    expect(found.parameters[1]).toBeCloseTo(0.75, 7)
  })

  test('is refused: a curve that falls for ever and never settles', () => {
    const act = () =>
      fittedCurve({
        curve: ([level = 0]) => [Math.exp(-level), Math.exp(-level)],
        observed: [0, 0],
        start: [1],
      })
    expect(['fit_must_converge', 'parameters_must_be_identifiable']).toContain(refusedWith(act))
  })
})

test('numbers that are none are a defect', () => {
  const line = ([slope = 0]: readonly number[]) => xs.map((x) => slope * x)
  const observed = [0, 1, 2, 4, Number.NaN]
  expect(() => fittedCurve({ curve: line, observed, start: [1] })).toThrow('finite')
  expect(() =>
    fittedCurve({ curve: line, observed: xs, start: [1], standardUncertainties: [1, 1, 1, 1, 0] }),
  ).toThrow('somewhat unsure')
  expect(() => fittedCurve({ curve: () => [1], observed: xs, start: [1] })).toThrow(
    'something of each observation',
  )
  expect(() =>
    fittedCurve({ curve: ([a = 0]) => xs.map(() => 1 / a), observed: xs, start: [0] }),
  ).toThrow('a value where the search starts')
})
