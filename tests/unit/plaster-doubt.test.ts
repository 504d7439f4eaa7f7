import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { readyDoubt, slabDoubt, wentDoubt } from '../../shared/plaster-doubt.ts'
import { Chance } from '../support/chance.ts'

const read = (grams: number, unsure: number) => ({
  grams: decimal(grams),
  standardUncertaintyGrams: decimal(unsure),
})
const READY = decimal('0.225')
const dry = read(3772, 24)

describe('how unsure a slab is', () => {
  test('is what its dry clay leaves open, with the water that belongs to it', () => {
    expect(readyDoubt(dry, READY).toFixed()).toBe((24 / 0.775).toFixed(0))
  })

  test('is by the dry clay and by the scale, as drawing both at random has it', () => {
    const chance = new Chance(5)
    const draws = Array.from({ length: 20_000 }, () => {
      const [clay, slab] = [3772 + 24 * chance.normal(), 5050 + 15 * chance.normal()]
      return { water: 1 - clay / slab, toGo: slab - clay / 0.775 }
    })
    const found = slabDoubt({ ...read(5050, 15), dry }, READY)
    const water = spread(draws.map((one) => one.water))
    const toGo = spread(draws.map((one) => one.toGo))
    expect(Math.abs(found.waterContentWetBasis.toNumber() / water - 1)).toBeLessThan(0.03)
    expect(Math.abs(found.waterToGoGrams.toNumber() / toGo - 1)).toBeLessThan(0.03)
  })
})

describe('how unsure it is where the water went', () => {
  const [laid, slab] = [read(6000, 3), read(5050, 4)]

  test('counts every reading once, where the bat was weighed alone', () => {
    const found = wentDoubt({ laid, slab, bat: { kind: 'alone', bat: read(7870, 12) } })
    expect(found.leftGrams.toFixed()).toBe('5')
    expect(found.drunkGrams.toFixed()).toBe('12')
    expect(found.evaporatedGrams.toFixed()).toBe('13')
  })

  test('takes the slab out of what evaporated, where it was weighed with its bat', () => {
    const found = wentDoubt({ laid, slab, bat: { kind: 'pair_less_slab', pair: read(12_920, 4) } })
    // What was laid and the pair tell that, whatever the slab alone was read as.
    expect(found.evaporatedGrams.toFixed()).toBe('5')
    expect(found.drunkGrams.toFixed()).toBe(Math.hypot(4, 4).toFixed(1))
  })
})

function spread(values: readonly number[]): number {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length
  return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length)
}
