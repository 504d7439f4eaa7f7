import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { plasterAdvice } from '../../shared/plaster-advice.ts'
import { batThirst, readingWithPlaster, slabWater, whereWaterWent } from '../../shared/plaster.ts'
import {
  castingMinutes,
  castingRate,
  setPlaster,
  waterOfSettingGrams,
} from '../../shared/set-plaster.ts'
import {
  layerMillimetres,
  slurryDensityGramsPerMillilitre,
  waterDensityGramsPerMillilitre,
} from '../../shared/slurry.ts'

describe('what plaster binds and what its pores could hold', () => {
  const source = 'stoichiometry of CaSO4·½H2O + 1½H2O; densities 2.32 and 2.63 from handbooks'
  const standing = 'computed'
  const MIXES = [
    { water: '60', free: '41.382', parts: ['0.4473', '0.3489'], slurry: ['0.4784', '0.3953'] },
    { water: '65', free: '46.382', parts: ['0.4757', '0.3910'], slurry: ['0.5037', '0.4375'] },
    { water: '70', free: '51.382', parts: ['0.5012', '0.4332'], slurry: ['0.5267', '0.4796'] },
    { water: '75', free: '56.382', parts: ['0.5244', '0.4753'], slurry: ['0.5476', '0.5218'] },
    { water: '80', free: '61.382', parts: ['0.5456', '0.5175'], slurry: ['0.5668', '0.5639'] },
    { water: '90', free: '71.382', parts: ['0.5827', '0.6018'], slurry: ['0.6006', '0.6483'] },
  ].map((row) => ({ ...row, source, standing }))
  test.each(MIXES)('$water of water for 100 of plaster ($standing: $source)', (row) => {
    const mix = { waterGramsPerHundredPlaster: decimal(row.water) }
    const figures = (volume: 'of_its_parts' | 'of_the_slurry') => {
      const { porosity, absorptionGramsPerGram } = setPlaster(mix, volume)
      return [porosity.toFixed(4), absorptionGramsPerGram.toFixed(4)]
    }
    expect(setPlaster(mix, 'of_its_parts').freeWaterGrams.toFixed(3)).toBe(row.free)
    expect(figures('of_its_parts')).toEqual(row.parts)
    expect(figures('of_the_slurry')).toEqual(row.slurry)
  })

  test('100 g of plaster bind 18.618038 g and set to 118.618038 g (computed; published 18.6)', () => {
    expect(waterOfSettingGrams(decimal(100)).toFixed(6)).toBe('18.618038')
    const mix = { waterGramsPerHundredPlaster: decimal(70) }
    expect(setPlaster(mix, 'of_its_parts').gypsumGrams.toFixed(6)).toBe('118.618038')
  })
})

describe('the square-root law of casting', () => {
  const source = 'introduction of Ceramics (MDPI, ISSN 2571-6131) 8(1):6, for the law'
  const WALLS = [
    {
      millimetres: '4',
      minutes: '5',
      thicker: '6',
      expected: '11.25',
      source,
      standing: 'computed',
    },
    { millimetres: '4', minutes: '5', thicker: '8', expected: '20', source, standing: 'computed' },
    { millimetres: '3', minutes: '7', thicker: '6', expected: '28', source, standing: 'computed' },
  ]
  test.each(WALLS)(
    '$millimetres mm in $minutes min: $thicker mm in $expected ($standing: $source)',
    (row) => {
      const squareMillimetresPerMinute = castingRate({
        millimetres: decimal(row.millimetres),
        minutes: decimal(row.minutes),
      })
      const found = castingMinutes({
        millimetres: decimal(row.thicker),
        squareMillimetresPerMinute,
      })
      expect(found.toFixed(9)).toBe(decimal(row.expected).toFixed(9))
    },
  )

  test('4 mm in 3 to 6 min is 5.33 to 2.67 mm² a minute (seen: one slip maker)', () => {
    const rate = (minutes: number) =>
      castingRate({ millimetres: decimal(4), minutes: decimal(minutes) }).toFixed(2)
    expect([rate(3), rate(5), rate(6)]).toEqual(['5.33', '3.20', '2.67'])
  })
})

describe('the bat trap: a slab weighed with the plaster that drank its water', () => {
  const source = 'the worked day of the handbook (fictional)'
  const standing = 'computed'
  const pair = readingWithPlaster({
    batDryGrams: decimal(7100),
    clayDryGrams: decimal(3772),
    pairAtFirstGrams: decimal(13_100),
    pairNowGrams: decimal(12_920),
  })
  const slab = slabWater({
    dryGrams: decimal(3772),
    slabGrams: decimal(5050),
    targetWaterContentWetBasis: decimal('0.225'),
  })
  const bat = { dryGrams: decimal(7100), nowGrams: decimal(7870) }
  const went = whereWaterWent({
    pouredGrams: decimal(6000),
    slabGrams: decimal(5050),
    bat,
  })
  const advice = plasterAdvice({ bat, waterToGoGrams: slab.waterToGoGrams, hoursSinceTurned: 6.7 })
  const FIGURES = [
    {
      what: 'what the pair seems to say, % of water',
      found: pair.waterContentWetBasisMax.times(100).toFixed(1),
      expected: '35.2',
      source,
      standing,
    },
    {
      what: 'what the slab alone says, %',
      found: slab.waterContentWetBasis.times(100).toFixed(1),
      expected: '25.3',
      source,
      standing,
    },
    {
      what: 'evaporated by the pair, g',
      found: pair.evaporatedGrams.toFixed(),
      expected: '180',
      source,
      standing,
    },
    {
      what: 'evaporated by slab and bat, g',
      found: went.evaporatedGrams.toFixed(),
      expected: '180',
      source,
      standing,
    },
    {
      what: 'held by the bat, g',
      found: batThirst(bat).holdsGrams.toFixed(),
      expected: '770',
      source,
      standing,
    },
    {
      what: 'ready at, kg',
      found: slab.readyGrams.dividedBy(1000).toFixed(3),
      expected: '4.867',
      source,
      standing,
    },
    {
      what: 'water still to go, kg',
      found: slab.waterToGoGrams.dividedBy(1000).toFixed(2),
      expected: '0.18',
      source,
      standing,
    },
    { what: 'what to do', found: advice.act, expected: 'move_to_dry_bat', source, standing },
  ]
  test.each(FIGURES)('$what: $expected ($standing: $source)', (row) => {
    expect(row.found).toBe(row.expected)
  })
})

describe('the range in which bats are sated', () => {
  const source = 'handbook of the trade: 0.35 to 1 kg for a bat of 7 kg'
  const BATS = [
    { dry: 7000, held: 0, from: '350', to: '1050', source, standing: 'computed' },
    { dry: 7000, held: 200, from: '150', to: '850', source, standing: 'computed' },
    { dry: 7000, held: 700, from: '0', to: '350', source, standing: 'computed' },
    { dry: 7000, held: 1200, from: '0', to: '0', source, standing: 'computed' },
  ]
  test.each(BATS)('$dry g holding $held g: $from to $to g more ($standing: $source)', (row) => {
    const found = batThirst({ dryGrams: decimal(row.dry), nowGrams: decimal(row.dry + row.held) })
    expect(found.drinksStillGramsMin.toFixed()).toBe(row.from)
    expect(found.drinksStillGramsMax.toFixed()).toBe(row.to)
  })
})

describe('how thick a slurry lies on its bat', () => {
  test('6.00 kg of density 1.63 on 32 × 32 cm lie 36 mm thick (computed in the worked day)', () => {
    const densityGramsPerMillilitre = slurryDensityGramsPerMillilitre({
      waterContentWetBasis: decimal('0.37137'),
      waterGramsPerMillilitre: waterDensityGramsPerMillilitre(decimal(20)),
      solidsGramsPerMillilitre: decimal('2.6'),
    })
    expect(densityGramsPerMillilitre.toFixed(2)).toBe('1.63')
    const millimetres = layerMillimetres({
      slurryGrams: decimal(6000),
      densityGramsPerMillilitre,
      lengthMillimetres: decimal(320),
      widthMillimetres: decimal(320),
    })
    expect(millimetres.toFixed(0)).toBe('36')
  })
})
