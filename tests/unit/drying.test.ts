import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  contradictionIn,
  hoursToWaterContent,
  slabGramsAfter,
  waterContentWetBasisAfter,
  type DryingLoad,
  type SlabTruth,
  type SlabWeighIn,
} from '../../shared/drying-load.ts'
import { hoursToMoistureRatio, moistureRatio } from '../../shared/drying-models.ts'
import { BROAD_DRYING_PRIOR, dryingPriorFrom, type PastLoad } from '../../shared/drying-prior.ts'
import { forecastDrying, type DryingQuestion } from '../../shared/drying.ts'
import { Refusal } from '../../shared/refusal.ts'

/** The slab on bat B of the worked day: 3.772 kg of dry clay, poured as 6.00 kg. */
const load: DryingLoad = {
  dryGrams: { value: 3772, standardUncertainty: 15 },
  pouredGrams: { value: 6000, standardUncertainty: 3 },
  thicknessMillimetres: 36,
}
const weighed = (hours: number, slabGrams: number): SlabWeighIn => ({
  hours,
  slabGrams,
  standardUncertaintyGrams: 3,
})
const truthOf = (rateConstant: number, exponent = 1): SlabTruth => ({
  dryGrams: 3772,
  pouredGrams: 6000,
  equilibriumWaterContentDryBasis: 0.02,
  shape: { rateConstant, exponent },
  offCurve: 0,
})
const pastLoad = (rateConstant: number, exponent = 1): PastLoad => {
  const truth = truthOf(rateConstant, exponent)
  const ready = hoursToWaterContent(truth, 0.225)
  return {
    load,
    weighIns: [0.3, 0.6, 1].map((share) =>
      weighed(share * ready, slabGramsAfter(truth, share * ready)),
    ),
  }
}
const asked = (more: Partial<DryingQuestion>): DryingQuestion => ({
  load,
  weighIns: [],
  prior: BROAD_DRYING_PRIOR,
  targetWaterContentWetBasis: 0.225,
  tooDryWaterContentWetBasis: 0.19,
  nowHours: 100,
  ...more,
})
const whyNot = (question: DryingQuestion): string | undefined => {
  try {
    forecastDrying(question)
    return undefined
  } catch (error) {
    if (error instanceof Refusal) return `${error.code}: ${error.facts['why'] ?? ''}`
    throw error
  }
}

describe('a slab that follows a law', () => {
  test('has at each water content the time at which it gets there', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        fc.double({ min: 0.5, max: 1.5, noNaN: true }),
        fc.double({ min: 0.1, max: 0.35, noNaN: true }),
        (rateConstant, exponent, waterContent) => {
          const truth = truthOf(rateConstant, exponent)
          const hours = hoursToWaterContent(truth, waterContent)
          expect(waterContentWetBasisAfter(truth, hours)).toBeCloseTo(waterContent, 9)
        },
      ),
    )
  })

  test('is ready at once if it was poured so, and never drier than its rest', () => {
    expect(hoursToWaterContent(truthOf(0.1), 0.5)).toBe(0)
    expect(hoursToWaterContent(truthOf(0.1), 0.01)).toBe(Number.POSITIVE_INFINITY)
    expect(hoursToMoistureRatio({ rateConstant: 0.1, exponent: 1 }, 0)).toBe(Infinity)
  })

  test('never dries where it was poured drier than it comes to rest', () => {
    const damp = { ...truthOf(0.1), pouredGrams: 3800 }
    expect(hoursToWaterContent(damp, 0.001)).toBe(Number.POSITIVE_INFINITY)
    expect(hoursToWaterContent({ ...damp, pouredGrams: 3772 * 1.02 }, 0.001)).toBe(Infinity)
  })

  test('has a moisture ratio from one down to nothing', () => {
    const water = { atFirstDryBasis: 0.6, atRestDryBasis: 0.02 }
    expect(moistureRatio({ ...water, waterContentDryBasis: 0.6 })).toBe(1)
    expect(moistureRatio({ ...water, waterContentDryBasis: 0.02 })).toBe(0)
  })
})

describe('a forecast', () => {
  test('of the worked day: weighed at 25.3 %, 0.18 kg to go, ready between 8 and 9 h', () => {
    const forecast = forecastDrying(asked({ weighIns: [weighed(20 / 3, 5050)], nowHours: 20 / 3 }))
    expect(forecast.basis).toBe('1 weigh-in')
    expect(forecast.waterNowWetBasis.median).toBeCloseTo(0.253, 2)
    expect(forecast.readyAtHours.median).toBeGreaterThan(8)
    expect(forecast.readyAtHours.median).toBeLessThan(9.2)
    expect(forecast.readyAtHours.from).toBeGreaterThan(20 / 3)
    expect(forecast.tooDryAfterHours?.median).toBeGreaterThan(forecast.readyAtHours.median)
  })

  test('from past loads alone lies where they lay', () => {
    const prior = dryingPriorFrom([0.08, 0.09, 0.1, 0.085, 0.095, 0.09].map((k) => pastLoad(k)))
    const { basis, readyAtHours } = forecastDrying(asked({ prior }))
    const usual = hoursToWaterContent(truthOf(0.09), 0.225)
    expect(basis).toBe('prior only')
    expect(Math.abs(readyAtHours.median / usual - 1)).toBeLessThan(0.1)
    expect(readyAtHours.from).toBeLessThan(hoursToWaterContent(truthOf(0.1), 0.225))
    expect(readyAtHours.to).toBeGreaterThan(hoursToWaterContent(truthOf(0.08), 0.225))
  })

  test('narrows with each weigh-in', () => {
    const prior = dryingPriorFrom([0.06, 0.09, 0.13, 0.08].map((k) => pastLoad(k)))
    const truth = truthOf(0.1)
    const all = [2, 4, 6].map((hours) => weighed(hours, slabGramsAfter(truth, hours)))
    const widths = [0, 1, 2, 3].map((count) => {
      const { from, to } = forecastDrying(
        asked({ prior, weighIns: all.slice(0, count) }),
      ).readyAtHours
      return to - from
    })
    expect([...widths].sort((one, other) => other - one)).toEqual(widths)
  })

  test('does not depend on the order of the weigh-ins, and is the same twice', () => {
    const weighIns = [weighed(3, 5550), weighed(6, 5150)]
    const one = forecastDrying(asked({ weighIns }))
    const other = forecastDrying(asked({ weighIns: [...weighIns].reverse() }))
    expect(other.readyAtHours.median).toBeCloseTo(one.readyAtHours.median, 6)
    expect(forecastDrying(asked({ weighIns }))).toEqual(one)
  })

  test('learns which law a studio follows', () => {
    const pages = [0.2, 0.22, 0.24, 0.26, 0.2].map((k) => pastLoad(k, 0.65))
    const { models } = dryingPriorFrom(pages)
    expect(models.page.weight).toBeGreaterThan(0.8)
    expect(models.page.shape.mean[1]).toBeCloseTo(0.65, 1)
    expect(models.newton.weight + models.page.weight).toBeCloseTo(1, 12)
  })

  test('leaves a past load out that contradicts itself', () => {
    const broken: PastLoad = { load, weighIns: [weighed(2, 5000), weighed(4, 5500)] }
    expect(dryingPriorFrom([pastLoad(0.1), broken]).loads).toBe(1)
  })

  test('of a slab twice as thick takes longer', () => {
    const prior = dryingPriorFrom([0.08, 0.09, 0.1].map((k) => pastLoad(k)))
    const thick = { ...load, thicknessMillimetres: 45 }
    const usual = forecastDrying(asked({ prior })).readyAtHours.median
    const slow = forecastDrying(asked({ prior, load: thick })).readyAtHours.median
    expect(slow / usual).toBeCloseTo((45 / 36) ** 2, 1)
  })

  test('knows no time for too dry where the slab rests before it', () => {
    const forecast = forecastDrying(
      asked({
        weighIns: [weighed(20 / 3, 5050)],
        tooDryWaterContentWetBasis: 0.005,
      }),
    )
    expect(forecast.tooDryAfterHours).toBeUndefined()
  })

  test('is less sure where the dry clay is less sure', () => {
    const weighIns = [weighed(3, 5550), weighed(6, 5150)]
    const width = (standardUncertainty: number) => {
      const unsure = { ...load, dryGrams: { value: 3772, standardUncertainty } }
      const { from, to } = forecastDrying(asked({ load: unsure, weighIns })).readyAtHours
      return to - from
    }
    expect(width(100)).toBeGreaterThan(width(5) * 1.5)
  })
})

describe('a curve that is not knowable is refused in words', () => {
  const code = 'curve_must_be_knowable'

  test('where the target lies at the rest or below', () => {
    expect(
      whyNot(asked({ targetWaterContentWetBasis: 0.0196, tooDryWaterContentWetBasis: 0.01 })),
    ).toBe(`${code}: target_at_rest`)
    const damp = { value: 0.28, standardUncertainty: 0.02 }
    const inDampAir = { ...load, equilibriumWaterContentDryBasis: damp }
    expect(whyNot(asked({ load: inDampAir, weighIns: [weighed(6, 5200)] }))).toBe(
      `${code}: target_at_rest`,
    )
  })

  test('where nothing is known of studio or slab', () => {
    expect(whyNot(asked({}))).toBe(`${code}: interval_too_wide`)
  })

  test('where the slab gets heavier, or heavier than it was poured', () => {
    const rising = [weighed(2, 5400), weighed(4, 5430)]
    expect(whyNot(asked({ weighIns: rising }))).toBe(`${code}: readings_contradict`)
    expect(whyNot(asked({ weighIns: [weighed(2, 6050)] }))).toBe(`${code}: readings_contradict`)
  })

  test('where it weighs less than its dry clay, or was poured without water', () => {
    expect(whyNot(asked({ weighIns: [weighed(30, 3600)] }))).toBe(`${code}: readings_contradict`)
    const dry = { ...load, pouredGrams: { value: 3700, standardUncertainty: 3 } }
    expect(whyNot(asked({ load: dry }))).toBe(`${code}: readings_contradict`)
  })

  test('where no curve passes near all weigh-ins', () => {
    const weighIns = [weighed(2, 5900), weighed(20, 5890), weighed(21, 4600)]
    expect(whyNot(asked({ weighIns }))).toBe(`${code}: readings_contradict`)
  })

  test('but not for a wobble that the scale explains', () => {
    expect(contradictionIn(load, [weighed(2, 5400), weighed(3, 5405)])).toBeUndefined()
  })
})

test('a question that is none is a defect', () => {
  expect(() => forecastDrying(asked({ weighIns: [weighed(0, 5500)] }))).toThrow('was poured')
  expect(() => forecastDrying(asked({ weighIns: [weighed(101, 5500)] }))).toThrow('after now')
  expect(() => forecastDrying(asked({ weighIns: [weighed(1, Number.NaN)] }))).toThrow('a number')
  expect(() => forecastDrying(asked({ tooDryWaterContentWetBasis: 0.3 }))).toThrow('drier')
  expect(() => forecastDrying(asked({ nowHours: Number.NaN }))).toThrow('after the pour')
})
