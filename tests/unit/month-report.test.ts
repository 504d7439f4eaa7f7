import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { ENTRY_KINDS } from '../../shared/entry-kind.ts'
import { monthSheet } from '../../shared/month-report.ts'
import type { ActKind, MonthMovement } from '../../shared/month-world.ts'
import { PLACES_INSIDE, PLACES_OUTSIDE, type Place } from '../../shared/place.ts'
import { negated, quantities } from '../../shared/quantity.ts'
import { sum } from './arbitrary.ts'

const KINDS = ENTRY_KINDS.filter((kind): kind is ActKind => kind !== 'reverse')
const micro = (most: number) =>
  fc.integer({ min: -most, max: most }).map((units) => decimal(units).dividedBy(1_000_000))

/** What one entry moved from a place to another: its two lines sum to zero. */
const entry = fc
  .record({
    kind: fc.constantFrom<(ActKind | undefined)[]>(undefined, ...KINDS),
    from: fc.constantFrom<Place[]>(...PLACES_INSIDE, ...PLACES_OUTSIDE),
    to: fc.constantFrom<Place[]>(...PLACES_INSIDE),
    dryGrams: micro(2_000_000_000),
    waterGrams: micro(2_000_000_000),
    cost: micro(2_000_000_000),
    pieces: fc.integer({ min: -5, max: 5 }).map(decimal),
  })
  .map(({ kind, from, to, ...moved }): MonthMovement[] => {
    const what = quantities(moved)
    return [
      { kind, place: to, ...what },
      { kind, place: from, ...negated(what) },
    ]
  })

const COLUMNS = ['dryGrams', 'waterGrams', 'bags', 'pots', 'cost'] as const
const SHOWN = ['dryKilograms', 'waterKilograms', 'cost'] as const

describe('the sheet of a month', () => {
  test('leads from opening to closing in every column, exactly and as printed', () => {
    fc.assert(
      fc.property(
        fc.array(entry, { maxLength: 12 }),
        fc.constantFrom(0, 2, 3),
        (entries, digits) => {
          const sheet = monthSheet({
            movements: entries.flat(),
            unexplained: [],
            moneyDigits: digits,
          })
          const summed = sheet.summary.filter((row) => row.isBalance || row.isWorld)
          const columns = [
            summed,
            sheet.flows.map((row) => row.total),
            ...PLACES_INSIDE.map((place) => sheet.flows.map((row) => row.places[place])),
          ]
          for (const column of columns) {
            for (const name of COLUMNS) {
              const parts = column.slice(0, -1).map((cell) => cell[name])
              expect(sum(parts).toFixed()).toBe(column.at(-1)?.[name].toFixed())
            }
            for (const name of SHOWN) {
              const parts = column.slice(0, -1).map((cell) => decimal(cell.shown[name]))
              expect(sum(parts).equals(column.at(-1)?.shown[name] ?? ZERO)).toBe(true)
            }
          }
        },
      ),
    )
  })

  test('prints what needs no rounding as it is', () => {
    const move = (kind: ActKind | undefined, cost: string): MonthMovement => ({
      kind,
      place: 'bench',
      ...quantities({ dryGrams: decimal(1), cost: decimal(cost) }),
    })
    const { flows } = monthSheet({
      movements: [
        move(undefined, '10.004'),
        move('receive_delivery', '36'),
        move('wedge', '0.002'),
      ],
      unexplained: [],
      moneyDigits: 2,
    })
    const shown = flows.map((row) => [row.row, row.total.shown.cost])
    expect(shown).toContainEqual(['opening', '10.00'])
    expect(shown).toContainEqual(['bought', '36.00'])
    expect(shown).toContainEqual(['wedged', '0.01'])
    expect(shown).toContainEqual(['closing', '46.01'])
  })

  test('keeps bags apart from pots where one entry brings both', () => {
    const both = (place: Place, pieces: number): MonthMovement => ({
      kind: 'open_books',
      place,
      ...quantities({ pieces: decimal(pieces) }),
    })
    const { world } = monthSheet({
      movements: [both('store', 4), both('finished', 30), both('before', -34)],
      unexplained: [],
      moneyDigits: 2,
    })
    const before = world.find((row) => row.row === 'opened_with')
    expect([before?.bags.toFixed(), before?.pots.toFixed()]).toEqual(['4', '30'])
  })

  test('takes what is unexplained out of the row of the entry that found it', () => {
    const found = quantities({ dryGrams: decimal(-80), cost: decimal('-0.06') })
    const { flows } = monthSheet({
      movements: [
        { kind: 'count', place: 'bench', ...found },
        { kind: 'count', place: 'unexplained', ...negated(found) },
      ],
      unexplained: [{ kind: 'count', place: 'bench', ...found }],
      moneyDigits: 2,
    })
    expect(flows.some((row) => row.row === 'counted')).toBe(false)
    const unexplained = flows.find((row) => row.row === 'unexplained')
    expect(unexplained?.places.bench.dryGrams.toFixed()).toBe('-80')
  })
})
