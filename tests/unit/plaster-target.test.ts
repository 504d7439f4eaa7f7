import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { plasterTarget } from '../../shared/plaster-target.ts'
import { wallTime, wallWords, wallWordsBeside } from '../../shared/studio-clock.ts'

const target = (ready?: string, tooDry?: string) => {
  const found = plasterTarget({
    readyWaterContentWetBasis: ready === undefined ? undefined : decimal(ready),
    tooDryWaterContentWetBasis: tooDry === undefined ? undefined : decimal(tooDry),
  })
  return [
    found.readyWaterContentWetBasis.toNumber(),
    found.tooDryWaterContentWetBasis.toNumber(),
  ] as const
}

describe('what a studio wants of a slab', () => {
  test('is usual where it says nothing, and its own where it does', () => {
    expect(target()).toEqual([0.225, 0.2])
    expect(target('0.24', '0.19')).toEqual([0.24, 0.19])
    expect(target('0.24')).toEqual([0.24, 0.2])
    expect(target(undefined, '0.21')).toEqual([0.225, 0.21])
  })

  test('never turns the two about where only one is said', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), (thousandths) => {
        const said = (thousandths / 1000).toFixed(3)
        for (const [ready, tooDry] of [target(said), target(undefined, said)]) {
          expect(ready).toBeGreaterThan(tooDry)
          expect(ready).toBeLessThan(1)
          expect(tooDry).toBeGreaterThanOrEqual(0)
        }
      }),
    )
  })
})

describe('a moment by the studio’s clock', () => {
  const summer = new Date('2026-07-01T22:30:29Z')

  test('has the offset of its day', () => {
    expect(wallTime(summer, 'Europe/Paris')).toBe('2026-07-02T00:30:00+02:00')
    expect(wallTime(new Date('2026-01-01T12:00:00Z'), 'Europe/London')).toBe(
      '2026-01-01T12:00:00+00:00',
    )
    expect(wallTime(summer, 'America/St_Johns')).toBe('2026-07-01T20:00:00-02:30')
    expect(Date.parse(wallTime(summer, 'Asia/Kolkata'))).toBe(Date.parse('2026-07-01T22:30:00Z'))
  })

  test('is said shortly, beside one of the same day by the time alone', () => {
    expect(wallWords(summer, 'Europe/Paris')).toBe('Thu 2 Jul 00:30')
    const earlier = new Date('2026-07-01T22:05:00Z')
    expect(wallWordsBeside(earlier, summer, 'Europe/Paris')).toBe('00:05')
    expect(wallWordsBeside(earlier, summer, 'Europe/London')).toBe('23:05')
    const before = new Date('2026-07-01T10:05:00Z')
    expect(wallWordsBeside(before, summer, 'Europe/Paris')).toBe('Wed 1 Jul 12:05')
  })
})
