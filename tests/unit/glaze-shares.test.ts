import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { glazeShares, type RunGlazed } from '../../shared/glaze-shares.ts'
import { ledgerAmount, sum } from './arbitrary.ts'

const run = (runId: string, pieces: number, more: { usual?: string; pots?: string } = {}) => ({
  runId,
  pieces: decimal(pieces),
  usualDryGramsPerPiece: more.usual === undefined ? undefined : decimal(more.usual),
  potsDryGrams: decimal(more.pots ?? '0'),
})
const sharesOf = (dryGrams: string, runs: readonly RunGlazed[]) => {
  const { by, shares } = glazeShares(decimal(dryGrams), runs)
  return [by, ...shares.map((share) => `${share.runId} ${share.dryGrams.toFixed()}`)]
}

describe('glaze on several runs', () => {
  test('lands by what a piece usually takes, whatever the pots weigh', () => {
    const runs = [
      run('jugs', 16, { usual: '80', pots: '1' }),
      run('mugs', 36, { usual: '20', pots: '9' }),
    ]
    // 1280 and 720 of 2000.
    expect(sharesOf('1000', runs)).toEqual(['usual_grams', 'jugs 640', 'mugs 360'])
  })

  test('a form that nobody knows takes as much for its weight as the others do', () => {
    const runs = [run('jugs', 10, { usual: '80', pots: '8000' }), run('vases', 3, { pots: '2000' })]
    // A tenth of the pots' weight: 800 and 200.
    expect(sharesOf('500', runs)).toEqual(['usual_grams_and_pots', 'jugs 400', 'vases 100'])
  })

  test('where no form is known, by the weight of the pots', () => {
    const runs = [run('jugs', 1, { pots: '3000' }), run('mugs', 9, { pots: '1000' })]
    expect(sharesOf('100', runs)).toEqual(['pots', 'jugs 75', 'mugs 25'])
  })

  test('where nothing is known, by their number', () => {
    expect(sharesOf('100', [run('jugs', 1), run('mugs', 3)])).toEqual([
      ...['pieces', 'jugs 25', 'mugs 75'],
    ])
  })

  test('one run takes all', () => {
    expect(sharesOf('0.000001', [run('jugs', 2)])).toEqual(['pieces', 'jugs 0.000001'])
  })

  test('says by what it was shared', () => {
    const { words } = glazeShares(decimal(1), [run('jugs', 1, { usual: '80' })])
    expect(words).toBe('Shared by what a piece of each form usually takes.')
  })

  test('to the last unit, and none below nothing', () => {
    const runs = fc.array(
      fc.record({
        pieces: fc.integer({ min: 1, max: 300 }),
        usual: fc.option(fc.integer({ min: 1, max: 150 }), { nil: undefined }),
        pots: fc.integer({ min: 0, max: 90_000 }),
      }),
      { minLength: 1, maxLength: 9 },
    )
    fc.assert(
      fc.property(ledgerAmount(0, 30_000), runs, (dryGrams, some) => {
        const glazed = some.map(({ pieces, usual, pots }, index) =>
          run(String(index), pieces, {
            ...(usual === undefined ? {} : { usual: String(usual) }),
            pots: String(pots),
          }),
        )
        const shares = glazeShares(dryGrams, glazed).shares.map((share) => share.dryGrams)
        expect(sum(shares).equals(dryGrams)).toBe(true)
        expect(shares.every((share) => share.greaterThanOrEqualTo(0))).toBe(true)
      }),
    )
  })
})
