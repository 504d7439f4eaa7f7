import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { costOfGrades, type SecondsCost } from '../../shared/seconds-cost.ts'
import { ledgerAmount } from './arbitrary.ts'

const LIKE: SecondsCost = { rule: 'like_firsts', secondsPriceFraction: decimal('0.5') }
const BY_PRICE: SecondsCost = { rule: 'by_price', secondsPriceFraction: decimal('0.5') }
const graded = (cost: string, firsts: number, seconds: number) => ({
  cost: decimal(cost),
  firsts: decimal(firsts),
  seconds: decimal(seconds),
})
const shown = ({ firsts, seconds }: { firsts: unknown; seconds: unknown }) => [
  String(firsts),
  String(seconds),
]

describe('what firsts and seconds cost', () => {
  test('like firsts: each pot alike, whatever the price', () => {
    expect(shown(costOfGrades(graded('12', 8, 4), LIKE))).toEqual(['8', '4'])
  })

  test('by price: a second at half the price takes half of a first’s cost', () => {
    expect(shown(costOfGrades(graded('12', 8, 4), BY_PRICE))).toEqual(['9.6', '2.4'])
  })

  test('one grade alone takes all', () => {
    for (const rule of [LIKE, BY_PRICE]) {
      expect(shown(costOfGrades(graded('7.000001', 0, 3), rule))).toEqual(['0', '7.000001'])
      expect(shown(costOfGrades(graded('7.000001', 3, 0), rule))).toEqual(['7.000001', '0'])
    }
  })

  test('adds up to the last unit, and no second costs more than a first by more than one', () => {
    const pots = fc.integer({ min: 1, max: 200 })
    const price = fc.integer({ min: 1, max: 1000 }).map((some) => decimal(some).dividedBy(1000))
    fc.assert(
      fc.property(fc.tuple(ledgerAmount(0, 5000), pots, pots, price), (drawn) => {
        const [cost, firsts, seconds, fraction] = drawn
        const pair = { cost, firsts: decimal(firsts), seconds: decimal(seconds) }
        const by = costOfGrades(pair, { rule: 'by_price', secondsPriceFraction: fraction })
        expect(by.firsts.plus(by.seconds).toFixed()).toBe(cost.toFixed())
        const [first, second] = [by.firsts.dividedBy(firsts), by.seconds.dividedBy(seconds)]
        expect(second.minus(first).lessThanOrEqualTo('0.000001')).toBe(true)
        const like = costOfGrades(pair, { rule: 'like_firsts', secondsPriceFraction: fraction })
        expect(by.seconds.lessThanOrEqualTo(like.seconds)).toBe(true)
      }),
    )
  })

  test('no pot, or a second dearer than a first, is a defect', () => {
    expect(() => costOfGrades(graded('1', 0, 0), LIKE)).toThrow('a pot to take the cost')
    const dear: SecondsCost = { rule: 'by_price', secondsPriceFraction: decimal('1.1') }
    expect(() => costOfGrades(graded('1', 1, 1), dear)).toThrow('up to a first')
  })
})
