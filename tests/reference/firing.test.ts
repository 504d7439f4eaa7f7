import { describe, expect, test } from 'vitest'
import { ONE, decimal } from '../../shared/decimal.ts'
import {
  firedGramsFrom,
  massFractionLost,
  molarMassGramsPerMole,
  testBarShrinkage,
  totalLinearShrinkage,
  wetLengthForFired,
} from '../../shared/firing.ts'

const KAOLINITE = 'Al2Si2O5(OH)4'
const weights = 'IUPAC abridged standard atomic weights'

const percentLost = (row: { formula: string; substance: string; moles: string }) =>
  massFractionLost({
    formula: row.formula,
    lost: [{ formula: row.substance, moles: decimal(row.moles) }],
  }).times(100)

describe('what the fire takes from a pure mineral', () => {
  const MINERALS = [
    {
      name: 'kaolinite',
      formula: KAOLINITE,
      substance: 'H2O',
      moles: '2',
      percent: '13.956623',
      source: `${weights}; published 13.96`,
      standing: 'computed',
    },
    {
      name: 'calcite',
      formula: 'CaCO3',
      substance: 'CO2',
      moles: '1',
      percent: '43.971185',
      source: `${weights}; published 43.97`,
      standing: 'computed',
    },
    {
      name: 'magnesite',
      formula: 'MgCO3',
      substance: 'CO2',
      moles: '1',
      percent: '52.197170',
      source: weights,
      standing: 'computed',
    },
    {
      name: 'dolomite',
      formula: 'CaMg(CO3)2',
      substance: 'CO2',
      moles: '2',
      percent: '47.732363',
      source: weights,
      standing: 'computed',
    },
    {
      name: 'talc',
      formula: 'Mg3Si4O10(OH)2',
      substance: 'H2O',
      moles: '1',
      percent: '4.750052',
      source: weights,
      standing: 'computed',
    },
    {
      name: 'muscovite',
      formula: 'KAl2(AlSi3O10)(OH)2',
      substance: 'H2O',
      moles: '1',
      percent: '4.522939',
      source: weights,
      standing: 'computed',
    },
    {
      name: 'gibbsite',
      formula: 'Al(OH)3',
      substance: 'H2O',
      moles: '1.5',
      percent: '34.642898',
      source: weights,
      standing: 'computed',
    },
    {
      name: 'slaked lime',
      formula: 'Ca(OH)2',
      substance: 'H2O',
      moles: '1',
      percent: '24.314366',
      source: weights,
      standing: 'computed',
    },
    {
      name: 'gypsum',
      formula: 'CaSO4(H2O)2',
      substance: 'H2O',
      moles: '2',
      percent: '20.927720',
      source: weights,
      standing: 'computed',
    },
    {
      name: 'plaster',
      formula: 'CaSO4(H2O)0.5',
      substance: 'H2O',
      moles: '0.5',
      percent: '6.206013',
      source: weights,
      standing: 'computed',
    },
  ]
  test.each(MINERALS)('$name loses $percent % ($standing: $source)', (row) => {
    expect(percentLost(row).toFixed(6)).toBe(row.percent)
  })

  const OXIDES = [
    {
      formula: KAOLINITE,
      substance: 'SiO2',
      moles: '2',
      percent: '46.547643',
      source: `${weights}; handbooks 46.5`,
      standing: 'computed',
    },
    {
      formula: KAOLINITE,
      substance: 'Al2O3',
      moles: '1',
      percent: '39.495733',
      source: `${weights}; handbooks 39.5`,
      standing: 'computed',
    },
  ]
  test.each(OXIDES)('kaolinite is $percent % $substance ($standing: $source)', (row) => {
    expect(percentLost(row).toFixed(6)).toBe(row.percent)
  })

  test('kaolinite weighs 258.157 g a mole (computed)', () => {
    expect(molarMassGramsPerMole(KAOLINITE).toFixed()).toBe('258.157')
  })

  test('a glaze of 20 whiting and 10 kaolin in a hundred loses 10.1899 % (computed)', () => {
    const whiting = percentLost({ formula: 'CaCO3', substance: 'CO2', moles: '1' })
    const kaolin = percentLost({ formula: KAOLINITE, substance: 'H2O', moles: '2' })
    const lost = whiting.times(20).plus(kaolin.times(10)).dividedBy(100)
    // The row's sixth digit, 10.189898, comes from one rounding more; unrounded it is 10.189899.
    expect(lost.minus('10.189898').abs().lessThan('2e-6')).toBe(true)
  })
})

describe('fired mass', () => {
  const FIRED = [
    {
      dry: '800',
      loss: '0.08',
      fired: '736',
      source: 'dry mass less its loss on ignition',
      standing: 'computed',
    },
    {
      dry: '100',
      loss: '0.105',
      fired: '89.5',
      source: 'a public ball-clay data sheet, loss 10.50 %',
      standing: 'seen',
    },
    {
      dry: '100',
      loss: '0.1329',
      fired: '86.71',
      source: 'a public ball-clay data sheet, loss 13.29 %',
      standing: 'seen',
    },
    {
      dry: '100',
      loss: '0.1670',
      fired: '83.3',
      source: 'a public ball-clay data sheet, loss 16.70 %',
      standing: 'seen',
    },
  ]
  test.each(FIRED)('$dry g losing $loss leave $fired g ($standing: $source)', (row) => {
    const fired = firedGramsFrom({
      dryGrams: decimal(row.dry),
      lossOnIgnitionFraction: decimal(row.loss),
    })
    expect(fired.toFixed()).toBe(row.fired)
  })
})

describe('shrinkage', () => {
  const rule = '1 - (1 - a)(1 - b)'
  const TOTALS = [
    { drying: '0.06', firing: '0.06', total: '0.1164', source: rule, standing: 'computed' },
    { drying: '0.05', firing: '0.07', total: '0.1165', source: rule, standing: 'computed' },
    { drying: '0.065', firing: '0.055', total: '0.116425', source: rule, standing: 'computed' },
    { drying: '0.07', firing: '0.05', total: '0.1165', source: rule, standing: 'computed' },
  ]
  test.each(TOTALS)('$drying and then $firing make $total ($standing: $source)', (row) => {
    const total = totalLinearShrinkage({
      dryingFractionOfWet: decimal(row.drying),
      firingFractionOfDry: decimal(row.firing),
    })
    expect(total.toFixed()).toBe(row.total)
    expect(total.equals(decimal(row.drying).plus(row.firing))).toBe(false)
  })

  const VOLUMES = [
    {
      drying: '0.06',
      firing: '0',
      percent: '16.9416',
      source: '1 - (1 - a)³',
      standing: 'computed',
    },
    {
      drying: '0.06',
      firing: '0.06',
      percent: '31.0130',
      source: '1 - (1 - a)³',
      standing: 'computed',
    },
  ]
  test.each(VOLUMES)(
    '$drying and then $firing take $percent % of the volume ($standing)',
    (row) => {
      const total = totalLinearShrinkage({
        dryingFractionOfWet: decimal(row.drying),
        firingFractionOfDry: decimal(row.firing),
      })
      expect(ONE.minus(ONE.minus(total).pow(3)).times(100).toFixed(4)).toBe(row.percent)
    },
  )

  test('a bar of 100.0, 94.0 and 88.4 mm shrinks 6, 5.957447 and 11.6 % (computed; form of ASTM C326, from memory)', () => {
    const bar = testBarShrinkage({
      plasticMillimetres: decimal('100.0'),
      dryMillimetres: decimal('94.0'),
      firedMillimetres: decimal('88.4'),
    })
    expect(bar.drying.times(100).toFixed(6)).toBe('6.000000')
    expect(bar.firingOnDryLength.times(100).toFixed(6)).toBe('5.957447')
    expect(bar.total.times(100).toFixed(6)).toBe('11.600000')
    const wet = wetLengthForFired({
      firedMillimetres: decimal(100),
      totalFractionOfWet: bar.total,
    })
    expect(wet.toFixed(6)).toBe('113.122172')
  })
})
