import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  clayCostSum,
  clayCostUnderBothRules,
  moreAtNil,
  type ClayCostMoved,
  type UnderBothRules,
} from '../../shared/reclaim-at-nil.ts'
import { ClayBooks } from '../support/clay-entries.ts'

const grams = (amount: number) => decimal(amount)

/** Ten kilograms for 10.00; 5 kg thrown into a run of ten, of which 2 kg are turned off into the bucket. */
function turnedRun(): ClayBooks {
  const books = new ClayBooks()
  books.receive('bench', grams(10_000), decimal(10))
  books.move('bench', [{ holding: 'greenware:1', dryGrams: grams(5000), pieces: 10 }])
  books.move('greenware:1', [{ holding: 'scrap', dryGrams: grams(2000) }])
  return books
}

function found(books: ClayBooks): ClayCostMoved {
  return clayCostSum(clayCostUnderBothRules(books.entries))
}

const shown = ({ byMass, atNil }: UnderBothRules) => [byMass.toFixed(), atNil.toFixed()]

describe('turnings under both rules', () => {
  test('take their cost to the bucket by mass, and leave it with the pots at nil', () => {
    const books = turnedRun()
    books.move('greenware:1', [
      { holding: 'bisque:1', dryGrams: grams(2700), pieces: 10 },
      { holding: 'fire', dryGrams: grams(300) },
    ])
    books.move('bisque:1', [{ holding: 'customer', dryGrams: grams(2700), pieces: 10 }])
    const moved = found(books)
    expect(shown(moved.cameIn)).toEqual(['10', '10'])
    expect(shown(moved.sold)).toEqual(['3', '5'])
    expect(shown(moved.inStock)).toEqual(['7', '5'])
    expect([...moved.lost.keys()]).toEqual([])
    expect(moreAtNil(moved.sold).toFixed()).toBe('2')
  })

  test('make reclaimed clay that costs nothing, and lowers what the bench costs', () => {
    const books = turnedRun()
    books.move('scrap', [{ holding: 'basin', dryGrams: grams(2000) }])
    books.move('basin', [{ holding: 'plaster:1', dryGrams: grams(2000) }])
    books.move('plaster:1', [{ holding: 'bench', dryGrams: grams(2000) }])
    // 7 kg on the bench: 7.00 by mass, 5.00 at nil.
    books.move('bench', [{ holding: 'greenware:2', dryGrams: grams(3500), pieces: 7 }])
    books.move('greenware:2', [{ holding: 'customer', dryGrams: grams(3500), pieces: 7 }])
    expect(shown(found(books).sold)).toEqual(['3.5', '2.5'])
  })

  test('a period is a stretch of what was moved', () => {
    const books = turnedRun()
    books.move('greenware:1', [{ holding: 'customer', dryGrams: grams(1500), pieces: 5 }])
    const first = books.entries.length
    books.move('greenware:1', [{ holding: 'customer', dryGrams: grams(1500), pieces: 5 }])
    const moves = clayCostUnderBothRules(books.entries)
    expect(shown(clayCostSum(moves.slice(first)).sold)).toEqual(['1.5', '2.5'])
  })
})

describe('lost pots under both rules', () => {
  test('some of a run lost green: the rest carries their cost at nil', () => {
    const books = turnedRun()
    books.move('greenware:1', [{ holding: 'scrap', dryGrams: grams(1500), pieces: 5 }])
    books.move('greenware:1', [{ holding: 'customer', dryGrams: grams(1500), pieces: 5 }])
    expect(shown(found(books).sold)).toEqual(['1.5', '5'])
  })

  test('a whole run lost green has nobody to carry it, and is named', () => {
    const books = turnedRun()
    books.move('greenware:1', [{ holding: 'scrap', dryGrams: grams(3000), pieces: 10 }])
    const moved = found(books)
    expect(shown(moved.inStock)).toEqual(['10', '5'])
    expect([...moved.lost].map(([name, both]) => [name, ...shown(both)])).toEqual([
      ['lost_green', '0', '5'],
    ])
  })

  test('lost after bisque: alike under both, by the survivors or by the waste', () => {
    const books = turnedRun()
    books.loseFired('greenware:1', grams(1000))
    expect(found(books).lost.size).toBe(0)
    books.loseFired('greenware:1', grams(2000))
    expect([...found(books).lost].map(([name, both]) => [name, ...shown(both)])).toEqual([
      ['waste', '3', '5'],
    ])
  })
})

describe('what else happens', () => {
  test('a reversal undoes what was done for its entry', () => {
    const books = turnedRun()
    const before = found(books)
    books.move('greenware:1', [{ holding: 'scrap', dryGrams: grams(3000), pieces: 10 }])
    expect(books.reverse(String(books.entries.length))).toBe(true)
    const after = found(books)
    expect(shown(after.inStock)).toEqual(shown(before.inStock))
    expect([...after.lost.values()].map(shown)).toEqual([['0', '0']])
    books.move('greenware:1', [{ holding: 'customer', dryGrams: grams(3000), pieces: 10 }])
    expect(shown(found(books).sold)).toEqual(['3', '5'])
  })

  test('what a reversal leaves where no clay is left is named, and nothing is left there', () => {
    const books = turnedRun()
    books.move('scrap', [{ holding: 'bench', dryGrams: grams(2000) }])
    const lifted = String(books.entries.length)
    books.move('bench', [{ holding: 'greenware:2', dryGrams: grams(5000), pieces: 7 }])
    expect(books.reverse(lifted)).toBe(true)
    const moved = found(books)
    expect(moved.lost.get('no_clay_left')?.atNil.greaterThan(0)).toBe(true)
    expect(moved.inStock.atNil.plus(moved.lost.get('no_clay_left')?.atNil ?? 0).toFixed()).toBe(
      '10',
    )
  })

  test('scrap that was here before the books keeps what it was said to be worth', () => {
    const books = new ClayBooks()
    books.receive('scrap', grams(1000), decimal(1))
    books.move('scrap', [{ holding: 'bench', dryGrams: grams(1000) }])
    expect(shown(found(books).inStock)).toEqual(['1', '1'])
  })

  test('found clay is worth what lies beside it; a dry test moves no cost', () => {
    const books = turnedRun()
    books.correct('scrap', grams(50))
    books.find('bench', grams(500))
    const moved = found(books)
    expect([...moved.lost].map(([name, both]) => [name, ...shown(both)])).toEqual([
      ['unexplained', '-0.5', '-0.5'],
    ])
    books.find('scrap', grams(205))
    expect(found(books).lost.get('unexplained')?.atNil.toFixed()).toBe('-0.5')
    expect(found(books).lost.get('unexplained')?.byMass.toFixed()).toBe('-0.7')
  })
})
