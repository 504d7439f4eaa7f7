import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  costPerDryGram,
  ingredientFractions,
  ingredientGrams,
  mixGrainGramsPerMillilitre,
  powderAsSupplied,
  recipeCostPerDryGram,
  recipeLossOnIgnition,
  recipeTotals,
  type RecipePart,
} from '../../shared/glaze-recipe.ts'
import { fractionBelowOne, ledgerAmount, sum } from './arbitrary.ts'

const line = (materialId: string, parts: string, isAddition = false): RecipePart => ({
  ...{ materialId, parts: decimal(parts), isAddition },
})
const CLEAR = [
  line('feldspar', '40'),
  line('silica', '30'),
  line('whiting', '20'),
  line('kaolin', '10'),
]
const BLUE = [...CLEAR, line('cobalt', '1.5', true), line('bentonite', '2', true)]

describe('what a recipe comes to', () => {
  test('a base of a hundred', () => {
    const totals = recipeTotals(CLEAR)
    expect(totals.words).toBe('The base comes to 100.')
    expect([totals.isBaseOneHundred, totals.allParts.toFixed()]).toEqual([true, '100'])
  })

  test('additions are over the hundred and do not make it a wrong one', () => {
    const totals = recipeTotals(BLUE)
    expect(totals.words).toBe('The base comes to 100. Added on top: 3.5.')
    expect([totals.baseParts.toFixed(), totals.additionParts.toFixed()]).toEqual(['100', '3.5'])
    expect(totals.allParts.toFixed()).toBe('103.5')
  })

  test('a base that does not come to a hundred is allowed, and said', () => {
    const totals = recipeTotals([line('ash', '50'), line('clay', '48.5')])
    expect(totals.isBaseOneHundred).toBe(false)
    expect(totals.words).toBe(
      'The base comes to 98.5, not 100: each part is taken as its share. See that no line is left out.',
    )
  })
})

describe('what each line is of the whole', () => {
  test('additions count in the whole', () => {
    const fractions = ingredientFractions(BLUE)
    expect(fractions[0]?.toFixed(6)).toBe('0.386473')
    expect(fractions[4]?.toFixed(6)).toBe('0.014493')
    expect(sum(fractions).toFixed(30)).toBe('1.000000000000000000000000000000')
  })

  test('thirds of a kilo, to the last unit', () => {
    const thirds = ['a', 'b', 'c'].map((id) => line(id, '1'))
    expect(
      ingredientGrams(thirds, decimal(1000)).map(({ dryGrams }) => dryGrams.toFixed()),
    ).toEqual(['333.333334', '333.333333', '333.333333'])
  })

  test('a recipe without a part is our mistake', () => {
    expect(() => ingredientFractions([])).toThrow('Broken promise')
    expect(() => ingredientGrams([line('ash', '0')], decimal(1))).toThrow('Broken promise')
    expect(() => ingredientFractions([line('ash', '2'), line('clay', '-1')])).toThrow('Broken')
  })

  test('no share loses a unit, and none is off by one', () => {
    const parts = fc.array(fc.integer({ min: 0, max: 100_000 }), { minLength: 1, maxLength: 12 })
    fc.assert(
      fc.property(parts, ledgerAmount(0, 50_000), (hundredths, total) => {
        const recipe = hundredths.map((one, index) => line(String(index), String(one)))
        fc.pre(hundredths.some((one) => one > 0))
        const shares = ingredientGrams(recipe, total)
        expect(sum(shares.map(({ dryGrams }) => dryGrams)).equals(total)).toBe(true)
        const fractions = ingredientFractions(recipe)
        for (const [index, { dryGrams }] of shares.entries()) {
          const exact = total.times(fractions[index] ?? 0)
          expect(dryGrams.minus(exact).abs().lessThan('1e-6')).toBe(true)
        }
      }),
    )
  })
})

describe('powder from a damp sack', () => {
  test('a fifth of it is water', () => {
    const damp = powderAsSupplied({
      dryGrams: decimal(400),
      waterContentWetBasis: decimal('0.2'),
    })
    expect([damp.asSuppliedGrams.toFixed(), damp.waterGrams.toFixed()]).toEqual(['500', '100'])
  })

  test('water of the damp powder and dry powder make up what is weighed out', () => {
    fc.assert(
      fc.property(ledgerAmount(0, 50_000), fractionBelowOne, (dryGrams, waterContentWetBasis) => {
        const { asSuppliedGrams, waterGrams } = powderAsSupplied({ dryGrams, waterContentWetBasis })
        expect(asSuppliedGrams.minus(waterGrams).equals(dryGrams)).toBe(true)
        expect(waterGrams.greaterThanOrEqualTo(0)).toBe(true)
      }),
    )
  })

  test('a powder that is all water is our mistake', () => {
    const all = { dryGrams: decimal(1), waterContentWetBasis: decimal(1) }
    expect(() => powderAsSupplied(all)).toThrow('Broken promise')
  })
})

describe('loss, grains and money of a mix', () => {
  test('an ingredient whose loss nobody knows counts as none, and is told', () => {
    const loss = recipeLossOnIgnition([
      { parts: decimal(75), lossOnIgnitionFraction: decimal('0.12') },
      { parts: decimal(25), lossOnIgnitionFraction: undefined },
    ])
    expect([loss.lossOnIgnitionFraction.toFixed(), loss.notKnownFraction.toFixed()]).toEqual([
      ...['0.09', '0.25'],
    ])
  })

  test('half of 2 and half of 3 g/mL is not 2.5 but 2.4', () => {
    const halves = ['2', '3'].map((grain) => ({
      ...{ parts: decimal(1), grainGramsPerMillilitre: decimal(grain) },
    }))
    expect(mixGrainGramsPerMillilitre(halves).toFixed(40)).toBe(`2.4${'0'.repeat(39)}`)
  })

  test('grains of which nobody said weigh 2.6 g/mL', () => {
    const one = { parts: decimal(100), grainGramsPerMillilitre: undefined }
    expect(mixGrainGramsPerMillilitre([one]).toFixed(6)).toBe('2.600000')
  })

  test('an empty shelf has no price', () => {
    expect(costPerDryGram({ cost: decimal(3), dryGrams: decimal(0) })).toBeUndefined()
    expect(costPerDryGram({ cost: decimal(3), dryGrams: decimal(2) })?.toFixed()).toBe('1.5')
  })

  test('a recipe costs what its powders do, and nothing is told where one has no price', () => {
    const at = (parts: string, cost: string, dryGrams: string) => ({
      parts: decimal(parts),
      stock: { cost: decimal(cost), dryGrams: decimal(dryGrams) },
    })
    // Half at 2 a gram, half at 0.5.
    const both = [at('50', '2000', '1000'), at('50', '250', '500')]
    expect(recipeCostPerDryGram(both)?.toFixed()).toBe('1.25')
    expect(recipeCostPerDryGram([...both, at('1', '0', '0')])).toBeUndefined()
    expect(recipeCostPerDryGram([...both, at('0', '0', '0')])?.toFixed()).toBe('1.25')
  })
})
