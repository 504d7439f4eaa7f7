import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { CLAY_STATES, DEFAULT_MOISTURE, moistureFigure } from '../../shared/moisture.ts'

const figure = (water: string, uncertainty: string) => ({
  waterContentWetBasis: decimal(water),
  standardUncertainty: decimal(uncertainty),
})
const bodyFigure = figure('0.205', '0.01')

describe('the figure for clay that was not tested itself', () => {
  test('is the mean of this studio’s tests, if there are any', () => {
    const found = moistureFigure({
      state: 'turnings',
      tests: [figure('0.14', '0.002'), figure('0.16', '0.002')],
      bodyFigure,
    })
    expect(found).toMatchObject({ standing: 'estimated', method: 'studio_tests', tests: 2 })
    expect(found.waterContentWetBasis.toFixed()).toBe('0.15')
  })

  test('is as uncertain as the tests leave it, and never less than lots differ', () => {
    const uncertainty = (count: number) =>
      moistureFigure({
        state: 'turnings',
        tests: Array.from({ length: count }, () => figure('0.15', '0.0075')),
        bodyFigure: undefined,
      }).standardUncertainty.toFixed(6)
    expect(uncertainty(1)).toBe('0.016008')
    expect(uncertainty(4)).toBe('0.011792')
    expect(uncertainty(25)).toBe('0.010308')
  })

  test('is what is said of the body, if nothing was tested', () => {
    const found = moistureFigure({ state: 'as_delivered', tests: [], bodyFigure })
    expect(found).toMatchObject({ standing: 'assumed', method: 'body_figure', tests: 0 })
    expect(found.waterContentWetBasis.toFixed()).toBe('0.205')
  })

  test('is the default for the state, if nothing else is known', () => {
    const found = moistureFigure({ state: 'slops', tests: [], bodyFigure: undefined })
    expect(found).toMatchObject({ standing: 'assumed', method: 'default_for_state', tests: 0 })
    expect(found.waterContentWetBasis.toFixed()).toBe('0.6')
    expect(found.standardUncertainty.toFixed()).toBe('0.1')
  })
})

test('every default leaves clay, says how unsure it is and where it came from', () => {
  for (const state of CLAY_STATES) {
    const { waterContentWetBasis, standardUncertainty, source } = DEFAULT_MOISTURE[state]
    expect(waterContentWetBasis.plus(standardUncertainty).lessThan(1), state).toBe(true)
    expect(waterContentWetBasis.greaterThan(standardUncertainty), state).toBe(true)
    expect(standardUncertainty.greaterThan(0), state).toBe(true)
    expect(source, state).toMatch(/source/)
  }
})

test('clay gets drier from the wheel to the shelf', () => {
  const water = (['off_cuts', 'leather_hard', 'turnings', 'air_dry'] as const).map((state) =>
    DEFAULT_MOISTURE[state].waterContentWetBasis.toNumber(),
  )
  expect(water).toEqual([...water].sort((one, other) => other - one))
})
