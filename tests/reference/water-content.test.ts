import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { NO_DOUBT } from '../../shared/doubt.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import { DEFAULT_MOISTURE } from '../../shared/moisture.ts'
import {
  dryBasisFromWetBasis,
  waterContentOfSample,
  wetBasisFromDryBasis,
} from '../../shared/water.ts'
import type { Cited } from './cited.ts'

const REPORT = 'student laboratory report, scribd.com/document/532149593'
const ANSWER = 'worked answer on moisture content from a table, askfilo.com'

interface Tin extends Cited {
  readonly tin: string
  readonly wet: string
  readonly dry: string
  readonly waterGrams: string
  readonly dryGrams: string
  readonly dryBasisPercent: string
}

const TINS: readonly Tin[] = [
  {
    tin: '17.31',
    wet: '43.52',
    dry: '39.86',
    waterGrams: '3.66',
    dryGrams: '22.55',
    dryBasisPercent: '16.230599',
    source: REPORT,
    standing: 'seen',
  },
  {
    tin: '18.92',
    wet: '52.19',
    dry: '47.61',
    waterGrams: '4.58',
    dryGrams: '28.69',
    dryBasisPercent: '15.963750',
    source: REPORT,
    standing: 'seen',
  },
  {
    tin: '16.07',
    wet: '39.43',
    dry: '36.13',
    waterGrams: '3.3',
    dryGrams: '20.06',
    dryBasisPercent: '16.450648',
    source: REPORT,
    standing: 'seen',
  },
  {
    tin: '28.3',
    wet: '33.4',
    dry: '32.5',
    waterGrams: '0.9',
    dryGrams: '4.2',
    dryBasisPercent: '21.428571',
    source: ANSWER,
    standing: 'seen',
  },
  {
    tin: '28.4',
    wet: '32.3',
    dry: '31.6',
    waterGrams: '0.7',
    dryGrams: '3.2',
    dryBasisPercent: '21.875000',
    source: ANSWER,
    standing: 'seen',
  },
  {
    tin: '28.4',
    wet: '32.5',
    dry: '32.0',
    waterGrams: '0.5',
    dryGrams: '3.6',
    dryBasisPercent: '13.888889',
    source: ANSWER,
    standing: 'seen',
  },
  {
    tin: '28.2',
    wet: '36.7',
    dry: '35.5',
    waterGrams: '1.2',
    dryGrams: '7.3',
    dryBasisPercent: '16.438356',
    source: ANSWER,
    standing: 'seen',
  },
  {
    tin: '28.2',
    wet: '34.9',
    dry: '34.0',
    waterGrams: '0.9',
    dryGrams: '5.8',
    dryBasisPercent: '15.517241',
    source: ANSWER,
    standing: 'seen',
  },
]

const contentsOf = (row: Pick<Tin, 'tin' | 'wet' | 'dry'>) =>
  waterContentOfSample({
    tinGrams: decimal(row.tin),
    wetWithTinGrams: decimal(row.wet),
    dryWithTinGrams: decimal(row.dry),
  })

describe('water content of dried samples', () => {
  test.each(TINS)(
    'tin $tin, wet $wet, dry $dry: $dryBasisPercent % ($standing: $source)',
    (row) => {
      const found = contentsOf(row)
      expect(found.waterGrams.toFixed()).toBe(row.waterGrams)
      expect(found.dryGrams.toFixed()).toBe(row.dryGrams)
      expect(found.waterContentDryBasis.times(100).toFixed(6)).toBe(row.dryBasisPercent)
    },
  )

  const WET_BASIS = [
    { ...TINS[0]!, wetBasisPercent: '13.964136', standing: 'computed' },
    { ...TINS[1]!, wetBasisPercent: '13.766156', standing: 'computed' },
    { ...TINS[2]!, wetBasisPercent: '14.126712', standing: 'computed' },
  ]
  test.each(WET_BASIS)('tin $tin on the wet basis: $wetBasisPercent % ($standing)', (row) => {
    expect(contentsOf(row).waterContentWetBasis.times(100).toFixed(6)).toBe(row.wetBasisPercent)
  })

  test('the mean of the first three tins is 16.214999 %, where the report prints 16.42', () => {
    const sum = TINS.slice(0, 3).reduce(
      (total, row) => total.plus(contentsOf(row).waterContentDryBasis),
      decimal(0),
    )
    expect(sum.times(100).dividedBy(3).toFixed(6)).toBe('16.214999')
  })
})

describe('from one basis to the other', () => {
  const definition = 'm = w / (1 + w) and w = m / (1 - m)'
  const TO_WET = [
    { dryBasis: '0.20', wetBasisPercent: '16.6667', source: definition, standing: 'computed' },
    { dryBasis: '0.25', wetBasisPercent: '20.0000', source: definition, standing: 'computed' },
    { dryBasis: '0.30', wetBasisPercent: '23.0769', source: definition, standing: 'computed' },
    { dryBasis: '1.00', wetBasisPercent: '50.0000', source: definition, standing: 'computed' },
  ]
  test.each(TO_WET)('$dryBasis of the dry is $wetBasisPercent % of the wet ($standing)', (row) => {
    const found = wetBasisFromDryBasis(decimal(row.dryBasis))
    expect(found.times(100).toFixed(4)).toBe(row.wetBasisPercent)
  })

  const TO_DRY = [
    { wetBasis: '0.18', dryBasisPercent: '21.9512', source: definition, standing: 'computed' },
    { wetBasis: '0.20', dryBasisPercent: '25.0000', source: definition, standing: 'computed' },
    { wetBasis: '0.22', dryBasisPercent: '28.2051', source: definition, standing: 'computed' },
    { wetBasis: '0.25', dryBasisPercent: '33.3333', source: definition, standing: 'computed' },
  ]
  test.each(TO_DRY)('$wetBasis of the wet is $dryBasisPercent % of the dry ($standing)', (row) => {
    const found = dryBasisFromWetBasis(decimal(row.wetBasis))
    expect(found.times(100).toFixed(4)).toBe(row.dryBasisPercent)
  })

  test('130 g of water at 20 % of the wet mass come with 520 g of dry clay (computed; problem: tutorbin.com)', () => {
    const found = dryMassFromWet({
      netGrams: decimal(650),
      netDoubt: NO_DOUBT,
      waterContentWetBasis: decimal('0.2'),
      waterDoubt: NO_DOUBT,
      method: 'stated_water_content',
      standing: 'assumed',
    })
    expect(found.waterGrams.toFixed()).toBe('130')
    expect(found.dryGrams.toFixed()).toBe('520')
    expect(found.waterGrams.dividedBy(found.dryGrams).toFixed()).toBe('0.25')
  })
})

describe('our defaults for clay that can be thrown', () => {
  const RANGES = [
    {
      what: 'water of plasticity of kaolinite',
      low: '8.9',
      high: '56.3',
      source: 'Grim, Applied Clay Mineralogy (1962), after White 1949',
      standing: 'from memory',
    },
    {
      what: 'plastic to liquid limit of kaolinites',
      low: '25',
      high: '110',
      source: 'Mitchell, Fundamentals of Soil Behavior',
      standing: 'from memory',
    },
  ]
  test.each(RANGES)('lie within the $what ($standing: $source)', ({ low, high }) => {
    for (const state of ['as_delivered', 'wedged', 'off_cuts'] as const) {
      const percent = dryBasisFromWetBasis(DEFAULT_MOISTURE[state].waterContentWetBasis).times(100)
      expect(percent.greaterThan(low) && percent.lessThan(high), state).toBe(true)
    }
  })
})
