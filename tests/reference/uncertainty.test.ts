import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { labelUncertaintyGrams, readingUncertaintyGrams } from '../../shared/reading.ts'

describe('the uncertainty that a scale leaves', () => {
  const ROWS = [
    {
      division: '1',
      readings: 1,
      expected: '0.2886751346',
      source: 'GUM, JCGM 100:2008, F.2.2.1',
      standing: 'from memory',
    },
    {
      division: '1',
      readings: 2,
      expected: '0.4082482905',
      source: 'the same, in quadrature',
      standing: 'computed',
    },
    {
      division: '5',
      readings: 2,
      expected: '2.0412414523',
      source: 'the same, in quadrature',
      standing: 'computed',
    },
  ] as const
  test.each(ROWS)('$readings of division $division: $expected g ($standing: $source)', (row) => {
    const found = readingUncertaintyGrams({
      divisionGrams: decimal(row.division),
      readings: row.readings,
    })
    expect(found.toFixed(10)).toBe(row.expected)
  })

  test('two readings within 0.15 mg of the truth: 0.122474 mg (from memory: EURACHEM/CITAC QUAM, ex. A2)', () => {
    // Within 0.15 mg to either side is a division of 0.30 mg. The guide prints 0.13, from 0.09.
    const found = readingUncertaintyGrams({ divisionGrams: decimal('0.30'), readings: 2 })
    expect(found.toFixed(6)).toBe('0.122474')
  })
})

test('what lies within 0.40 of a millionth: 0.2309401 (from memory: GUM, JCGM 100:2008, 4.3.7, ex. 1)', () => {
  // One per cent of forty is the guide's half-width.
  expect(labelUncertaintyGrams(decimal(40)).toFixed(7)).toBe('0.2309401')
})
