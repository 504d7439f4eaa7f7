import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { doubtRead, NO_DOUBT, standardUncertaintyOfDoubt } from '../../shared/doubt.ts'
import {
  bucketRead,
  bucketWater,
  bucketWithAdded,
  carriedOff,
  glazeUsedFromBucket,
  glazeUsedFromPieces,
  type BucketContents,
} from '../../shared/glaze-used.ts'
import { surely } from '../../shared/how-sure.ts'
import { slurrySaid } from '../../shared/slurry-reading.ts'

const GRAINS = {
  waterGramsPerMillilitre: decimal(1),
  solidsGramsPerMillilitre: decimal('2.6'),
  grainSource: 'grain|2.6|clear',
}

/** A bucket of so many grams whose litre weighs so many, each read within a gram or five. */
function read(
  netGrams: string,
  litreGrams: string,
  by: { readonly entry: string; readonly jugSource?: string } = { entry: 'e' },
): BucketContents {
  const said = slurrySaid(
    {
      netGrams: decimal(litreGrams),
      netDoubt: doubtRead({ [`reading|${by.entry}|1`]: '1' }),
      millilitres: decimal(1000),
      jugSource: by.jugSource ?? `jug|${by.entry}|1`,
    },
    GRAINS,
  )
  return bucketRead(said, {
    netGrams: decimal(netGrams),
    netDoubt: doubtRead({ [`reading|${by.entry}|2`]: '5', 'tare|900|bucket': '-3' }),
  })
}
const sure = (dryGrams: string, waterGrams: string): BucketContents => ({
  dry: surely(decimal(dryGrams)),
  water: surely(decimal(waterGrams)),
})

describe('a bucket as it is read', () => {
  const bucket = read('14500', '1450')

  test('dry and water make up its weight, and so does what makes them unsure', () => {
    expect(bucket.dry.amount.toFixed(3)).toBe('7312.500')
    expect(bucket.dry.amount.plus(bucket.water.amount).toFixed()).toBe('14500')
    for (const [source, whole] of Object.entries({ 'reading|e|2': 5, 'grain|2.6|clear': 0 })) {
      const both = (bucket.dry.doubt.get(source) ?? ZERO).plus(
        bucket.water.doubt.get(source) ?? ZERO,
      )
      expect(both.toNumber()).toBeCloseTo(whole, 9)
    }
  })
})

describe('glaze used, by the bucket', () => {
  test('what cannot be told apart of two readings cancels: the grains, and most of the tare', () => {
    const before = read('18600', '1450', { entry: 'a' })
    const after = read('16000', '1450', { entry: 'b' })
    const { dry, standing, words } = glazeUsedFromBucket({ before, after })
    expect(dry.amount.toFixed(1)).toBe('1311.2')
    const grain = (bucket: BucketContents) => bucket.dry.doubt.get('grain|2.6|clear') ?? ZERO
    expect(dry.doubt.get('grain|2.6|clear')?.equals(grain(before).minus(grain(after)))).toBe(true)
    expect(dry.doubt.get('tare|900|bucket')).toBeUndefined()
    // A jug filled within one per cent leaves 1.12 points of water open: 208 g of the one bucket and 179 of
    // the other, 275 together.
    expect(standardUncertaintyOfDoubt(dry.doubt).toNumber()).toBeCloseTo(275, -1)
    expect(standing).toBe('used')
    expect(words).toBe('By the bucket, before and after.')
  })

  test('the same jug filled to the same line makes both readings off alike, and cancels with them', () => {
    const before = read('18600', '1450', { entry: 'a', jugSource: 'jug|line' })
    const after = read('16000', '1450', { entry: 'b', jugSource: 'jug|line' })
    const { dry } = glazeUsedFromBucket({ before, after })
    // 2600 g times 1.12 points.
    expect(dry.doubt.get('jug|line')?.toNumber()).toBeCloseTo(-29.1, 1)
    expect(standardUncertaintyOfDoubt(dry.doubt).toNumber()).toBeLessThan(45)
  })

  test('by the books before and a reading after', () => {
    const before = { dry: { amount: decimal(9000), doubt: doubtRead({ 'said|x': '100' }) } }
    const { dry } = glazeUsedFromBucket({ before, after: read('14500', '1450') })
    expect(dry.amount.toFixed(3)).toBe('1687.500')
    expect(dry.doubt.get('said|x')?.toFixed()).toBe('100')
  })

  test('too little to tell', () => {
    const bucket = (dryGrams: string, source: string) => ({
      dry: { amount: decimal(dryGrams), doubt: doubtRead({ [source]: '20' }) },
    })
    const used = glazeUsedFromBucket({ before: bucket('1030', 'a'), after: bucket('1000', 'b') })
    expect(used.standing).toBe('not_distinguishable')
    expect(used.words).toBe('Too little for these readings: it may as well be none.')
  })

  test('more than before is told, not hidden', () => {
    const used = glazeUsedFromBucket({ before: sure('1000', '0'), after: sure('1200', '0') })
    expect(used.standing).toBe('more_than_before')
    expect(used.dry.amount.toFixed()).toBe('-200')
    expect(used.words).toContain('Tell what was put in')
  })

  test('what was put in between counts as if it had been there before', () => {
    const before = bucketWithAdded(sure('1000', '900'), sure('500', '450'))
    const used = glazeUsedFromBucket({ before, after: sure('1200', '1080') })
    expect(used.dry.amount.toFixed()).toBe('300')
  })
})

describe('glaze used, by the pots', () => {
  test('16 jugs of 15.20 kg weigh 16.48 with their glaze: the tare of the board cancels', () => {
    const weighed = (grams: string, entry: string) => ({
      amount: decimal(grams),
      doubt: doubtRead({ [`reading|${entry}`]: '3', 'tare|2100|board': '-10' }),
    })
    const used = glazeUsedFromPieces({
      beforeGrams: weighed('15200', 'a'),
      glazedGrams: weighed('16480', 'b'),
    })
    expect(used.dry.amount.toFixed()).toBe('1280')
    expect(standardUncertaintyOfDoubt(used.dry.doubt).toFixed(3)).toBe('4.243')
    expect(used.standing).toBe('used')
  })

  test('pots that weigh less with glaze were damp before', () => {
    const used = glazeUsedFromPieces({
      beforeGrams: surely(decimal(15_600)),
      glazedGrams: surely(decimal(15_500)),
    })
    expect(used.standing).toBe('more_than_before')
    expect(used.words).toContain('damp before')
  })
})

describe('water that came or went by itself', () => {
  test('none where a bucket is only dipped from', () => {
    const water = bucketWater({ before: sure('2000', '1800'), after: sure('1000', '900') })
    expect(water?.goneGrams.amount.toFixed()).toBe('0')
    expect(water?.byWeightAloneOffGrams.toFixed()).toBe('0')
    expect(water?.words).toBe('No water to speak of came or went by itself.')
  })

  test('where nothing was dipped, all that is gone dried off, and the weight alone would call it glaze', () => {
    const water = bucketWater({ before: sure('1000', '1200'), after: sure('1000', '1000') })
    expect(water?.goneGrams.amount.toFixed()).toBe('200')
    expect(water?.asFirstReadGrams.toFixed()).toBe('200')
    expect(water?.asLastReadGrams.toFixed()).toBe('200')
    // 200 g lighter, half of it glaze: 100 g that nobody used.
    expect(water?.byWeightAloneDryGrams.toFixed()).toBe('100')
    expect(water?.byWeightAloneOffGrams.toFixed()).toBe('100')
    expect(water?.words).toBe('About 200 g of water dried off.')
  })

  test('water that was added hides glaze that was used', () => {
    // 300 g of glaze left with 270 g of water, and 570 g were topped up: the bucket weighs as before.
    const water = bucketWater({ before: sure('1000', '900'), after: sure('700', '1200') })
    expect(water?.byWeightAloneDryGrams.toFixed()).toBe('0')
    expect(water?.byWeightAloneOffGrams.toFixed()).toBe('-300')
    expect(water?.asFirstReadGrams.toFixed()).toBe('-570')
    expect(water?.goneGrams.amount.isNegative()).toBe(true)
    expect(water?.words).toMatch(/^About \d+ g of water was added\.$/)
  })

  test('is not told of an empty bucket', () => {
    expect(bucketWater({ before: sure('1000', '900'), after: sure('0', '0') })).toBeUndefined()
  })

  test('adds up whatever happened first: dipping, or drying', () => {
    const grams = fc.integer({ min: 200, max: 20_000 })
    const share = fc.integer({ min: 1, max: 900 }).map((one) => decimal(one).dividedBy(1000))
    fc.assert(
      fc.property(grams, grams, fc.tuple(share, share), (dry, wet, [dipped, dried]) => {
        const [dryGrams, waterGrams] = [decimal(dry), decimal(wet)]
        const kept = decimal(1).minus(dipped)
        const gone = waterGrams.times(kept).times(dried)
        const before = sure(dryGrams.toFixed(), waterGrams.toFixed())
        const after = {
          dry: surely(dryGrams.times(kept)),
          water: surely(waterGrams.times(kept).minus(gone)),
        }
        const dippedFirst = bucketWater({ before, after })
        expect(dippedFirst?.asFirstReadGrams.minus(gone).abs().lessThan('2e-6')).toBe(true)
        // The same end, had it dried before: that much more of it, because the bucket was fuller.
        const driedFirst = dippedFirst?.asLastReadGrams ?? ZERO
        expect(driedFirst.minus(gone.dividedBy(kept)).abs().lessThan('2e-6')).toBe(true)
      }),
    )
  })

  test('is as unsure as its four amounts make it', () => {
    const at = (by: Partial<Record<'d0' | 'w0' | 'd1' | 'w1', number>>) =>
      bucketWater({
        before: {
          dry: surely(decimal(1000 + (by.d0 ?? 0))),
          water: surely(decimal(1200 + (by.w0 ?? 0))),
        },
        after: {
          dry: surely(decimal(700 + (by.d1 ?? 0))),
          water: surely(decimal(600 + (by.w1 ?? 0))),
        },
      })?.goneGrams.amount ?? ZERO
    const doubted = (amount: number, source: string) => ({
      ...{ amount: decimal(amount), doubt: doubtRead({ [source]: '1' }) },
    })
    const { doubt } = bucketWater({
      before: { dry: doubted(1000, 'd0'), water: doubted(1200, 'w0') },
      after: { dry: doubted(700, 'd1'), water: doubted(600, 'w1') },
    })?.goneGrams ?? { doubt: NO_DOUBT }
    for (const source of ['d0', 'w0', 'd1', 'w1']) {
      const slope = at({ [source]: 0.01 })
        .minus(at({ [source]: -0.01 }))
        .dividedBy('0.02')
      expect(doubt.get(source)?.toNumber()).toBeCloseTo(slope.toNumber(), 3)
    }
  })
})

describe('what was carried off', () => {
  const amount = (grams: string, source: string, uncertainty: string) => ({
    amount: decimal(grams),
    doubt: doubtRead({ [source]: uncertainty }),
  })

  test('is what left the bucket and is not on the pots', () => {
    const found = carriedOff({
      fromBucket: amount('1312', 'a', '3'),
      onPots: amount('1280', 'b', '4'),
    })
    expect(found.dry.amount.toFixed()).toBe('32')
    expect(found.fractionOfPots.toFixed()).toBe('0.025')
    expect(found.words).toBe(
      'Carried off to sieve, rag and wash bucket: 32 g of dry glaze, 2.5 % of what is on the pots.',
    )
  })

  test('is not told apart from nothing by rough readings', () => {
    const found = carriedOff({
      fromBucket: amount('1312', 'a', '30'),
      onPots: amount('1280', 'b', '4'),
    })
    expect(found.words).toBe('What was carried off is too little for these readings.')
  })

  test('below nothing it is a pot that was not dry', () => {
    const found = carriedOff({
      fromBucket: amount('1200', 'a', '3'),
      onPots: amount('1280', 'b', '4'),
    })
    expect(found.words).toContain('80 g more than left the bucket')
  })
})
