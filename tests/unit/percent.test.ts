import { expect, test } from 'vitest'
import {
  fractionOfPoints,
  pointsOfFraction,
  pointsOfUncertainty,
  uncertaintyOfPoints,
} from '../../shared/percent.ts'

test.each([
  ['20.5', '0.205'],
  ['0', '0'],
  ['7.123456', '0.07123456'],
  ['100', '1'],
])('%s points of a hundred are %s, and back', (points, fraction) => {
  expect(fractionOfPoints(points)).toBe(fraction)
  expect(pointsOfFraction(fraction)).toBe(points)
})

test('what is no number comes back as it was typed', () => {
  expect(fractionOfPoints('a third')).toBe('a third')
  expect(fractionOfPoints('20,5')).toBe('20,5')
})

test.each([
  ['1.96', '0.01'],
  ['2', '0.010204'],
  ['0', '0'],
])('give or take %s points is a standard uncertainty of %s, and back', (points, uncertainty) => {
  expect(uncertaintyOfPoints(points)).toBe(uncertainty)
  expect(pointsOfUncertainty(uncertainty)).toBe(points)
})
