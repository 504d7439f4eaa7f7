import { describe, expect, test } from 'vitest'
import { makersCompared, type MadeRun } from '../../shared/makers.ts'
import { Chance } from '../support/chance.ts'

const runsOf = (maker: string, shares: readonly number[], losses: readonly number[]): MadeRun[] =>
  shares.map((turnedOffFraction, index) => ({
    ...{ maker, turnedOffFraction, firedPieces: 20, lostPieces: losses[index] ?? 0 },
  }))
const EVEN = [0.18, 0.2, 0.19, 0.21, 0.19]

describe('makers of a form', () => {
  test('are not told apart by what chance alone may do', () => {
    const one = runsOf('Ines', EVEN, [1, 2, 0, 1, 2])
    const other = runsOf('Tobin', [0.19, 0.18, 0.2, 0.2, 0.19], [2, 0, 1, 3, 1])
    const { findings, words, makers } = makersCompared([...one, ...other])
    expect(findings).toEqual([])
    expect(words).toMatch(/^Nothing tells the makers of this form apart yet/)
    expect(makers.map(({ maker, survivedPieces }) => [maker, survivedPieces])).toEqual([
      ['Ines', 94],
      ['Tobin', 93],
    ])
  })

  test('are not told apart by one bad firing, though as many losses spread out would', () => {
    const clean = runsOf('Ines', EVEN, [0, 0, 0, 0, 0])
    const clumped = makersCompared([...clean, ...runsOf('Tobin', EVEN, [18, 0, 0, 0, 0])])
    expect(clumped.findings).toEqual([])
    const spread = makersCompared([...clean, ...runsOf('Tobin', EVEN, [4, 4, 3, 4, 3])])
    expect(spread.findings).toHaveLength(1)
    expect(spread.findings[0]).toContain('100 of 100 against 82 of 100')
  })

  test('need four runs each, and another maker', () => {
    const few = [...runsOf('Ines', [0.1, 0.11, 0.1], []), ...runsOf('Tobin', [0.3, 0.31, 0.3], [])]
    expect(makersCompared(few).findings).toEqual([])
    expect(makersCompared(runsOf('Ines', EVEN, [])).words).toContain('two makers')
    expect(makersCompared([]).makers).toEqual([])
  })

  test('have no figure where none is known', () => {
    const [first] = makersCompared([
      { maker: 'Ines', turnedOffFraction: null, firedPieces: 0, lostPieces: 0 },
    ]).makers
    expect(first).toMatchObject({
      ...{ turnedOffFraction: null, turnedOffInterval95: null, survivorsFraction: null },
    })
  })

  test('who are alike are told apart in one comparison of twenty, and no more', () => {
    const chance = new Chance(11)
    const studios = 400
    let apart = 0
    for (let studio = 0; studio < studios; studio += 1) {
      const runs = ['Ines', 'Tobin', 'Wren'].flatMap((maker) =>
        Array.from({ length: 8 }, (): MadeRun => {
          const risk = chance.between(0.02, 0.2)
          const lostPieces = Array.from({ length: 20 }, () => chance.uniform() < risk)
          return {
            maker,
            turnedOffFraction: 0.19 + 0.015 * chance.normal(),
            firedPieces: 20,
            lostPieces: lostPieces.filter((isLost) => isLost).length,
          }
        }),
      )
      if (makersCompared(runs).findings.length > 0) apart += 1
    }
    expect(apart / studios).toBeLessThan(0.07)
  })
})
