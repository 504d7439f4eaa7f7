import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { kg } from '../support/studio.ts'
import { hoursFromPour, openPlaster, type PlasterPottery } from './plaster-pottery.ts'
import { problem, problemIn } from './pottery.ts'

let board: PlasterPottery['board']
let clock: PlasterPottery['clock']
let load: PlasterPottery['load']
let pass: PlasterPottery['pass']
let passSomeWeeks: PlasterPottery['passSomeWeeks']
let pottery: PlasterPottery['pottery']
let pour: PlasterPottery['pour']
let weigh: PlasterPottery['weigh']
beforeEach(async () => {
  ;({ board, clock, load, pass, passSomeWeeks, pottery, pour, weigh } = await openPlaster())
})
afterEach(() => pottery.close())

describe('without a weigh-in', () => {
  test('and without past loads no time is invented', async () => {
    await pour('l')
    pass(5)
    const found = await load('l')
    expect(found).toMatchObject({ isKnown: false, whyNot: 'interval_too_wide', readyAt: null })
    expect(found.why).toContain('weigh it alone')
    expect(found).toMatchObject({ water: null, tooDryAfter: null, curve: [], lawWeights: null })
    expect((await board()).loads).toEqual([found])
  })

  test('past loads of the studio give the time, with its interval', async () => {
    await passSomeWeeks()
    clock('08:00')
    await pour('l')
    pass(1)
    const found = await load('l')
    expect(found.isKnown).toBe(true)
    const { from, median, to } = found.readyAt
    const hours = [from, median, to].map((moment) => hoursFromPour(moment, found['laidAt']))
    expect(hours[1]).toBeGreaterThan(7.5)
    expect(hours[1]).toBeLessThan(9.5)
    expect(hours[0]).toBeLessThan(7.5)
    expect(hours[2]).toBeGreaterThan(9.5)
    expect(median).toMatch(/^2026-05-14T1\d:\d\d:00\+01:00$/)
    expect(found['restsOn']).toBe(
      '4 past loads of this studio, 4 on this bat; no weigh-in of this slab',
    )
    expect((await board()).pastLoads).toBe(4)
  })

  test('the bat holds at most what the slab has lost', async () => {
    await passSomeWeeks()
    clock('08:00')
    await pour('l')
    pass(6)
    const { bat, water, advice } = await load('l')
    expect(bat['standing']).toBe('at_most')
    const slabGrams = 3771.78 / (1 - Number(water.median))
    expect(Number(bat['holdsGrams'])).toBeCloseTo(6000 - slabGrams, -1)
    expect(advice.words).toContain('at most')
  })
})

describe('weigh-ins', () => {
  test('narrow the interval, each further one more', async () => {
    await passSomeWeeks()
    clock('08:00')
    await pour('l')
    const widths: number[] = []
    for (const kilograms of [undefined, '5.62', '5.35', '5.10']) {
      pass(2)
      if (kilograms !== undefined) await weigh('l', kilograms)
      const { readyAt } = await load('l')
      widths.push(hoursFromPour(readyAt.to, readyAt.from))
    }
    expect([...widths].sort((one, other) => other - one)).toEqual(widths)
  })

  test('that contradict each other are said to, and one that is taken back no longer counts', async () => {
    await pour('l')
    pass(3)
    await weigh('l', '5.40')
    pass(1)
    const wrong = await weigh('l', '5.80')
    const contradictory = await load('l')
    expect(contradictory).toMatchObject({ isKnown: false, whyNot: 'readings_contradict' })
    expect(contradictory.why).toContain('gets lighter')
    expect(contradictory.advice.act).toBe('weigh')
    const { entryId } = wrong['entry'] as { entryId: string }
    await pottery.does('correct', { entryId })
    const mended = await load('l')
    expect(mended.isKnown).toBe(true)
    expect(mended.weighIns.map((one) => one['slabGrams'])).toEqual(['5400'])
  })

  test('dated before the slab was laid are left out, and say so', async () => {
    await pour('l')
    pass(3)
    await weigh('l', '5.40', { happenedAt: '2026-05-14T09:00:00+01:00' })
    await weigh('l', '5.41')
    const { weighIns, isKnown } = await load('l')
    expect(isKnown).toBe(true)
    expect(weighIns.map((one) => one['isUsed'])).toEqual([false, true])
    expect(weighIns[0]?.['words']).toContain('Weighed before it was laid')
  })

  test('of a slab that was turned say when to turn it next', async () => {
    await pour('l')
    pass(13)
    await weigh('l', '5.60', { bat: { net: kg('7.40') } })
    expect((await load('l')).advice.act).toBe('turn')
    await weigh('l', '5.60', { bat: { net: kg('7.40') }, turned: true })
    expect((await load('l')).advice.act).toBe('leave')
  })

  test('agree with the water that the books then have', async () => {
    await pour('l')
    pass(4)
    await weigh('l', '5.33')
    const { weighIns } = await load('l')
    const { body } = await pottery.ask('GET', '/v1/holdings?place=plaster&lotId=l')
    const [held] = body['items'] as { dryGrams: string; waterGrams: string }[]
    const share = Number(held?.waterGrams) / (Number(held?.waterGrams) + Number(held?.dryGrams))
    expect(Number(weighIns[0]?.['waterContentWetBasis'])).toBeCloseTo(share, 4)
  })
})

describe('the target', () => {
  const wants = (body: object) => pottery.ask('PATCH', '/v1/bodies/buff', { body })

  test('is the clay’s own where the studio said one', async () => {
    await wants({ readyWaterContentWetBasis: '0.24', tooDryWaterContentWetBasis: '0.21' })
    await pour('l')
    pass(4)
    await weigh('l', '5.05')
    const found = await load('l')
    expect(found).toMatchObject({
      readyWaterContentWetBasis: '0.24',
      tooDryWaterContentWetBasis: '0.21',
    })
  })

  test('that is never reached is said so in words', async () => {
    await wants({ readyWaterContentWetBasis: '0.012', tooDryWaterContentWetBasis: '0.01' })
    await pour('l')
    pass(4)
    await weigh('l', '5.05')
    const found = await load('l')
    expect(found).toMatchObject({ isKnown: false, whyNot: 'target_at_rest', advice: null })
    expect(found.why).toContain('Choose a wetter target')
  })

  test('must lie above too dry, whichever of the two is said last', async () => {
    const refused = problem(422, 'too_dry_must_be_below_ready', ['#/tooDryWaterContentWetBasis'])
    const both = { readyWaterContentWetBasis: '0.22', tooDryWaterContentWetBasis: '0.22' }
    const answer = await wants(both)
    expect(problemIn(answer)).toEqual(refused)
    expect(answer.body.detail).toContain('readyWaterContentWetBasis')
    expect((await wants({ ...both, tooDryWaterContentWetBasis: '0.2' })).status).toBe(200)
    expect(problemIn(await wants({ readyWaterContentWetBasis: '0.19' }))).toEqual(refused)
    const made = await pottery.ask('POST', '/v1/bodies', { body: { name: 'Upside', ...both } })
    expect(problemIn(made)).toEqual(refused)
  })

  test('passed by, the slab is too dry, and it says what to do', async () => {
    await pour('l')
    pass(8)
    await weigh('l', '4.80')
    pass(10)
    const { advice, words } = await load('l')
    expect(advice.act).toBe('lift_and_wet')
    expect(words).toContain('Too dry since')
  })
})
