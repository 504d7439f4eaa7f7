import { describe, expect, test } from 'vitest'
import { COUNTRIES, countryOf } from '../../shared/countries.ts'
import { isCurrency } from '../../shared/money.ts'

describe('what is usual in a country', () => {
  test.each(COUNTRIES)('$name has money that circulates and a clock that there is', (country) => {
    expect(country.code).toMatch(/^[A-Z]{2}$/)
    expect(isCurrency(country.currency)).toBe(true)
    const { timeZone } = country
    if (timeZone !== undefined) {
      expect(() => new Intl.DateTimeFormat('en', { timeZone })).not.toThrow()
    }
  })

  test('each stands once, in the order of names', () => {
    const names = COUNTRIES.map(({ name }) => name)
    expect(names).toEqual([...names].sort(new Intl.Collator('en').compare))
    expect(new Set(COUNTRIES.map(({ code }) => code)).size).toBe(COUNTRIES.length)
  })

  test('its code and its name belong together, as the runtime knows them', () => {
    const known = new Intl.DisplayNames('en-GB', { type: 'region' })
    for (const { code, name } of COUNTRIES) expect(known.of(code)).toBe(name)
  })

  test('twenty-seven are in the European Union, and three have limits of their own here', () => {
    const of = (jurisdiction: string) =>
      COUNTRIES.filter((one) => one.jurisdiction === jurisdiction).map(({ code }) => code)
    expect(of('EU')).toHaveLength(27)
    expect([of('GB'), of('US'), of('AU')]).toEqual([['GB'], ['US'], ['AU']])
  })

  test('two that differ in everything', () => {
    expect(countryOf('US')).toMatchObject({
      currency: 'USD',
      timeZone: undefined,
      massUnits: 'pounds_ounces',
      dateOrder: 'month_day_year',
      tradeWords: 'US',
      jurisdiction: 'US',
    })
    expect(countryOf('IE')).toMatchObject({
      currency: 'EUR',
      timeZone: 'Europe/Dublin',
      massUnits: 'metric',
      dateOrder: 'day_month_year',
      tradeWords: 'UK',
      jurisdiction: 'EU',
    })
    expect(countryOf('XX')).toBeUndefined()
  })
})
