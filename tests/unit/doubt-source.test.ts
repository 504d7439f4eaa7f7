import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  doubtOfSum,
  doubtRead,
  standardUncertaintyOfDoubt,
  type Doubt,
} from '../../shared/doubt.ts'
import {
  isOfWater,
  kindOfSource,
  MASS_SOURCES,
  moistureSource,
  reasonsUnsure,
  smallOnesMerged,
  SOURCE_WORDS,
  sourceOf,
  WATER_SOURCES,
} from '../../shared/doubt-source.ts'

const INTO = { water: 'merged_water|e|1', mass: 'merged|e|2' }
const merged = (doubt: Doubt) => doubtOfSum([doubt, smallOnesMerged(doubt, INTO)])

/** So many sources of one kind, of 1, 2, 3 ... */
function several(kind: string, count: number): Record<string, string> {
  return Object.fromEntries(
    Array.from({ length: count }, (_, at) => [`${kind}|${at + 1}`, String(at + 1)]),
  )
}

describe('a source', () => {
  test('is of the kind that it begins with, whatever ids are in its name', () => {
    const odd = sourceOf('tare', '400', 'my|bucket|said "a"')
    expect(kindOfSource(odd)).toBe('tare')
    for (const kind of [...WATER_SOURCES, ...MASS_SOURCES]) {
      expect(kindOfSource(sourceOf(kind, 'reading|x'))).toBe(kind)
      expect(SOURCE_WORDS[kind]).not.toBe('')
    }
  })

  test('speaks of water or of mass, and of one of them only', () => {
    expect(WATER_SOURCES.filter((kind) => !isOfWater(sourceOf(kind, 'e')))).toEqual([])
    expect(MASS_SOURCES.filter((kind) => isOfWater(sourceOf(kind, 'e')))).toEqual([])
  })

  test('is one figure for a clay and state under one belief, however its digits were written', () => {
    const of = (water: string, bodyId = 'buff') =>
      moistureSource({
        bodyId,
        state: 'turnings',
        prior: { waterContentWetBasis: decimal(water), standardUncertainty: decimal('0.010') },
      })
    expect(of('0.20')).toBe(of('0.2000'))
    expect(of('0.20')).not.toBe(of('0.21'))
    // An id that looks like another figure's name is not that figure.
    expect(of('0.2', 'x|0.01|buff')).not.toBe(of('0.2', 'buff'))
  })
})

test('the reasons say what weighs most first, sources of a kind together', () => {
  const doubt = doubtRead({ 'reading|1': '3', 'reading|2': '-4', 'moisture|t': '6', 'tare|v': '1' })
  expect(reasonsUnsure(doubt).map((one) => one.standardUncertainty.toFixed())).toEqual([
    '6',
    '5',
    '1',
  ])
  expect(reasonsUnsure(doubt)[1]?.because).toBe('a reading of the scale')
})

describe('small sources', () => {
  test('stay apart up to twelve, and shared ones always', () => {
    expect(smallOnesMerged(doubtRead(several('reading', 12)), INTO).size).toBe(0)
    const shared = { ...several('moisture', 30), ...several('tare', 30), ...several('said', 30) }
    expect(smallOnesMerged(doubtRead(shared), INTO).size).toBe(0)
  })

  test('of thirteen keep the six largest; the others become one of water and one of mass', () => {
    // Readings of 1 to 10 and batches of 1 to 3: kept are 10, 9, 8, 7, 6, 5.
    // Of mass are left 1, 2, 3, 4: root(30). Of water 1, 2, 3: root(14).
    const after = merged(doubtRead({ ...several('reading', 10), ...several('batch', 3) }))
    expect(Object.fromEntries([...after].map(([source, one]) => [source, one.toFixed()]))).toEqual({
      'reading|10': '10',
      'reading|9': '9',
      'reading|8': '8',
      'reading|7': '7',
      'reading|6': '6',
      'reading|5': '5',
      [INTO.mass]: decimal(30).sqrt().toFixed(6),
      [INTO.water]: decimal(14).sqrt().toFixed(6),
    })
  })

  test('leave as much doubt as there was, of water and of mass, and never many sources', () => {
    const sources = fc.dictionary(
      fc
        .constantFrom('reading', 'batch', 'unlike', 'sample', 'moisture')
        .chain((kind) => fc.nat(30).map((at) => `${kind}|${at}`)),
      fc.integer({ min: -9_000_000, max: 9_000_000 }).filter((one) => one !== 0),
      { maxKeys: 60 },
    )
    fc.assert(
      fc.property(sources, (found) => {
        const kept = Object.entries(found).map(([name, one]): [string, string] => [
          name,
          String(one),
        ])
        const doubt = doubtRead(Object.fromEntries(kept))
        const after = merged(doubt)
        for (const ofWater of [true, false]) {
          const of = (all: Doubt) =>
            standardUncertaintyOfDoubt(new Map([...all].filter(([s]) => isOfWater(s) === ofWater)))
          expect(of(after).minus(of(doubt)).abs().lessThan('0.000003')).toBe(true)
        }
        const own = [...after.keys()].filter((source) => kindOfSource(source) !== 'moisture')
        expect(own.length).toBeLessThanOrEqual(12)
      }),
    )
  })
})
