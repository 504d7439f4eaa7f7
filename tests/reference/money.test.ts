import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { isCurrency, minorUnitDigits, shareOut } from '../../shared/money.ts'

const list = (codes: string) => codes.trim().split(/\s+/)

describe('the largest remainder', () => {
  const equal = (lines: number) => Array.from({ length: lines }, () => '1')
  const ROWS = [
    {
      name: 'ten seats',
      total: '10',
      digits: 0,
      weights: ['47000', '16000', '15900', '12000', '6000', '3100'],
      shares: ['5', '2', '1', '1', '1', '0'],
      source: 'the usual encyclopaedia example of the method of Hare',
      standing: 'from memory',
    },
    {
      name: '100.00 in three',
      total: '100',
      digits: 2,
      weights: equal(3),
      shares: ['33.34', '33.33', '33.33'],
      source: 'ties to the earlier line',
      standing: 'computed',
    },
    {
      name: '100 in seven',
      total: '100',
      digits: 0,
      weights: equal(7),
      shares: ['15', '15', '14', '14', '14', '14', '14'],
      source: 'ties to the earlier line',
      standing: 'computed',
    },
  ]
  test.each(ROWS)('shares $name out as $shares ($standing: $source)', (row) => {
    const shares = shareOut(decimal(row.total), row.weights.map(decimal), row.digits)
    expect(shares.map((share) => share.toFixed())).toEqual(row.shares)
  })
})

describe('the digits of ISO 4217', () => {
  const source = 'ISO 4217 list of 2023-01-01'
  const ROWS = [
    {
      digits: 0,
      codes: 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF',
      source,
      standing: 'seen',
    },
    { digits: 3, codes: 'BHD IQD JOD KWD LYD OMR TND', source, standing: 'seen' },
    { digits: 4, codes: 'CLF UYW', source, standing: 'seen' },
    {
      digits: 2,
      codes: 'GBP EUR USD AUD CAD NZD CHF SEK NOK DKK PLN CZK HUF RON INR CNY BRL MXN ZAR MGA MRU',
      source,
      standing: 'seen',
    },
  ]
  test.each(ROWS)('are $digits for $codes ($standing: $source)', ({ digits, codes }) => {
    for (const code of list(codes)) {
      expect(isCurrency(code), code).toBe(true)
      expect(minorUnitDigits(code), code).toBe(digits)
    }
  })

  // Seen on Node 20.20.2 with ICU 78.2.
  const TRAP = 'AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR SOS SYP YER'

  test('are two for what the runtime writes without, and three for the Iraqi dinar (seen)', () => {
    for (const code of list(TRAP)) expect(minorUnitDigits(code)).toBe(code === 'IQD' ? 3 : 2)
  })

  test('are not what the runtime says', ({ skip }) => {
    const disagreeing = list(TRAP).filter((code) => runtimeDigits(code) !== minorUnitDigits(code))
    skip(disagreeing.length === 0, 'this runtime has the digits of ISO 4217 for all sixteen')
    expect(disagreeing.length).toBeGreaterThan(0)
  })
})

function runtimeDigits(currency: string): number | undefined {
  const format = new Intl.NumberFormat('en', { style: 'currency', currency })
  return format.resolvedOptions().maximumFractionDigits
}
