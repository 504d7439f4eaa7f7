import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { kg } from '../support/studio.ts'
import { openPlaster, type PlasterPottery } from './plaster-pottery.ts'
import { problem, problemIn } from './pottery.ts'

let board: PlasterPottery['board']
let clock: PlasterPottery['clock']
let load: PlasterPottery['load']
let pass: PlasterPottery['pass']
let pottery: PlasterPottery['pottery']
let pour: PlasterPottery['pour']
let weigh: PlasterPottery['weigh']
beforeEach(async () => {
  ;({ board, clock, load, pass, pottery, pour, weigh } = await openPlaster())
})
afterEach(() => pottery.close())

// Source: the worked day of a small pottery, its figures computed from what is stated there: a bat of
// 7.10 kg dry and 6.00 kg of slurry at 37.137 % water weigh 12.92 kg at 18:00, "hardly moved"; the slab
// alone then weighs 5.05 kg.
describe('the bat trap', () => {
  beforeEach(async () => {
    clock('11:20')
    await pour('l')
    clock('18:00')
    await pottery.does('weigh-on-plaster', {
      lotId: 'l',
      reading: { net: kg('12.92') },
      withPlaster: true,
    })
  })

  test('weighed with its bat a slab tells what evaporated, and 35.2 % is only the most', async () => {
    const { pairs, isKnown, advice } = await load('l')
    expect(pairs).toMatchObject([
      { pairGrams: '12920', evaporatedGrams: '180', waterContentWetBasisMax: '0.3519' },
    ])
    expect(String(pairs[0]?.['words'])).toContain('only the most')
    expect(isKnown).toBe(false)
    expect(advice.act).toBe('weigh')
  })

  test('lifted it is 25.3 % water, 0.18 kg over its 4.867 kg, and wants a dry bat', async () => {
    await weigh('l', '5.05')
    const found = await load('l')
    expect(found.weighIns).toMatchObject([
      { slabGrams: '5050', waterContentWetBasis: '0.2531', waterToGoGrams: '183.2', isUsed: true },
    ])
    expect(Number(found.water.median)).toBeCloseTo(0.253, 3)
    expect(found['readyGrams']).toBe('4866.8')
    expect(Number(found['waterToGoGrams'])).toBeCloseTo(183, -1)
    // The scale leaves 3 g open and the dry clay more, which is what makes a slab's water unsure.
    const dryUnsure = Number(found['dryStandardUncertaintyGrams'])
    expect(Number(found['readyStandardUncertaintyGrams'])).toBeCloseTo(dryUnsure / 0.775, 0)
    const [{ waterContentStandardUncertainty, waterToGoStandardUncertaintyGrams }] =
      found.weighIns as unknown as [Record<string, string>]
    expect(Number(waterContentStandardUncertainty)).toBeCloseTo(dryUnsure / 5050, 3)
    expect(Number(waterToGoStandardUncertaintyGrams)).toBeGreaterThan(dryUnsure)
    expect(Number(found['waterToGoGramsFrom'])).toBeLessThan(Number(found['waterToGoGrams']))
    expect(Number(found['waterToGoGramsTo'])).toBeGreaterThan(Number(found['waterToGoGrams']))
    expect(found.bat).toMatchObject({
      standing: 'pair_less_slab',
      nowGrams: '7870',
      holdsGrams: '770',
      heldFractionOfDry: '0.1085',
    })
    expect(found['waterWent']).toMatchObject({
      leftGrams: '950',
      drunkGrams: '770',
      evaporatedGrams: '180',
      evaporatedStandardUncertaintyGrams: expect.stringMatching(/^[3-9](\.\d)?$/) as string,
    })
    expect(found.advice.act).toBe('move_to_dry_bat')
    expect(found['thicknessMillimetres']).toBe('36')
  })

  test('the bat alone says the same', async () => {
    await weigh('l', '5.05', { bat: { net: kg('7.87') } })
    expect((await load('l')).bat).toMatchObject({ standing: 'weighed_alone', holdsGrams: '770' })
    const both = { lotId: 'l', reading: { net: kg('12.9') }, withPlaster: true }
    const answer = await pottery.ask('POST', '/v1/acts/weigh-on-plaster', {
      body: { ...both, bat: { net: kg('7.87') } },
    })
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/bat']))
  })

  test('moved to a dry bat the slab begins anew, as wet as it was weighed', async () => {
    await pottery.does('move-load', {
      lotId: 'l',
      batId: 'c',
      newLotId: 'l2',
      reading: { net: kg('5.05') },
      bat: { net: kg('7.87') },
    })
    pass(3)
    const { loads, emptyBats } = await board()
    expect(loads.map(({ lotId }) => lotId)).toEqual(['l2'])
    expect(loads[0]).toMatchObject({ laidBy: 'move_load', laidGrams: '5050', dryGrams: '3771.78' })
    expect(loads[0]?.['thicknessMillimetres']).toBe('36')
    expect(emptyBats.find(({ batId }) => batId === 'b')).toMatchObject({
      weighedGrams: '7870',
      heldGrams: '770',
    })
    const before = await load('l')
    expect(before).toMatchObject({ endedBy: 'move_load', isKnown: true, advice: null })
    expect(Number(before.water.median)).toBeCloseTo(0.253, 3)
  })
})
