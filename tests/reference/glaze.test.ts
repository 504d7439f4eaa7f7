import { describe, expect, test } from 'vitest'
import { decimal, ONE, ZERO } from '../../shared/decimal.ts'
import { NO_DOUBT } from '../../shared/doubt.ts'
import { firedGramsFrom, massFractionLost } from '../../shared/firing.ts'
import { glazeOfDryGrams, glazeOfVolume } from '../../shared/glaze-batch.ts'
import {
  costPerDryGram,
  mixGrainGramsPerMillilitre,
  recipeLossOnIgnition,
} from '../../shared/glaze-recipe.ts'
import {
  bucketRead,
  bucketWater,
  carriedOff,
  glazeUsedFromBucket,
  glazeUsedFromPieces,
} from '../../shared/glaze-used.ts'
import { surely } from '../../shared/how-sure.ts'
import { slurrySaid } from '../../shared/slurry-reading.ts'

const WATER = decimal(1)
const densities = (density: string, solids = '2.6') => ({
  densityGramsPerMillilitre: decimal(density),
  waterGramsPerMillilitre: WATER,
  solidsGramsPerMillilitre: decimal(solids),
})

describe('a common teaching recipe: feldspar 40, silica 30, whiting 20, kaolin 10', () => {
  const whiting = massFractionLost({
    formula: 'CaCO3',
    lost: [{ formula: 'CO2', moles: ONE }],
  })
  const kaolin = massFractionLost({
    formula: 'Al2Si2O5(OH)4',
    lost: [{ formula: 'H2O', moles: decimal(2) }],
  })
  const LOSSES = [
    {
      losses: [ZERO, ZERO, whiting, kaolin],
      // The row it is checked by ends in 98, from one rounding more; unrounded it ends in 99.
      percent: '10.189899',
      fired: '89.810101',
      source: 'theoretical minerals, IUPAC abridged standard atomic weights',
      standing: 'computed',
    },
  ]
  test.each(LOSSES)('loses $percent % in the fire ($standing: $source)', (row) => {
    const recipe = ['40', '30', '20', '10'].map((parts, index) => ({
      parts: decimal(parts),
      lossOnIgnitionFraction: row.losses[index],
    }))
    const { lossOnIgnitionFraction, notKnownFraction } = recipeLossOnIgnition(recipe)
    expect(lossOnIgnitionFraction.times(100).toFixed(6)).toBe(row.percent)
    expect(lossOnIgnitionFraction.times(100).minus('10.189898').abs().lessThan('2e-6')).toBe(true)
    expect(notKnownFraction.toFixed()).toBe('0')
    expect(firedGramsFrom({ dryGrams: decimal(100), lossOnIgnitionFraction }).toFixed(6)).toBe(
      row.fired,
    )
  })

  const GRAINS = [
    {
      grains: ['2.6', '2.65', '2.7', '2.6'],
      // 40/2.6 + 30/2.65 + 20/2.7 + 10/2.6 = 37.958930 mL for 100 g.
      mixed: '2.634426',
      source: 'volumes add; grain densities of scribd.com/doc/187727916',
      standing: 'computed',
    },
    {
      grains: ['2.6', '2.6', '2.6', '2.6'],
      mixed: '2.600000',
      source: 'a mix of equal grains is as its grains',
      standing: 'computed',
    },
  ]
  test.each(GRAINS)('has grains of $mixed g/mL ($standing: $source)', (row) => {
    const recipe = ['40', '30', '20', '10'].map((parts, index) => ({
      parts: decimal(parts),
      grainGramsPerMillilitre: decimal(row.grains[index] ?? '1'),
    }))
    expect(mixGrainGramsPerMillilitre(recipe).toFixed(6)).toBe(row.mixed)
  })
})

describe('a litre of glaze with grains of 2.6, by the look-up table', () => {
  const source =
    'Handbook for Australian Potters, quoted in scribd.com/doc/187727916; Brongniart 1854, p. 249'
  const TABLE = [
    { litreGrams: '1400', exact: '650', printed: '650' },
    { litreGrams: '1450', exact: '731.25', printed: '731' },
    { litreGrams: '1500', exact: '812.5', printed: '812' },
    { litreGrams: '1550', exact: '893.75', printed: '894' },
    { litreGrams: '1600', exact: '975', printed: '975' },
  ].map((row) => ({ ...row, source, standing: 'seen' as const }))
  test.each(TABLE)('of $litreGrams g takes $printed g dry ($standing: $source)', (row) => {
    const density = decimal(row.litreGrams).dividedBy(1000).toFixed()
    const litre = glazeOfVolume(decimal(1000), densities(density))
    expect(litre.dryGrams.toFixed()).toBe(row.exact)
    expect(litre.dryGrams.minus(row.printed).abs().lessThanOrEqualTo('0.5')).toBe(true)
    expect(litre.slurryGrams.toFixed()).toBe(row.litreGrams)
    expect(litre.waterGrams.plus(litre.dryGrams).equals(litre.slurryGrams)).toBe(true)
    const back = glazeOfDryGrams(litre.dryGrams, densities(density))
    expect(back.millilitres.toFixed(3)).toBe('1000.000')
  })
})

describe('water that so much dry wants', () => {
  const source = 'potters.org/subject13664.htm'
  const MADE_DOWN = [
    { dry: '14000', density: '1.5', water: '11200.000000', source, standing: 'seen' },
    { dry: '14000', density: '1.75', water: '5600.000000', source, standing: 'seen' },
  ]
  test.each(MADE_DOWN)('$dry g at $density: $water g ($standing: $source)', (row) => {
    const glaze = glazeOfDryGrams(decimal(row.dry), densities(row.density, '2.5'))
    expect(glaze.waterGrams.toFixed(6)).toBe(row.water)
  })
})

describe('the jugs of a worked day', () => {
  const DAY = [
    {
      density: '1.45',
      before: '18600',
      after: '16000',
      solidsPercent: '50.4',
      usedKilograms: '1.311',
      bisque: '15200',
      glazed: '16480',
      jugs: '16',
      onJug: '80',
      washedKilograms: '0.031',
      source: 'our own made-up day, with grains of 2.6',
      standing: 'computed',
    },
  ]
  test.each(DAY)('$usedKilograms kg of dry glaze left the bucket ($standing: $source)', (row) => {
    const said = slurrySaid(
      {
        netGrams: decimal(row.density).times(1000),
        netDoubt: NO_DOUBT,
        millilitres: decimal(1000),
        jugSource: 'jug|a|1',
      },
      {
        waterGramsPerMillilitre: WATER,
        solidsGramsPerMillilitre: decimal('2.6'),
        grainSource: 'grain|a|1',
      },
    )
    expect(ONE.minus(said.waterContentWetBasis).times(100).toFixed(1)).toBe(row.solidsPercent)
    const before = bucketRead(said, { netGrams: decimal(row.before), netDoubt: NO_DOUBT })
    const after = bucketRead(said, { netGrams: decimal(row.after), netDoubt: NO_DOUBT })
    const used = glazeUsedFromBucket({ before, after })
    expect(used.dry.amount.dividedBy(1000).toFixed(3)).toBe(row.usedKilograms)
    expect(bucketWater({ before, after })?.goneGrams.amount.abs().lessThan('0.001')).toBe(true)

    const onPots = glazeUsedFromPieces({
      beforeGrams: surely(decimal(row.bisque)),
      glazedGrams: surely(decimal(row.glazed)),
    })
    expect(onPots.dry.amount.dividedBy(row.jugs).toFixed()).toBe(row.onJug)
    const washed = carriedOff({ fromBucket: used.dry, onPots: onPots.dry })
    expect(washed.dry.amount.dividedBy(1000).toFixed(3)).toBe(row.washedKilograms)
  })
})

describe('what a gram costs is not rounded between steps', () => {
  // 3 left at 150 and 8 bought at 170; of these 6 left, and 6 bought at 185.
  const source = 'transtutors.com help-anyone-125203, which rounds to 164.55 and 174.775'
  const STOCKS = [
    { left: '3', at: '150', bought: '8', for: '170', average: '164.545455' },
    { left: '6', at: '164.545454545454545454', bought: '6', for: '185', average: '174.772727' },
  ].map((row) => ({ ...row, source, standing: 'seen' as const }))
  test.each(STOCKS)('$left and $bought make $average each ($standing: $source)', (row) => {
    const cost = decimal(row.left).times(row.at).plus(decimal(row.bought).times(row.for))
    const dryGrams = decimal(row.left).plus(row.bought)
    expect(costPerDryGram({ cost, dryGrams })?.toFixed(6)).toBe(row.average)
  })
})
