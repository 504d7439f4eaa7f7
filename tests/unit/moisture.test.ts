import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { CLAY_STATES, DEFAULT_MOISTURE, moistureFigure } from '../../shared/moisture.ts'

const figure = (water: string, uncertainty: string) => ({
  waterContentWetBasis: decimal(water),
  standardUncertainty: decimal(uncertainty),
})
const bodyFigure = figure('0.205', '0.01')

describe('the figure for clay that was not tested itself', () => {
  test('is drawn from what is believed towards the tests, by how sure each is', () => {
    // Believed 0.205 with 0.01, half of it doubt of the batch: of the whole 0.01 x root 3/4. One test of
    // 0.150 with 0.002, and batches that differ by 0.005: weights 1/0.000075 and 1/0.000029.
    const found = moistureFigure({
      state: 'turnings',
      tests: [figure('0.15', '0.002')],
      bodyFigure,
    })
    expect(found).toMatchObject({ standing: 'estimated', method: 'studio_tests', tests: 1 })
    expect(found.weightOfTests.toFixed(6)).toBe('0.721154')
    expect(found.waterContentWetBasis.toFixed(6)).toBe('0.165337')
    expect(found.sharedUncertainty.toFixed(6)).toBe('0.004573')
    expect(found.standardUncertainty.toFixed(6)).toBe('0.006776')
  })

  test('is the mean of the tests when there are many, and as unsure as batches differ', () => {
    const of = (count: number) =>
      moistureFigure({
        state: 'turnings',
        tests: Array.from({ length: count }, (_, at) => figure(at % 2 ? '0.14' : '0.16', '0.002')),
        bodyFigure,
      })
    expect(of(2).weightOfTests.lessThan(of(20).weightOfTests)).toBe(true)
    const many = of(2000)
    expect(many.waterContentWetBasis.toFixed(3)).toBe('0.150')
    expect(many.sharedUncertainty.toFixed(4)).toBe('0.0002')
    // The tests lie 0.01 to either side, which is how batches differ here.
    expect(many.betweenBatches.toFixed(4)).toBe('0.0100')
    expect(many.standardUncertainty.toFixed(4)).toBe('0.0100')
  })

  test('says the same whether the tests come at once or one by one', () => {
    const tests = [figure('0.15', '0.004'), figure('0.16', '0.004')]
    const [first, second] = tests
    const together = moistureFigure({ state: 'turnings', tests, bodyFigure })
    const reversed = moistureFigure({
      state: 'turnings',
      tests: [second ?? figure('0', '0'), first ?? figure('0', '0')],
      bodyFigure,
    })
    expect(reversed.waterContentWetBasis.toFixed(12)).toBe(
      together.waterContentWetBasis.toFixed(12),
    )
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
