import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, toLedgerScale, ZERO, type Decimal } from '../../shared/decimal.ts'
import {
  clayCostSum,
  clayCostUnderBothRules,
  type ClayCostMoved,
  type UnderBothRules,
} from '../../shared/reclaim-at-nil.ts'
import { Dice, faces, ledgerAmount } from '../support/arbitraries.ts'
import { ClayBooks } from '../support/clay-entries.ts'

const RUNS = ['1', '2', '3']
const SOLD_FROM = ['greenware', 'bisque', 'finished']

/** Part of what is held there; once in three times all of it. */
function someOf(books: ClayBooks, holding: string, dice: Dice): Decimal {
  const { dryGrams } = books.held(holding)
  if (dice.isOnceIn(3)) return dryGrams
  return toLedgerScale(dryGrams.times(dice.roll(999) + 1).dividedBy(1000))
}

type Deed = (books: ClayBooks, dice: Dice) => void

function moving(from: string, to: (books: ClayBooks, dice: Dice, run: string) => string): Deed {
  return (books, dice) => {
    const holding = dice.pickOr(books.holdings(from), null)
    if (holding === null) return
    const target = to(books, dice, holding.split(':')[1] ?? '1')
    const dryGrams = someOf(books, holding, dice)
    if (dryGrams.isZero() || target === holding) return
    books.move(holding, [{ holding: target, dryGrams }])
  }
}

/** Through the fire: a tenth of the dry clay leaves, without cost. */
function firing(from: string, to: string): Deed {
  return (books, dice) => {
    const holding = dice.pickOr(books.holdings(from), null)
    if (holding === null) return
    const dryGrams = someOf(books, holding, dice)
    const burnt = toLedgerScale(dryGrams.dividedBy(10))
    const through = dryGrams.minus(burnt)
    if (!through.greaterThan(0)) return
    const target = `${to}:${holding.split(':')[1] ?? '1'}`
    books.move(holding, [
      { holding: target, dryGrams: through },
      { holding: 'fire', dryGrams: burnt },
    ])
  }
}

const onSome =
  (
    places: readonly string[],
    deed: (books: ClayBooks, holding: string, dice: Dice) => void,
  ): Deed =>
  (books, dice) => {
    const holding = dice.pickOr(
      places.flatMap((place) => books.holdings(place)),
      null,
    )
    if (holding !== null) deed(books, holding, dice)
  }

const DEEDS: readonly [Deed, ...Deed[]] = [
  moving('store', () => 'bench'),
  moving('bench', (_, dice) => `greenware:${dice.pickOr(RUNS, '1')}`),
  moving('greenware', () => 'scrap'),
  firing('greenware', 'bisque'),
  moving('scrap', (_, dice) => (dice.isOnceIn(4) ? 'waste' : 'basin')),
  moving('basin', () => 'plaster:1'),
  moving('plaster', () => 'bench'),
  firing('bisque', 'finished'),
  moving('finished', () => 'customer'),
  onSome(['bisque', 'finished'], (books, holding, dice) =>
    books.loseFired(holding, someOf(books, holding, dice)),
  ),
  onSome(['store', 'bench', 'scrap', 'greenware'], (books, holding, dice) =>
    books.find(holding, someOf(books, holding, dice)),
  ),
  onSome(['scrap', 'bench'], (books, holding, dice) =>
    books.correct(holding, someOf(books, holding, dice)),
  ),
  moving('bench', () => 'unexplained'),
]

const history = fc.array(fc.tuple(ledgerAmount(20_000), ledgerAmount(60), faces), {
  minLength: 1,
  maxLength: 60,
})

/** Deliveries and deeds, by chance; taking back only where that is wanted. */
function booksOf(
  told: readonly (readonly [Decimal, Decimal, readonly number[]])[],
  takesBack: boolean,
): ClayBooks {
  const books = new ClayBooks()
  for (const [dryGrams, cost, shown] of told) {
    const dice = new Dice(shown)
    if (books.entries.length === 0 || dice.isOnceIn(8)) {
      const bought = dryGrams.greaterThan(0) ? dryGrams : decimal(1)
      books.receive(dice.pick(['store', 'bench']), bought, cost)
    } else if (takesBack && dice.isOnceIn(6)) {
      books.reverse(String(dice.roll(books.entries.length) + 1))
    } else dice.pick(DEEDS)(books, dice)
  }
  return books
}

/** All that is left is sold, through the bench and a run where it is clay. */
function sellAll(books: ClayBooks): void {
  const all = (from: string, to: string) => {
    for (const holding of books.holdings(from)) {
      books.move(holding, [{ holding: to, dryGrams: books.held(holding).dryGrams }])
    }
  }
  for (const place of ['store', 'scrap', 'basin', 'plaster']) all(place, 'bench')
  all('bench', 'greenware:9')
  for (const place of SOLD_FROM) all(place, 'customer')
}

function wentTo({ inStock, sold, lost }: ClayCostMoved): [string, string] {
  const all: UnderBothRules[] = [inStock, sold, ...lost.values()]
  const byMass = all.reduce((sum, one) => sum.plus(one.byMass), ZERO)
  const atNil = all.reduce((sum, one) => sum.plus(one.atNil), ZERO)
  return [byMass.toFixed(), atNil.toFixed()]
}

describe('clay cost under both rules for reclaim', () => {
  test('sums to what came in at every moment, to the last unit, whatever happens', () => {
    fc.assert(
      fc.property(history, (told) => {
        const moves = clayCostUnderBothRules(booksOf(told, true).entries)
        for (const move of moves) {
          expect(wentTo(move)).toEqual([move.cameIn.byMass.toFixed(), move.cameIn.atNil.toFixed()])
          expect(move.cameIn.atNil.toFixed()).toBe(move.cameIn.byMass.toFixed())
        }
      }),
      { numRuns: 300 },
    )
  })

  test('comes to the same in all once nothing is left in stock, whatever happens', () => {
    fc.assert(
      fc.property(history, (told) => {
        const books = booksOf(told, true)
        sellAll(books)
        const moved = clayCostSum(clayCostUnderBothRules(books.entries))
        expect([moved.inStock.byMass.toFixed(), moved.inStock.atNil.toFixed()]).toEqual(['0', '0'])
        const [byMass, atNil] = wentTo(moved)
        expect(atNil).toBe(byMass)
      }),
      { numRuns: 300 },
    )
  })

  test('leaves nothing at nil in what only buckets, basins and plaster hold, and nothing below zero', () => {
    fc.assert(
      fc.property(history, (told) => {
        const books = booksOf(told, false)
        const soFar = clayCostSum(clayCostUnderBothRules(books.entries))
        expect(soFar.inStock.atNil.isNegative() && !soFar.inStock.atNil.isZero()).toBe(false)
        for (const place of ['store', 'bench', ...SOLD_FROM]) {
          for (const holding of books.holdings(place)) {
            books.move(holding, [{ holding: 'waste', dryGrams: books.held(holding).dryGrams }])
          }
        }
        const moved = clayCostSum(clayCostUnderBothRules(books.entries))
        expect(moved.inStock.atNil.toFixed()).toBe('0')
        expect(moved.lost.get('no_clay_left')).toBeUndefined()
      }),
      { numRuns: 300 },
    )
  })
})
