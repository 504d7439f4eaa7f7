import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { dryGramsAPiece, kilnOutcome } from '../../shared/kiln-outcome.ts'
import type { ActKind } from '../../shared/month-world.ts'
import type { PotPlace } from '../../shared/place.ts'
import { NOTHING, quantities } from '../../shared/quantity.ts'
import type { PotFlows } from '../../shared/run-flows.ts'
import { weightLink, trimmingLink, type WeighedRun } from '../../shared/trimming.ts'
import { piecesByStage } from '../../shared/yield.ts'

type Move = readonly [ActKind, PotPlace, number, number?]

function run(
  moves: readonly Move[],
  losses: readonly [PotFlows['losses'][number]['stage'], number][],
) {
  return {
    movements: moves.map(([kind, place, pieces, dryGrams = 0]) => ({
      ...{ kind, place, grade: place === 'finished' ? ('first' as const) : undefined },
      ...quantities({ pieces: decimal(pieces), dryGrams: decimal(dryGrams) }),
    })),
    joining: { taken: NOTHING, offCuts: NOTHING },
    losses: losses.map(([stage, pieces]) => ({
      ...{ stage, pieces: decimal(pieces), costLeft: decimal(0) },
    })),
  }
}

const INTO_BISQUE: Move[] = [
  ['throw', 'greenware', 10, 3200],
  ['turn', 'greenware', 0, -600],
  ['bisque', 'greenware', -10, -2600],
  ['bisque', 'bisque', 10, 2400],
]

describe('what the kilns decided on', () => {
  const outcomeOf = (pots: PotFlows) => kilnOutcome(piecesByStage(pots))

  test('is nothing before the fire, and not yet told while pots wait between the kilns', () => {
    expect(outcomeOf(run([['throw', 'greenware', 10]], []))).toBeNull()
    // Two blew out and eight wait for the glaze kiln: two of two would be wrong.
    const waiting = run([...INTO_BISQUE, ['lose', 'bisque', -2]], [['bisque_firing', 2]])
    expect(outcomeOf(waiting)).toBeNull()
  })

  test('counts what broke in either kiln and the wasters, and glazing losses as come through', () => {
    const through = run(
      [
        ...INTO_BISQUE,
        ['lose', 'bisque', -3],
        ['glaze_fire', 'bisque', -7],
        ['glaze_fire', 'glazed', 7],
        ['grade', 'glazed', -7],
        ['grade', 'finished', 6],
      ],
      [
        ['bisque_firing', 2],
        ['glazing', 1],
        ['glaze_firing', 1],
      ],
    )
    expect(outcomeOf(through)).toEqual({ firedPieces: 10, lostPieces: 3 })
  })

  test('a pot is as heavy as it went into the bisque fire, dry', () => {
    expect(dryGramsAPiece(run(INTO_BISQUE, []))?.toFixed()).toBe('260')
    expect(dryGramsAPiece(run([['throw', 'greenware', 10, 3200]], []))).toBeNull()
  })
})

describe('whether light pots are lost more often', () => {
  const runs = (losses: readonly number[], formId: string, usual: number): WeighedRun[] =>
    losses.map((lostPieces, index) => ({
      ...{ formId, lostPieces, firedPieces: 20 },
      dryGramsAPiece: usual * (1.1 - 0.02 * index),
    }))
  const RISING = [0, 1, 0, 1, 2, 2, 3, 4, 5, 7]

  test('is said where the losses rise as pots get lighter, and the other way round', () => {
    const link = weightLink(runs(RISING, 'cup', 200))
    expect(link.verdict).toBe('lighter_loses_more')
    expect(link.words).toMatch(
      /^Runs that were lighter lost more in the kiln\. Each hundredth lighter/,
    )
    expect(weightLink(runs(RISING.toReversed(), 'cup', 200)).verdict).toBe('lighter_loses_fewer')
  })

  test('compares each form with its own mean: a heavy form that breaks does not hide it', () => {
    const link = weightLink([...runs(RISING, 'cup', 200), ...runs(RISING, 'planter', 1900)])
    expect(link).toMatchObject({ verdict: 'lighter_loses_more', runs: 20, reason: null })
  })

  test('says why not: parted completely, all alike, nothing that differs', () => {
    const parted = trimmingLink(
      [0, 0, 0, 0, 0, 20, 20, 20].map((lostPieces, index) => ({
        ...{ formId: 'cup', turnedOffFraction: 0.1 + index / 100, firedPieces: 20, lostPieces },
      })),
    )
    expect(parted).toMatchObject({ verdict: 'too_little_to_say', reason: 'parted_completely' })
    expect(parted.words).toContain('any strength of the link would fit')
    const alike = runs(RISING, 'cup', 200).map((one) => ({ ...one, dryGramsAPiece: 200 }))
    expect(weightLink(alike).words).toBe(
      'Too little to say whether light pots are lost more often: no form lost some of its pots and not all, in runs of which the mass of a pot differs.',
    )
    expect(() => weightLink([{ ...alike[0], dryGramsAPiece: 0 } as WeighedRun])).toThrow('weighs')
  })
})
