import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { passagesOf, type EntryMoved } from '../../shared/entry-passages.ts'
import { ENTRY_KINDS } from '../../shared/entry-kind.ts'
import { monthStream, nameOf } from '../../shared/month-stream.ts'
import type { ActKind } from '../../shared/month-world.ts'
import { PLACES_INSIDE, PLACES_OUTSIDE, type Place, type PlaceInside } from '../../shared/place.ts'

const PLACES: readonly Place[] = [...PLACES_INSIDE, ...PLACES_OUTSIDE]
const KINDS = ENTRY_KINDS.filter((kind): kind is ActKind => kind !== 'reverse')

const gained = (amounts: Partial<Record<Place, string>>) =>
  new Map(Object.entries(amounts).map(([place, grams]) => [place as Place, decimal(grams)]))
const told = (entry: EntryMoved) =>
  passagesOf(entry).map(({ from, to, dryGrams }) => `${from} ${dryGrams.toFixed()} ${to}`)
const sum = (all: readonly Decimal[]) => all.reduce((total, one) => total.plus(one), ZERO)

/** An entry of any kind between any places, that sums to nothing. */
const entries = fc
  .tuple(
    fc.constantFrom(...KINDS),
    fc.dictionary(fc.constantFrom(...PLACES), fc.integer({ min: -9_000_000, max: 9_000_000 }), {
      maxKeys: 5,
    }),
    fc.constantFrom(...PLACES),
  )
  .map(([kind, some, last]): EntryMoved => {
    const amounts = new Map(
      Object.entries(some).map(([place, micrograms]) => [
        place as Place,
        decimal(micrograms).dividedBy(1000),
      ]),
    )
    const others = [...amounts].filter(([place]) => place !== last).map(([, grams]) => grams)
    amounts.set(last, sum(others).negated())
    return { kind, gained: amounts }
  })

describe('what passed by an entry', () => {
  test('is plain where one place gave', () => {
    expect(
      told({ kind: 'bisque', gained: gained({ greenware: '-100', bisque: '92', fire: '8' }) }),
    ).toEqual(['greenware 92 bisque', 'greenware 8 fire'])
  })

  test('puts what was found where the month report has it', () => {
    const moved = { greenware: '-40', scrap: '41', unexplained: '-1' }
    expect(told({ kind: 'turn', gained: gained(moved) })).toEqual([
      'unexplained 1 greenware',
      'greenware 41 scrap',
    ])
    expect(told({ kind: 'weigh_scrap', gained: gained(moved) })).toEqual([
      'unexplained 1 scrap',
      'greenware 40 scrap',
    ])
  })

  test('never leads from place to place by a dry test', () => {
    const moved = { bench: '5', store: '-9', scrap: '1', supplier: '3' }
    expect(told({ kind: 'dry_test', gained: gained(moved) })).toEqual([
      'supplier 5 bench',
      'store 9 supplier',
      'supplier 1 scrap',
    ])
  })

  test('goes to other clays where one clay alone does not sum to nothing', () => {
    expect(told({ kind: 'wedge', gained: gained({ bench: '-30' }) })).toEqual([
      'bench 30 other_bodies',
    ])
  })

  test('comes to what each place gained, and back again when it is taken back', () => {
    fc.assert(
      fc.property(entries, (entry) => {
        const passages = passagesOf(entry)
        for (const place of PLACES) {
          const came = sum(passages.filter(({ to }) => to === place).map((one) => one.dryGrams))
          const went = sum(passages.filter(({ from }) => from === place).map((one) => one.dryGrams))
          expect(came.minus(went).toFixed()).toBe((entry.gained.get(place) ?? ZERO).toFixed())
        }
        expect(passages.every(({ dryGrams }) => dryGrams.greaterThan(0))).toBe(true)
        const back = new Map([...entry.gained].map(([place, grams]) => [place, grams.negated()]))
        const stream = monthStream({
          opening: new Map(),
          entries: [entry, { kind: entry.kind, gained: back }],
        })
        expect(stream.bands).toEqual([])
      }),
    )
  })
})

describe('a month of entries', () => {
  test('brings to each place what it takes from it, stock included, to the last digit', () => {
    const openings = fc.dictionary(
      fc.constantFrom(...PLACES_INSIDE),
      fc.integer({ min: 0, max: 9_000_000 }),
    )
    fc.assert(
      fc.property(fc.array(entries, { maxLength: 30 }), openings, (all, some) => {
        const opening = new Map(
          Object.entries(some).map(([place, grams]) => [place as PlaceInside, decimal(grams)]),
        )
        const { bands, stocks } = monthStream({ opening, entries: all })
        for (const { place, openingDryGrams, closingDryGrams } of stocks) {
          const came = sum(bands.filter(({ to }) => to.place === place).map((b) => b.dryGrams))
          const went = sum(bands.filter(({ from }) => from.place === place).map((b) => b.dryGrams))
          expect(openingDryGrams.plus(came).toFixed()).toBe(closingDryGrams.plus(went).toFixed())
          const gains = sum(all.map((entry) => entry.gained.get(place) ?? ZERO))
          expect(closingDryGrams.minus(openingDryGrams).toFixed()).toBe(gains.toFixed())
        }
        const ways = bands.map(({ from, to }) => `${nameOf(from)}>${nameOf(to)}`)
        expect(new Set(ways).size).toBe(ways.length)
      }),
    )
  })
})
