import { describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { allowanceOfRun, type EarlierRun } from '../../shared/loss-allowance.ts'
import { splitLoss } from '../../shared/spoilage.ts'

const NO_OTHERS = { entered: ZERO, lost: ZERO }
const allowed = (pieces: number, earlier: readonly EarlierRun[] = [], otherForms = NO_OTHERS) =>
  allowanceOfRun({ pieces: decimal(pieces), earlier, otherForms })
const PERFECT: readonly EarlierRun[] = Array.from({ length: 10 }, () => ({
  entered: decimal(20),
  lost: ZERO,
}))

describe('what is no history of what is usual', () => {
  test('disaster upon disaster, no more is usual than before the first', () => {
    const runs = [...PERFECT]
    const first = allowed(20, runs).allowedPieces
    for (let disaster = 0; disaster < 8; disaster += 1) {
      const { allowedPieces } = allowed(20, runs)
      expect(allowedPieces).toEqual(first)
      const [lost, lostBefore] = [decimal(20), ZERO]
      const split = splitLoss({ allowance: allowedPieces, lostBefore, lostNow: lost })
      runs.push({ entered: decimal(20), lost, abnormal: split.abnormalPieces })
    }
    expect(allowed(20, runs).words).toContain(
      '200 fired, 0 lost (without 8 runs that lost 160 of 160',
    )
  })

  test('a form with nothing but a disaster leans on other forms, and says why', () => {
    const disaster = { entered: decimal(20), lost: decimal(18), abnormal: decimal(12) }
    const others = { entered: decimal(200), lost: decimal(8) }
    const found = allowed(20, [disaster], others)
    expect(found.basis).toBe('leans_on_all_forms')
    expect(found.allowedPieces).toEqual(allowed(20, [], others).allowedPieces)
    expect(found.words).toContain(
      'none of this form fired yet (without a run that lost 18 of 20, beyond the usual); of all',
    )
  })
})

describe('never more than three in ten of a run is called usual', () => {
  test('without a history the spreads allow for more, and the words say what decided', () => {
    const bare = allowed(20)
    expect(bare.allowedByRuns.toNumber()).toBeGreaterThan(6)
    expect(bare).toMatchObject({ allowedPieces: decimal(6), decidedBy: 'three_in_ten' })
    expect(bare.words).toBe(
      `nothing fired yet, so we begin with 2 lost of 40: up to 6 of 20 are called usual, never more than three in ten or one pot (by the runs alone up to ${bare.allowedByRuns.toFixed()})`,
    )
    const steady = allowed(20, PERFECT)
    expect(steady.decidedBy).toBe('runs')
    expect(steady.words).toMatch(/what usually happens$/)
  })

  test.each([
    [1, 1],
    [3, 1],
    [6, 1],
    [7, 2],
    [40, 12],
  ])('of %i pots never more than %i', (pieces, most) => {
    expect(allowed(pieces).allowedPieces.toNumber()).toBeLessThanOrEqual(most)
    const awful = Array.from({ length: 12 }, () => ({ entered: decimal(20), lost: decimal(10) }))
    expect(allowed(pieces, awful).allowedPieces.toNumber()).toBe(most)
  })
})
