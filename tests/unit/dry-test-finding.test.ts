import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import type { WaterFound } from '../../shared/doubt-learning.ts'
import { dryTestFinding, dryTestWords, surpriseOf } from '../../shared/dry-test-finding.ts'

/** Reckoned with 0.21, unsure by 0.012 of the figure and 0.009 of the batch; tested to 0.002. */
const found = (content: string): WaterFound => ({
  reckonedWetBasis: decimal('0.21'),
  foundWetBasis: decimal(content),
  reckonedDoubt: new Map([
    ['moisture|as_delivered|0.21|0.02|buff', decimal('0.012')],
    ['batch|1|1', decimal('-0.009')],
  ]),
  foundUncertainty: decimal('0.002'),
})

describe('what a dry test is taken to say', () => {
  test('is told by how many deviations it is off, whatever the sign of a source', () => {
    // The root of 0.000144 + 0.000081 + 0.000004 is 0.015133.
    expect(surpriseOf(found('0.24')).toFixed(3)).toBe('1.982')
    expect(surpriseOf(found('0.18')).toFixed(3)).toBe('-1.982')
  })

  test('is that the figure was off, as figures are', () => {
    for (const place of ['bench', 'scrap', 'store', undefined] as const) {
      expect(dryTestFinding(found('0.24'), place)).toBe('figure_was_off')
    }
  })

  test('is that open clay has dried or was wetted, where it is off by more', () => {
    for (const content of ['0.15', '0.27']) {
      expect(dryTestFinding(found(content), 'bench')).toBe('clay_has_changed')
      expect(dryTestFinding(found(content), 'basin')).toBe('clay_has_changed')
    }
    const said = { finding: 'clay_has_changed', corrected: 0 } as const
    expect(dryTestWords(found('0.15'), said)).toMatch(/^The test found 15\.0 % .* dried since/)
    expect(dryTestWords(found('0.27'), said)).toMatch(/been wetted since it was weighed/)
  })

  test('is nothing, where clay in a sealed bag or a state is off by more than clays differ', () => {
    expect(dryTestFinding(found('0.28'), 'store')).toBe('figure_was_off')
    expect(dryTestFinding(found('0.31'), 'store')).toBe('does_not_fit')
    expect(dryTestFinding(found('0.60'), undefined)).toBe('does_not_fit')
    const said = { finding: 'does_not_fit', corrected: 0 } as const
    expect(dryTestWords(found('0.60'), said)).toMatch(/look at the sample, the tin and the state/)
  })

  test('counts in words what it corrects', () => {
    const said = (corrected: number) =>
      dryTestWords(found('0.20'), { finding: 'figure_was_off', corrected })
    expect(said(0)).toBe('The test found 20.0 % of water where 21.0 % was reckoned with.')
    expect(said(1)).toMatch(/One other holding that leant on the same figures is corrected/)
    expect(said(3)).toMatch(/3 other holdings that leant on the same figures are corrected/)
  })
})
