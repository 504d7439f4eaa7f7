import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { SILICA_LIMITS, timeWeightedAverage } from '../../shared/silica.ts'

describe('exposure averaged over eight hours', () => {
  const ROWS = [
    {
      what: 'ppm',
      spells: [
        ['150', '2'],
        ['75', '2'],
        ['50', '4'],
      ],
      average: '81.25',
      source: '29 CFR 1910.1000(d)(1)(ii), up.codes/s/computation-formulae',
      standing: 'seen',
    },
    {
      what: 'mg/m³ of silica',
      spells: [
        ['0.20', '1'],
        ['0.05', '3'],
        ['0.01', '4'],
      ],
      average: '0.04875',
      source: 'the same formula',
      standing: 'computed',
    },
    {
      what: 'mg/m³ in one sampled hour',
      spells: [['0.20', '1']],
      average: '0.025',
      source: 'the same formula, divided by eight for a shorter time too',
      standing: 'computed',
    },
  ]
  test.each(ROWS)('is $average $what ($standing: $source)', ({ spells, average }) => {
    const found = timeWeightedAverage(
      spells.map(([concentration = '', hours = '']) => ({
        concentration: decimal(concentration),
        hours: decimal(hours),
      })),
    )
    expect(found.toFixed()).toBe(average)
  })
})

describe('the limits for silica that we show', () => {
  const PUBLISHED = [
    {
      jurisdiction: 'GB',
      authority: 'Health and Safety Executive',
      name: 'Workplace exposure limit',
      limit: '0.1',
      source: 'agg-net.com; humanfocus.co.uk',
      standing: 'seen',
    },
    {
      jurisdiction: 'US',
      authority: 'OSHA',
      name: 'Permissible exposure limit',
      limit: '0.05',
      source: 'report on the final rule, concreteproducts.com',
      standing: 'second-hand',
    },
    {
      jurisdiction: 'US',
      authority: 'OSHA',
      name: 'Action level',
      limit: '0.025',
      source: 'report on the final rule, concreteproducts.com',
      standing: 'second-hand',
    },
    {
      jurisdiction: 'US',
      authority: 'NIOSH',
      name: 'Recommended exposure limit',
      limit: '0.05',
      source: 'NIOSH Manual of Analytical Methods, ch. R, table 2',
      standing: 'seen',
    },
    {
      jurisdiction: 'US',
      authority: 'ACGIH',
      name: 'Threshold limit value',
      limit: '0.025',
      source: 'uwec.edu/Watershed/enph/silica/Standards.htm',
      standing: 'seen',
    },
    {
      jurisdiction: 'EU',
      authority: 'European Union',
      name: 'Occupational exposure limit',
      limit: '0.1',
      source: 'Directive (EU) 2017/2398, guide.nepsi.eu',
      standing: 'seen',
    },
    {
      jurisdiction: 'AU',
      authority: 'Safe Work Australia',
      name: 'Workplace exposure standard',
      limit: '0.05',
      source: 'safeworkaustralia.gov.au',
      standing: 'seen',
    },
  ]
  test.each(PUBLISHED)('$authority, $name: $limit mg/m³ ($standing: $source)', (row) => {
    const shown = SILICA_LIMITS.filter(
      ({ authority, name }) => authority === row.authority && name === row.name,
    )
    expect(shown).toMatchObject([
      {
        jurisdiction: row.jurisdiction,
        milligramsPerCubicMetre: row.limit,
        standing: row.standing,
      },
    ])
  })

  test('are no others than these, each with its document and date', () => {
    expect(SILICA_LIMITS).toHaveLength(PUBLISHED.length)
    for (const { document, asOf } of SILICA_LIMITS) {
      expect(document).not.toBe('')
      expect(asOf).toMatch(/^\d{4}(-\d{2}){1,2}$/)
    }
  })
})
