import { describe, expect, test } from 'vitest'
import { ONE, decimal } from '../../shared/decimal.ts'
import { drySolidsInSlurry, slurryWaterContentWetBasis } from '../../shared/slurry.ts'
import { convertedExactly } from '../../shared/units.ts'

interface Slip {
  readonly grams: string
  readonly millilitres: string
  readonly solids: string
  readonly water?: string
}

const contentsOf = (slip: Slip) =>
  drySolidsInSlurry({
    slurryGrams: decimal(slip.grams),
    slurryMillilitres: decimal(slip.millilitres),
    waterGramsPerMillilitre: decimal(slip.water ?? '1'),
    solidsGramsPerMillilitre: decimal(slip.solids),
  })

describe('dry clay in a measured slip', () => {
  const EXAMPLES = [
    {
      grams: '1500',
      millilitres: '1000',
      solids: '2.5',
      dry: '833.333333',
      wet: '666.666667',
      source: 'S. Altmann 1998, potters.org/subject11877.htm',
      standing: 'seen',
    },
    {
      grams: '1750',
      millilitres: '1000',
      solids: '2.5',
      dry: '1250.000000',
      wet: '500.000000',
      source: 'potters.org/subject13664.htm',
      standing: 'seen',
    },
    {
      grams: '150',
      millilitres: '100',
      solids: '2.5',
      dry: '83.333333',
      wet: '66.666667',
      source: 'potters.org/subject13664.htm',
      standing: 'seen',
    },
    {
      grams: '65',
      millilitres: '50',
      solids: '2.5',
      dry: '25.000000',
      wet: '40.000000',
      source: 'potters.org/subject72185.htm, which takes 65 - 50 = 15 by mistake',
      standing: 'seen',
    },
    {
      grams: '1500',
      millilitres: '1000',
      solids: '2.6',
      water: '0.9982',
      dry: '814.508678',
      wet: '685.491322',
      source: 'water at 20 degrees instead of 1 g/mL',
      standing: 'computed',
    },
    {
      grams: '1500',
      millilitres: '1000',
      solids: '2.6',
      dry: '812.500000',
      wet: '687.500000',
      source: 'the same with water at 1 g/mL',
      standing: 'computed',
    },
  ]
  test.each(EXAMPLES)(
    '$grams g in $millilitres mL at $solids: $dry g ($standing: $source)',
    (row) => {
      const found = contentsOf(row)
      expect(found.dryGrams.toFixed(6)).toBe(row.dry)
      expect(found.waterGrams.toFixed(6)).toBe(row.wet)
    },
  )

  test('what the slip weighs above its volume in water is not its clay', () => {
    expect(
      contentsOf({ grams: '65', millilitres: '50', solids: '2.5' }).dryGrams.toFixed(),
    ).not.toBe('15')
  })

  test('14 kg of clay at 1.5 made down to 1.75 give up 5.6 kg of water (seen: potters.org/subject13664.htm)', () => {
    const waterGramsAt = (densityGramsPerMillilitre: string) => {
      const water = slurryWaterContentWetBasis({
        densityGramsPerMillilitre: decimal(densityGramsPerMillilitre),
        waterGramsPerMillilitre: decimal(1),
        solidsGramsPerMillilitre: decimal('2.5'),
      })
      return water.times(14_000).dividedBy(ONE.minus(water))
    }
    expect(waterGramsAt('1.5').toFixed(6)).toBe('11200.000000')
    expect(waterGramsAt('1.75').toFixed(6)).toBe('5600.000000')
  })
})

describe('the look-up table for solids of 2.6', () => {
  const source =
    'Handbook for Australian Potters, quoted in scribd.com/doc/187727916; Brongniart 1854, p. 249'
  const TABLE = [
    { litreGrams: '1050', exact: '81.25', printed: '81', printedMillilitres: '1231' },
    { litreGrams: '1100', exact: '162.5', printed: '162', printedMillilitres: '615' },
    { litreGrams: '1150', exact: '243.75', printed: '244', printedMillilitres: '410' },
    { litreGrams: '1200', exact: '325', printed: '325', printedMillilitres: '308' },
    { litreGrams: '1250', exact: '406.25', printed: '406', printedMillilitres: '246' },
    { litreGrams: '1300', exact: '487.5', printed: '487', printedMillilitres: '205' },
    { litreGrams: '1350', exact: '568.75', printed: '569', printedMillilitres: '176' },
    { litreGrams: '1400', exact: '650', printed: '650', printedMillilitres: '154' },
    { litreGrams: '1450', exact: '731.25', printed: '731', printedMillilitres: '137' },
    { litreGrams: '1500', exact: '812.5', printed: '812', printedMillilitres: '123' },
    { litreGrams: '1550', exact: '893.75', printed: '894', printedMillilitres: '112' },
    { litreGrams: '1600', exact: '975', printed: '975', printedMillilitres: '103' },
    { litreGrams: '1650', exact: '1056.25', printed: '1056', printedMillilitres: '95' },
    { litreGrams: '1700', exact: '1137.5', printed: '1137', printedMillilitres: '88' },
  ].map((row) => ({ ...row, source, standing: 'seen' as const }))

  // The sheet prints whole grams and cuts its halves down, so half a gram is what it leaves open.
  const TOLERANCE = '0.5'

  test.each(TABLE)('a litre of $litreGrams g holds $printed g ($standing: $source)', (row) => {
    const { dryGrams } = contentsOf({ grams: row.litreGrams, millilitres: '1000', solids: '2.6' })
    expect(dryGrams.toFixed()).toBe(row.exact)
    expect(dryGrams.minus(row.printed).abs().lessThanOrEqualTo(TOLERANCE)).toBe(true)
    const holdingHundredGrams = decimal(100_000).dividedBy(dryGrams)
    expect(
      holdingHundredGrams.minus(row.printedMillilitres).abs().lessThanOrEqualTo(TOLERANCE),
    ).toBe(true)
  })
})

describe('in ounces and imperial pints', () => {
  // The rule is one of densities, so ounces and pints go in as they are: a pint of water is 20 oz.
  const source = 'Cardew, Pioneer Pottery, p. 269, quoted in potters.org/subject34220.htm'
  const PINTS = [
    { ounces: '30', solids: '2.5', dry: '16.6667', source, standing: 'computed' },
    { ounces: '32', solids: '2.5', dry: '20.0000', source, standing: 'computed' },
    { ounces: '36', solids: '2.6', dry: '26.0000', source, standing: 'computed' },
    { ounces: '35', solids: '2.6', dry: '24.3750', source, standing: 'computed' },
  ]
  test.each(PINTS)('a pint of $ounces oz at $solids holds $dry oz ($standing: $source)', (row) => {
    const found = drySolidsInSlurry({
      slurryGrams: decimal(row.ounces),
      slurryMillilitres: decimal(1),
      waterGramsPerMillilitre: decimal(20),
      solidsGramsPerMillilitre: decimal(row.solids).times(20),
    })
    expect(found.dryGrams.toFixed(4)).toBe(row.dry)
  })

  const PER_LITRE = [
    {
      pint: 'imperial_pint',
      gramsPerLitre: '49.88818633155085',
      source: 'exact units',
      standing: 'computed',
    },
    {
      pint: 'us_pint',
      gramsPerLitre: '59.91321365844831',
      source: 'exact units',
      standing: 'computed',
    },
  ] as const
  test.each(PER_LITRE)(
    'an ounce in the $pint is $gramsPerLitre g/L ($standing: $source)',
    (row) => {
      const ounceGrams = convertedExactly(decimal(1), 'oz', 'g')
      const pintLitres = convertedExactly(decimal(1), row.pint, 'l')
      expect(ounceGrams.dividedBy(pintLitres).toFixed(14)).toBe(row.gramsPerLitre)
    },
  )
})

describe('water content from density', () => {
  const MIXED = [
    {
      solidsFraction: '0.50',
      density: '1.444444',
      source: '1/SG = x/2.6 + (1 - x)',
      standing: 'computed',
    },
    {
      solidsFraction: '0.65',
      density: '1.666667',
      source: '1/SG = x/2.6 + (1 - x)',
      standing: 'computed',
    },
    {
      solidsFraction: '0.70',
      density: '1.756757',
      source: '1/SG = x/2.6 + (1 - x)',
      standing: 'computed',
    },
  ]
  test.each(MIXED)('a slip of $density is $solidsFraction clay ($standing: $source)', (row) => {
    const water = slurryWaterContentWetBasis({
      densityGramsPerMillilitre: decimal(row.density),
      waterGramsPerMillilitre: decimal(1),
      solidsGramsPerMillilitre: decimal('2.6'),
    })
    // The densities are given to six digits, which leaves the sixth of the fraction open.
    expect(ONE.minus(water).minus(row.solidsFraction).abs().lessThan('1e-6')).toBe(true)
  })
})
