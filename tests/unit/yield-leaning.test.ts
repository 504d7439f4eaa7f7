import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { leanedShares } from '../../shared/leaning.ts'
import { wilsonInterval } from '../../shared/proportion.ts'
import { mixedQuantile } from '../../shared/spread-belief.ts'
import { betaQuantile } from '../../shared/statistics.ts'
import { FEW_PIECES_BELOW, stageEstimates, type StageOfForm } from '../../shared/yield-leaning.ts'
import { Chance } from '../support/chance.ts'

function stage(formId: string, passed: number, lost: number): StageOfForm {
  const trials = passed + lost
  const share = trials === 0 ? null : decimal(passed).dividedBy(trials)
  const ends = trials === 0 ? null : wilsonInterval({ events: passed, trials })
  return {
    formId,
    stage: {
      stage: 'making',
      waiting: decimal(0),
      passed: decimal(passed),
      lost: decimal(lost),
      yieldFraction: share,
      interval95: ends && { from: decimal(ends.from), to: decimal(ends.to) },
    },
  }
}

describe('what to reckon with at a stage', () => {
  const forms = [stage('mug', 180, 20), stage('plate', 30, 12), stage('jug', 1, 1)]

  test('leans where pieces are few, on how much and how strongly is said', () => {
    const [, , jug] = stageEstimates(forms)
    expect(jug).toMatchObject({ basis: 'leans_on_all_forms', forms: 3, pieces: 244 })
    expect(jug?.words).toMatch(
      /^1 of 2: few pieces, so it leans on all 3 forms \(244 pieces\); its own count \d+ %, all forms \d+ %$/,
    )
    expect(jug?.yieldFraction?.toNumber()).toBeGreaterThan(0.6)
    const width = jug?.interval95?.to.minus(jug.interval95.from).toNumber()
    const alone = wilsonInterval({ events: 1, trials: 2 })
    expect(width).toBeLessThan(alone.to - alone.from)
  })

  test('stands on its own from thirty pieces on, with the score interval', () => {
    const [mug, plate] = stageEstimates(forms)
    expect(mug).toMatchObject({ basis: 'own_pieces', forms: 0, pieces: 0 })
    expect(mug?.yieldFraction?.toFixed()).toBe('0.9')
    expect(plate?.words).toBe('30 of 42: enough pieces to stand on its own')
    const at = (pieces: number) =>
      stageEstimates([...forms, stage('bowl', pieces - 2, 2)]).at(-1)?.basis
    expect(at(FEW_PIECES_BELOW)).toBe('own_pieces')
    expect(at(FEW_PIECES_BELOW - 1)).toBe('leans_on_all_forms')
  })

  test('is what all forms show where none of its own is decided on yet', () => {
    const estimate = stageEstimates([...forms, stage('bowl', 0, 0)]).at(-1)
    expect(estimate?.words).toContain('no piece of its own decided on yet')
    expect(estimate?.ownWeightFraction.toFixed()).toBe('0')
    expect(estimate?.interval95).not.toBeNull()
  })

  test('leans on nothing with fewer than three forms, or where nothing was ever lost', () => {
    const [jug] = stageEstimates([stage('jug', 1, 1), stage('mug', 5, 1)])
    expect(jug).toMatchObject({ basis: 'nothing_to_lean_on', forms: 0 })
    expect(jug?.interval95?.from.toNumber()).toBe(wilsonInterval({ events: 1, trials: 2 }).from)
    const whole = stageEstimates([stage('a', 5, 0), stage('b', 5, 0), stage('c', 5, 0)])
    expect(whole.map(({ basis }) => basis)).toEqual(Array(3).fill('nothing_to_lean_on'))
    expect(stageEstimates([stage('a', 0, 0)])[0]?.basis).toBe('not_yet_known')
  })

  test('counts forms that were made once among all', () => {
    const oneOffs = Array.from({ length: 6 }, (_, index) => stage(`once-${index}`, index % 2, 1))
    const [, , jug] = stageEstimates([...forms, ...oneOffs])
    expect(jug).toMatchObject({ forms: 9, pieces: 253 })
  })
})

/**
 * Made-up studios of forms with one to 25 pieces each, whose true shares lie about a mean. Of 120 such
 * studios (seed 7) the 90 % intervals held 88, 91 and 95 % of the truths at strengths of 8, 20 and 60
 * about 0.85 with ten forms, and 90 and 92 % at 8 and 30 about 0.93 with six. With the likeliest spread
 * taken for the true one they held only 68 to 76 %.
 */
describe('the interval of a form that leans', () => {
  const STUDIOS = 60

  function studioOf(chance: Chance, { meanShare, strength, forms }: Kind) {
    const shape = { alpha: meanShare * strength, beta: (1 - meanShare) * strength }
    return Array.from({ length: forms }, (_, index) => {
      const truth = betaQuantile(Math.min(1 - 1e-9, Math.max(1e-9, chance.uniform())), shape)
      const trials = chance.whole(1, 25)
      const passed = Array.from({ length: trials }, () => chance.uniform() < truth)
      return { truth, formId: String(index), trials, events: passed.filter((one) => one).length }
    })
  }

  interface Kind {
    readonly meanShare: number
    readonly strength: number
    readonly forms: number
  }

  function heldOf(kind: Kind): number {
    const chance = new Chance(7)
    const held: boolean[] = []
    for (let studio = 0; studio < STUDIOS; studio += 1) {
      const made = studioOf(chance, kind)
      const { forms, spread } = leanedShares(made)
      if (spread === null) continue
      forms.forEach(({ belief }, index) => {
        const truth = made[index]?.truth ?? NaN
        if (belief === null) return
        held.push(mixedQuantile(belief, 0.05) <= truth && truth <= mixedQuantile(belief, 0.95))
      })
    }
    expect(held.length).toBeGreaterThan(300)
    return held.filter((one) => one).length / held.length
  }

  test.each<Kind>([
    { meanShare: 0.85, strength: 8, forms: 10 },
    { meanShare: 0.85, strength: 60, forms: 10 },
    { meanShare: 0.93, strength: 30, forms: 6 },
  ])('at 90 % holds nine truths of ten, or nearly: %j', { timeout: 60_000 }, (kind) => {
    const held = heldOf(kind)
    expect(held).toBeGreaterThan(0.85)
    expect(held).toBeLessThan(0.975)
  })
})
