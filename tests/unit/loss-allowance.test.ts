import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import {
  allowanceOfRun,
  lossFindingWords,
  newRunBelief,
  probabilityOfAtLeast,
  USUAL_PROBABILITY,
  type EarlierRun,
} from '../../shared/loss-allowance.ts'
import { splitLoss } from '../../shared/spoilage.ts'
import { Chance } from '../support/chance.ts'

const run = (entered: number, lost: number): EarlierRun => ({
  entered: decimal(entered),
  lost: decimal(lost),
})
const NO_OTHERS = run(0, 0)
const allowed = (pieces: number, earlier: readonly EarlierRun[], otherForms = NO_OTHERS) =>
  allowanceOfRun({ pieces: decimal(pieces), earlier, otherForms })

const STEADY = [run(40, 1), run(38, 2), run(36, 1), run(40, 1), run(34, 1)]

describe('how many of a run are usually lost', () => {
  test('the steady form of 188 pots: some of forty are usual, and a bad kiln is not', () => {
    const found = allowed(40, STEADY, run(1500, 60))
    expect(found.allowedPieces.toNumber()).toBeGreaterThanOrEqual(3)
    expect(found.allowedPieces.toNumber()).toBeLessThanOrEqual(6)
    expect(found.basis).toBe('own_runs')
    const usual = `188 fired, 6 lost: up to ${found.allowedPieces.toFixed()} of 40 are what usually happens`
    expect(found.words).toBe(usual)
    const split = splitLoss({
      allowance: found.allowedPieces,
      lostBefore: decimal(1),
      lostNow: decimal(25),
    })
    expect(split.abnormalPieces.toNumber()).toBeGreaterThan(18)
    expect(lossFindingWords(found, { ...split, lostBefore: decimal(1) })).toBe(
      `${usual}; 26 of 40 lost: ${split.abnormalPieces.toFixed()} are beyond it`,
    )
  })

  test('with no history, little is called beyond the usual; with other forms, more', () => {
    const bare = allowed(30, [])
    const leaning = allowed(30, [], run(1500, 60))
    expect(bare.basis).toBe('house_figure_only')
    expect(leaning.basis).toBe('leans_on_all_forms')
    expect(bare.allowedByRuns.toNumber()).toBeGreaterThan(leaning.allowedByRuns.toNumber())
    expect(bare.allowedPieces.toNumber()).toBeGreaterThanOrEqual(leaning.allowedPieces.toNumber())
    expect(leaning.allowedPieces.toNumber()).toBeGreaterThan(
      allowed(30, STEADY).allowedPieces.toNumber(),
    )
    expect(bare.words).toContain('nothing fired yet')
    expect(leaning.words).toContain('of all forms 1500 fired, 60 lost')
  })

  test('where runs go badly together now and then, more of one run is usual', () => {
    const clumped = [0, 0, 0, 8, 0, 0, 0, 8].map((lost) => run(40, lost))
    const even = [2, 2, 2, 2, 2, 2, 2, 2].map((lost) => run(40, lost))
    expect(allowed(40, clumped).allowedPieces.toNumber()).toBeGreaterThan(
      allowed(40, even).allowedPieces.toNumber(),
    )
  })

  test('a disaster that was told as one does not excuse the next', () => {
    const disaster = { ...run(30, 26), abnormal: decimal(22) }
    const told = allowed(30, [...STEADY, disaster])
    expect(told.words).toContain(
      '188 fired, 6 lost (without a run that lost 26 of 30, beyond the usual): up to',
    )
    expect(told.allowedPieces).toEqual(allowed(30, STEADY).allowedPieces)
    const after = told.allowedPieces.toNumber()
    expect(after).toBeLessThan(allowed(30, [...STEADY, run(30, 26)]).allowedPieces.toNumber())
    expect(after).toBeLessThan(12)
  })

  test('nothing lost is within what is usual, and says so', () => {
    const found = allowed(40, STEADY)
    const words = lossFindingWords(found, {
      normalPieces: decimal(1),
      abnormalPieces: ZERO,
      lostBefore: ZERO,
    })
    expect(words).toContain('1 of 40 lost is within it')
  })

  test('is the largest number that is still as likely as one in twenty', () => {
    const runs = fc.array(
      fc
        .tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 0, max: 60 }))
        .map(([entered, lost]) => ({ events: Math.min(entered, lost % 9), trials: entered })),
      { maxLength: 8 },
    )
    fc.assert(
      fc.property(runs, fc.integer({ min: 1, max: 60 }), (earlier, trials) => {
        const found = allowed(
          trials,
          earlier.map(({ events, trials: entered }) => run(entered, events)),
        )
        const events = found.allowedByRuns.toNumber()
        const most = Math.max(1, Math.floor((trials * 3) / 10))
        expect(found.allowedPieces.toNumber()).toBe(Math.min(events, most))
        expect(found.decidedBy).toBe(events > most ? 'three_in_ten' : 'runs')
        const house = [
          { events: 0, trials: 20 },
          { events: 2, trials: 20 },
        ]
        const belief = newRunBelief([...house, ...earlier])
        expect(events).toBeLessThanOrEqual(trials)
        const atLeast = (some: number) => probabilityOfAtLeast({ events: some, trials }, belief)
        expect(atLeast(events)).toBeGreaterThanOrEqual(USUAL_PROBABILITY - 1e-8)
        if (events < trials) expect(atLeast(events + 1)).toBeLessThan(USUAL_PROBABILITY + 1e-8)
        expect(atLeast(0)).toBeCloseTo(1, 8)
      }),
      { numRuns: 60 },
    )
  })

  test('of made-up studios, no more than one run in twenty loses beyond it', () => {
    const chance = new Chance(20_261_126)
    const tally = { runs: 0, beyond: 0 }
    for (let studio = 0; studio < 150; studio += 1) {
      const share = chance.between(0.02, 0.12)
      // Kilns differ: half of the firings lose half as many, the others half as many again.
      const fire = (entered: number) => {
        const here = share * (chance.uniform() < 0.5 ? 0.5 : 1.5)
        const lost = Array.from({ length: entered }, () => chance.uniform() < here)
        return run(entered, lost.filter(Boolean).length)
      }
      const earlier = Array.from({ length: chance.whole(2, 12) }, () => fire(chance.whole(10, 40)))
      const next = fire(30)
      tally.runs += 1
      if (next.lost.greaterThan(allowed(30, earlier).allowedPieces)) tally.beyond += 1
    }
    expect(tally.beyond / tally.runs).toBeLessThan(0.05)
  })

  test('more lost than fired, or half a pot, is a defect', () => {
    expect(() => allowed(10, [run(5, 6)])).toThrow('no more are lost')
    expect(() => allowed(1.5, [])).toThrow('pieces are whole')
  })
})
