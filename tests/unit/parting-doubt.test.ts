import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ONE, ZERO, type Decimal } from '../../shared/decimal.ts'
import { doubtRead, doubtWritten, type Doubt } from '../../shared/doubt.ts'
import { isOfWater } from '../../shared/doubt-source.ts'
import { partByMeasure, partByShare, surplusFound } from '../../shared/parting.ts'
import { negated, plus, quantities, type Held } from '../../shared/quantity.ts'
import { aDoubt, heldClay, ledgerAmount } from '../support/arbitraries.ts'

/** A bag: 800 g dry in 1000 g, 40 of money. Its water moves the clay by 30 g, its label by 20 g. */
const BAG = quantities({
  ...{ dryGrams: decimal(800), waterGrams: decimal(200), cost: decimal(40) },
  dryDoubt: doubtRead({ 'moisture|x': '-30', 'reading|label': '20' }),
  costDoubt: doubtRead({ 'reading|paid': '4' }),
})
const left = (held: Held, leaving: Held) => plus(held, negated(leaving))

describe('a quarter of a bag', () => {
  test('as a share takes a quarter of every doubt, in clay and in money', () => {
    const leaving = partByShare(BAG, { dryGrams: decimal(200) })
    expect(doubtWritten(leaving.dryDoubt)).toEqual({ 'moisture|x': '-7.5', 'reading|label': '5' })
    expect(doubtWritten(leaving.costDoubt)).toEqual({ 'reading|paid': '1' })
  })

  test('weighed wet is doubtful by its water and its reading; the label stays with the bag', () => {
    const reading = { 'reading|scale': '2' }
    const leaving = partByShare(BAG, { dryGrams: decimal(200), readingDoubt: doubtRead(reading) })
    // 2 g of wet clay are 1.6 g of dry.
    expect(doubtWritten(leaving.dryDoubt)).toEqual({ 'moisture|x': '-7.5', 'reading|scale': '1.6' })
    // A bag of 20 g more would have been cheaper by the gram: 200 g of it by 10 x 20/800 = 0.25. And the
    // scale: 1.6 g at 0.05 are 0.08.
    expect(doubtWritten(leaving.costDoubt)).toEqual({
      'reading|paid': '1',
      'reading|label': '-0.25',
      'reading|scale': '0.08',
    })
    expect(doubtWritten(left(BAG, leaving).dryDoubt)).toEqual({
      'moisture|x': '-22.5',
      'reading|label': '20',
      'reading|scale': '-1.6',
    })
  })

  test('measured by itself brings its own doubt, and what the bag had stays with the bag', () => {
    const dryDoubt = doubtRead({ 'moisture|y': '3' })
    const leaving = partByMeasure(BAG, { dryGrams: decimal(200), dryDoubt })
    expect(doubtWritten(leaving.dryDoubt)).toEqual({ 'moisture|y': '3' })
    expect(doubtWritten(left(BAG, leaving).dryDoubt)).toEqual({
      'moisture|x': '-30',
      'reading|label': '20',
      'moisture|y': '-3',
    })
    // Out of 800 g that may be 770 g: 200/770 of 40 instead of 200/800, 0.375 more to first order.
    expect(doubtWritten(leaving.costDoubt)).toEqual({
      'reading|paid': '1',
      'moisture|x': '0.375',
      'reading|label': '-0.25',
      'moisture|y': '0.15',
    })
  })
})

describe('of a holding without clay', () => {
  test('nothing is divided by', () => {
    const empty = quantities({ cost: decimal(3), dryDoubt: doubtRead({ 'reading|1': '2' }) })
    const measured = { dryGrams: decimal(5), dryDoubt: doubtRead({ 'reading|2': '1' }) }
    const found = surplusFound(empty, measured)
    expect(found.dryGrams.toFixed()).toBe('5')
    expect(found.cost.toFixed()).toBe('0')
    expect(doubtWritten(found.dryDoubt)).toEqual({ 'reading|2': '1', 'reading|1': '-2' })
    expect(found.costDoubt.size).toBe(0)
    expect(partByMeasure(empty, { ...measured, dryGrams: ZERO }).cost.toFixed()).toBe('0')
  })
})

/** What a source that is off by so many standard uncertainties makes of an amount. */
const moved = (amount: Decimal, doubt: Doubt, by: { source: string; sigmas: Decimal }) =>
  amount.plus((doubt.get(by.source) ?? ZERO).times(by.sigmas))

/** The slope of a function at nothing. Sixty digits bear a small step. */
const slopeOf = (compute: (sigmas: Decimal) => Decimal) => {
  const step = decimal('0.000000000001')
  return compute(step).minus(compute(step.negated())).dividedBy(step.times(2))
}

const isClose = (found: Decimal | undefined, expected: Decimal) =>
  (found ?? ZERO)
    .minus(expected)
    .abs()
    .lessThanOrEqualTo(expected.abs().times(1e-6).plus('0.00001'))

const bags = fc.tuple(heldClay, aDoubt, aDoubt).map(([held, dryDoubt, costDoubt]) => ({
  ...held,
  // A coin a gram at most, so that what is rounded in grams is as small in money.
  ...{ dryGrams: held.dryGrams.plus(100_000), dryDoubt, costDoubt },
}))
const ownDoubt = fc.tuple(aDoubt, ledgerAmount(9)).map(([shared, own]) => {
  const all = new Map([...shared, ['reading|own', own.plus('0.1')] as const])
  return all as Doubt
})
const share = fc.integer({ min: 1, max: 999 })
const sourcesOf = (...all: Doubt[]) => new Set(all.flatMap((one) => [...one.keys()]))

describe('moves with each source as the thing itself does:', () => {
  test('a measured amount and what it costs', () => {
    fc.assert(
      fc.property(bags, ownDoubt, share, (held, dryDoubt, thousandths) => {
        const dryGrams = held.dryGrams.times(thousandths).dividedBy(1000)
        const leaving = partByMeasure(held, { dryGrams, dryDoubt })
        for (const source of sourcesOf(held.dryDoubt, held.costDoubt, dryDoubt)) {
          const cost = slopeOf((sigmas) => {
            const by = { source, sigmas }
            const ofWhole = moved(dryGrams, dryDoubt, by).dividedBy(
              moved(held.dryGrams, held.dryDoubt, by),
            )
            return moved(held.cost, held.costDoubt, by).times(ofWhole)
          })
          expect(isClose(leaving.costDoubt.get(source), cost)).toBe(true)
          expect(isClose(leaving.dryDoubt.get(source), dryDoubt.get(source) ?? ZERO)).toBe(true)
        }
      }),
    )
  })

  test('a share that was weighed wet, and what it costs', () => {
    fc.assert(
      fc.property(bags, ownDoubt, share, (held, readingDoubt, thousandths) => {
        const dryGrams = held.dryGrams.times(thousandths).dividedBy(1000)
        const wetGrams = held.dryGrams.plus(held.waterGrams)
        const taken = dryGrams.times(wetGrams).dividedBy(held.dryGrams)
        const leaving = partByShare(held, { dryGrams, readingDoubt })
        for (const source of sourcesOf(held.dryDoubt, held.costDoubt, readingDoubt)) {
          // Of water: the wet mass stays. Of mass: the water content does.
          const dryAt = (sigmas: Decimal) => {
            const by = { source, sigmas }
            const dry = isOfWater(source) ? moved(held.dryGrams, held.dryDoubt, by) : held.dryGrams
            return moved(taken, readingDoubt, by).times(dry).dividedBy(wetGrams)
          }
          const costAt = (sigmas: Decimal) => {
            const by = { source, sigmas }
            const whole = moved(held.dryGrams, held.dryDoubt, by)
            return moved(held.cost, held.costDoubt, by).times(dryAt(sigmas)).dividedBy(whole)
          }
          expect(isClose(leaving.dryDoubt.get(source), slopeOf(dryAt))).toBe(true)
          expect(isClose(leaving.costDoubt.get(source), slopeOf(costAt))).toBe(true)
        }
      }),
    )
  })

  test('a surplus and what it brings of cost', () => {
    fc.assert(
      fc.property(bags, ownDoubt, ledgerAmount(5000), (held, dryDoubt, more) => {
        const found = held.dryGrams.plus(more)
        const surplus = surplusFound(held, { dryGrams: found, dryDoubt })
        for (const source of sourcesOf(held.dryDoubt, held.costDoubt, dryDoubt)) {
          const dryAt = (sigmas: Decimal) => {
            const by = { source, sigmas }
            return moved(found, dryDoubt, by).minus(moved(held.dryGrams, held.dryDoubt, by))
          }
          const costAt = (sigmas: Decimal) => {
            const by = { source, sigmas }
            const ofWhole = dryAt(sigmas).dividedBy(moved(held.dryGrams, held.dryDoubt, by))
            return moved(held.cost, held.costDoubt, by).times(ofWhole)
          }
          expect(isClose(surplus.dryDoubt.get(source), slopeOf(dryAt))).toBe(true)
          expect(isClose(surplus.costDoubt.get(source), slopeOf(costAt))).toBe(true)
        }
      }),
    )
  })
})

test('parts of one bag are off together, and their sum is off as the bag is', () => {
  const [part] = [partByShare(BAG, { dryGrams: decimal(400) })]
  const rest = left(BAG, part)
  expect(doubtWritten(plus(part, negated(rest)).dryDoubt)).toEqual({})
  expect(doubtWritten(plus(part, rest).dryDoubt)).toEqual(doubtWritten(BAG.dryDoubt))
  expect(part.dryGrams.plus(rest.dryGrams).dividedBy(BAG.dryGrams).equals(ONE)).toBe(true)
})
