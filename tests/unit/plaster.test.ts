import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { plasterAdvice } from '../../shared/plaster-advice.ts'
import { batThirst, readingWithPlaster, slabWater, whereWaterWent } from '../../shared/plaster.ts'
import { castingMinutes, castingRate, setPlaster } from '../../shared/set-plaster.ts'
import { ledgerAmount } from './arbitrary.ts'
import { refusedWith } from './refused.ts'

const bat = (nowGrams: number) => ({ dryGrams: decimal(7000), nowGrams: decimal(nowGrams) })

describe('a bat', () => {
  test('drinks less the more it holds, and never less than nothing', () => {
    fc.assert(
      fc.property(ledgerAmount(1, 20_000), ledgerAmount(0, 5_000), (dryGrams, holds) => {
        const found = batThirst({ dryGrams, nowGrams: dryGrams.plus(holds) })
        expect(found.holdsGrams.toFixed()).toBe(holds.toFixed())
        expect(found.drinksStillGramsMin.isNegative()).toBe(false)
        expect(found.drinksStillGramsMin.lessThanOrEqualTo(found.drinksStillGramsMax)).toBe(true)
      }),
    )
  })

  test('that was not weighed drinks least where it holds most, and most where it holds least', () => {
    const found = batThirst({ ...bat(7300), leastGrams: decimal(7000) })
    // Sated at 350 g while it holds 300, or at 1050 g while it holds nothing.
    expect(found.drinksStillGramsMin.toFixed()).toBe('50')
    expect(found.drinksStillGramsMax.toFixed()).toBe('1050')
    expect(found.leastHeldFractionOfDry.toFixed()).toBe('0')
    const full = batThirst({ ...bat(8500), leastGrams: decimal(7200) })
    expect(full.drinksStillGramsMin.toFixed()).toBe('0')
    expect(full.drinksStillGramsMax.toFixed()).toBe('850')
  })

  test('that weighs less than when dry is refused', () => {
    expect(refusedWith(() => batThirst(bat(6990)))).toBe('reading_must_not_be_below_known_dry')
  })
})

describe('bat and clay on the scale together', () => {
  const pair = (pairNowGrams: number) => () =>
    readingWithPlaster({
      batDryGrams: decimal(7000),
      clayDryGrams: decimal(3000),
      pairAtFirstGrams: decimal(12_000),
      pairNowGrams: decimal(pairNowGrams),
    })

  test('say what evaporated and the most that the clay can hold, never what it holds', () => {
    const found = pair(11_500)()
    expect(found.evaporatedGrams.toFixed()).toBe('500')
    expect(found.waterInBothGrams.toFixed()).toBe('1500')
    expect(found.waterContentWetBasisMax.toFixed(4)).toBe('0.3333')
  })

  test('do not grow heavier, and weigh no less than both dry', () => {
    expect(refusedWith(pair(12_001))).toBe('sample_must_not_dry_heavier')
    expect(refusedWith(pair(9_999))).toBe('reading_must_not_be_below_known_dry')
  })
})

describe('a slab on its own', () => {
  test('is down to the target when no water is left to go, for every slab', () => {
    fc.assert(
      fc.property(
        ledgerAmount(1, 10_000),
        ledgerAmount(0, 10_000),
        fc.integer({ min: 100, max: 400 }),
        (dryGrams, waterGrams, thousandths) => {
          const targetWaterContentWetBasis = decimal(thousandths).dividedBy(1000)
          const slabGrams = dryGrams.plus(waterGrams)
          const found = slabWater({ dryGrams, slabGrams, targetWaterContentWetBasis })
          const atTarget = slabWater({
            dryGrams,
            slabGrams: slabGrams.minus(found.waterToGoGrams),
            targetWaterContentWetBasis,
          })
          expect(atTarget.waterToGoGrams.isZero()).toBe(true)
          expect(
            atTarget.waterContentWetBasis.minus(targetWaterContentWetBasis).abs().toNumber(),
          ).toBeLessThan(1e-6)
        },
      ),
    )
  })

  test('that weighs less than its dry clay is refused', () => {
    const act = () =>
      slabWater({
        dryGrams: decimal(3000),
        slabGrams: decimal(2999),
        targetWaterContentWetBasis: decimal('0.225'),
      })
    expect(refusedWith(act)).toBe('reading_must_not_be_below_known_dry')
  })
})

describe('the water that left a slab', () => {
  const went = (batNowGrams: number) => () =>
    whereWaterWent({
      pouredGrams: decimal(6000),
      slabGrams: decimal(5200),
      bat: bat(batNowGrams),
    })

  test('is in the plaster or in the air', () => {
    const { leftGrams, drunkGrams, evaporatedGrams } = went(7600)()
    expect([leftGrams, drunkGrams, evaporatedGrams].map((one) => one.toFixed())).toEqual([
      '800',
      '600',
      '200',
    ])
  })

  test('cannot be less than what the bat holds', () => {
    expect(refusedWith(went(7801))).toBe('parts_must_not_exceed_the_whole')
  })
})

describe('what to do with a slab on its bat', () => {
  const advice = (load: { now: number; toGo: number; hours: number }) =>
    plasterAdvice({
      bat: bat(load.now),
      waterToGoGrams: decimal(load.toGo),
      hoursSinceTurned: load.hours,
    })

  test('lift it where no water is left to go, however full the bat', () => {
    expect(advice({ now: 8000, toGo: 0, hours: 3 }).act).toBe('lift')
    expect(advice({ now: 8000, toGo: -50, hours: 3 }).act).toBe('lift')
  })

  test('move it from a bat that holds a tenth of its mass', () => {
    const { act, words } = advice({ now: 7700, toGo: 180, hours: 3 })
    expect(act).toBe('move_to_dry_bat')
    expect(words).toContain('10.0 % of its dry mass')
    expect(words).toContain('180 g of water still to go')
  })

  test('weigh a bat that may be tired, and move from it only where it surely is', () => {
    const unweighed = (leastGrams: number) =>
      plasterAdvice({
        bat: { ...bat(7900), leastGrams: decimal(leastGrams) },
        waterToGoGrams: decimal(180),
        hoursSinceTurned: 3,
      })
    const may = unweighed(7000)
    expect(may.act).toBe('weigh')
    expect(may.words).toContain('not weighed lately and holds at most 900 g')
    expect(may.words).toContain('If it weighs 7700 g or more, move the slab to a dry one')
    expect(unweighed(7750).act).toBe('move_to_dry_bat')
    const slow = plasterAdvice({
      bat: { ...bat(7400), leastGrams: decimal(7000) },
      waterToGoGrams: decimal(180),
      hoursSinceTurned: 3,
    })
    expect([slow.act, slow.words]).toEqual(['leave', expect.stringContaining('may draw')])
  })

  test('turn it after half a day', () => {
    expect(advice({ now: 7300, toGo: 180, hours: 12 }).act).toBe('turn')
    expect(advice({ now: 7300, toGo: 180, hours: 11.9 }).act).toBe('leave')
  })

  test('leave it otherwise, and say when the bat slows and when it will not be enough', () => {
    expect(advice({ now: 7400, toGo: 180, hours: 3 }).words).toContain('half as fast')
    expect(advice({ now: 7000, toGo: 1200, hours: 0 }).words).toContain('at most 1050 g more')
    expect(advice({ now: 7000, toGo: 400, hours: 0 }).words).not.toContain('at most')
  })
})

describe('set plaster', () => {
  test('holds more the wetter it was mixed, by either volume', () => {
    const held = (water: number) =>
      setPlaster({ waterGramsPerHundredPlaster: decimal(water) }, 'of_its_parts')
        .absorptionGramsPerGram
    expect(held(80).greaterThan(held(70))).toBe(true)
  })

  test('mixed with less water than it binds is a defect', () => {
    const mix = { waterGramsPerHundredPlaster: decimal(18) }
    expect(() => setPlaster(mix, 'of_its_parts')).toThrow('more water than its plaster binds')
  })

  test('casts twice the wall in four times the time', () => {
    fc.assert(
      fc.property(ledgerAmount(1, 20), ledgerAmount(1, 60), (millimetres, minutes) => {
        const squareMillimetresPerMinute = castingRate({ millimetres, minutes })
        const twice = castingMinutes({
          millimetres: millimetres.times(2),
          squareMillimetresPerMinute,
        })
        expect(twice.toFixed(9)).toBe(minutes.times(4).toFixed(9))
      }),
    )
  })
})
