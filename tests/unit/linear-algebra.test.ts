import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  choleskyRoot,
  conditionNumber,
  inverse,
  inverseOfPositive,
  leastSquaresSolution,
  logDeterminant,
  pseudoInverse,
  timesMatrix,
  timesVector,
  transposed,
  type Rows,
} from '../../shared/linear-algebra.ts'

const size = 3
const entry = fc.integer({ min: -20, max: 20 })
const square = fc.array(fc.array(entry, { minLength: size, maxLength: size }), {
  minLength: size,
  maxLength: size,
})
/** A matrix times its mirror image, and a little more, has variance in every direction. */
const covariance = square.map((rows) =>
  timesMatrix(rows, transposed(rows)).map((row, i) => row.map((one, j) => one + (i === j ? 1 : 0))),
)
const ones = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]

function expectAlike(found: Rows, expected: Rows): void {
  for (const [i, row] of expected.entries()) {
    for (const [j, one] of row.entries()) expect(found[i]?.[j]).toBeCloseTo(one, 6)
  }
}

describe('a covariance', () => {
  test('times its inverse is nothing but ones', () => {
    fc.assert(
      fc.property(covariance, (rows) => {
        expectAlike(timesMatrix(rows, inverseOfPositive(rows)), ones)
        expectAlike(timesMatrix(rows, inverse(rows)), ones)
      }),
    )
  })

  test('is its root times the mirror image of its root', () => {
    fc.assert(
      fc.property(covariance, (rows) => {
        const root = choleskyRoot(rows)
        expectAlike(timesMatrix(root, transposed(root)), rows)
      }),
    )
  })

  test('of independent quantities has the product of their variances as determinant', () => {
    const apart = [
      [4, 0],
      [0, 9],
    ]
    expect(logDeterminant(apart)).toBeCloseTo(Math.log(36), 12)
  })

  test('that is lopsided or flat in one direction is a defect', () => {
    expect(() =>
      choleskyRoot([
        [1, 0.5],
        [0, 1],
      ]),
    ).toThrow('symmetric')
    expect(() =>
      inverseOfPositive([
        [1, 1],
        [1, 1],
      ]),
    ).toThrow()
  })
})

describe('equations', () => {
  test('are solved by what they were made from', () => {
    fc.assert(
      fc.property(covariance, fc.tuple(entry, entry, entry), (rows, wanted) => {
        const found = leastSquaresSolution(rows, timesVector(rows, wanted))
        for (const [index, one] of wanted.entries()) expect(found[index]).toBeCloseTo(one, 5)
      }),
    )
  })

  test('that are too many are solved as nearly as can be', () => {
    // Two readings of one mass: their mean.
    expect(leastSquaresSolution([[1], [1]], [10, 12])[0]).toBeCloseTo(11, 12)
    expect(() => leastSquaresSolution([[1, 1]], [10])).toThrow('an equation for each unknown')
  })
})

describe('a matrix that loses a direction', () => {
  const flat = [
    [1, 2],
    [2, 4],
    [3, 6],
  ]

  test('has no end to its condition, and one of equal strength everywhere has one', () => {
    expect(conditionNumber(flat)).toBeGreaterThan(1e15)
    expect(conditionNumber(ones)).toBeCloseTo(1, 12)
  })

  test('is undone as far as it can be', () => {
    expectAlike(timesMatrix(timesMatrix(flat, pseudoInverse(flat)), flat), flat)
  })
})

test('a matrix of anything but finite numbers in even rows is a defect', () => {
  expect(() => inverse([[Number.NaN]])).toThrow('finite')
  expect(() => pseudoInverse([[1, 2], [3]])).toThrow('one length')
  expect(() => inverse([[1, 2]])).toThrow('square')
  expect(() => timesVector([[1, 2]], [1])).toThrow('each column')
})
