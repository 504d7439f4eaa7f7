import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { openPlaster, WATER, type PlasterPottery } from './plaster-pottery.ts'
import { NEIGHBOUR, openPottery, problem, problemIn } from './pottery.ts'

let board: PlasterPottery['board']
let load: PlasterPottery['load']
let pass: PlasterPottery['pass']
let pottery: PlasterPottery['pottery']
let pour: PlasterPottery['pour']
let weigh: PlasterPottery['weigh']
beforeEach(async () => {
  ;({ board, load, pass, pottery, pour, weigh } = await openPlaster())
})
afterEach(() => pottery.close())

describe('a moved slab', () => {
  test('that was not weighed has no curve until it is', async () => {
    await pour('l')
    pass(6)
    await pottery.does('move-load', { lotId: 'l', batId: 'c', newLotId: 'm' })
    pass(1)
    expect(await load('m')).toMatchObject({ isKnown: false, whyNot: 'beginning_not_known' })
    await weigh('m', '5.20')
    pass(2)
    await weigh('m', '5.05')
    const { isKnown, weighIns } = await load('m')
    expect(isKnown).toBe(true)
    expect(weighIns.map((one) => one['isUsed'])).toEqual([false, true])
    expect(weighIns[0]?.['words']).toBe('The curve begins with it.')
  })

  test('needs another bat, an empty one, and a load that lies on plaster', async () => {
    await pour('l')
    await pour('k', 'c')
    const move = (body: object) => pottery.ask('POST', '/v1/acts/move-load', { body })
    const [same, full, gone] = [
      await move({ lotId: 'l', batId: 'b' }),
      await move({ lotId: 'l', batId: 'c' }),
      await move({ lotId: 'nothing', batId: 'bat-a' }),
    ]
    expect(problemIn(same)).toEqual(problem(422, 'bat_must_be_another', ['#/batId']))
    expect(problemIn(full)).toEqual(problem(409, 'bat_must_be_empty', ['#/batId']))
    expect(problemIn(gone)).toEqual(problem(404, 'lot_not_found', ['#/lotId']))
    await pottery.does('lift', { lotId: 'k' })
    const lifted = await move({ lotId: 'k', batId: 'bat-a' })
    expect(problemIn(lifted)).toEqual(problem(409, 'clay_must_be_enough', ['#/lotId']))
  })

  test('is where it was once the move is taken back', async () => {
    await pour('l')
    const moved = await pottery.does('move-load', { lotId: 'l', batId: 'c', newLotId: 'm' })
    const { entryId } = moved['entry'] as { entryId: string }
    await pottery.does('correct', { entryId })
    expect((await board()).loads.map(({ lotId }) => lotId)).toEqual(['l'])
    const answer = await pottery.ask('GET', '/v1/reports/plaster/m')
    expect(problemIn(answer)).toEqual(problem(422, 'lot_must_be_a_load'))
    expect(answer.body.detail).toContain('taken back')
  })

  test('of which some was thrown away dries on as it was', async () => {
    await pour('l')
    pass(3)
    await weigh('l', '5.50')
    const before = await load('l')
    const holdingId = await pottery.holdingAt('plaster')
    await pottery.does('discard', { holdingId, reading: { net: kg('1.00') }, reason: 'grit' })
    const after = await load('l')
    expect(Number(after.water.median)).toBeCloseTo(Number(before.water.median), 3)
    expect(Number(after['dryGrams'])).toBeCloseTo((3771.78 * 4.5) / 5.5, 1)
  })
})

describe('the report', () => {
  test('of a studio without bats is an empty board', async () => {
    const bare = await openPottery({ studios: [] })
    const studio = { studioId: 'bare', name: 'Bare', currency: 'EUR', timeZone: 'Europe/Paris' }
    await bare.ask('POST', '/v1/studios', {
      studio: null,
      body: { ...studio, jurisdiction: 'EU' },
    })
    const { status, body } = await bare.ask('GET', '/v1/reports/plaster', { studio: 'bare' })
    expect(status).toBe(200)
    expect(body).toMatchObject({ loads: [], emptyBats: [], pastLoads: 0 })
    await bare.close()
  })

  test('keeps to its own studio and to loads', async () => {
    await pour('l')
    const theirs = await pottery.ask('GET', '/v1/reports/plaster/l', { studio: NEIGHBOUR })
    expect(problemIn(theirs)).toEqual(problem(404, 'lot_not_found'))
    const { body } = await pottery.ask('GET', '/v1/reports/plaster', { studio: NEIGHBOUR })
    expect(body['loads']).toEqual([])
    await pottery.does('lift', { lotId: 'l', newLotId: 'bench-clay' })
    const bench = await pottery.ask('GET', '/v1/reports/plaster/bench-clay')
    expect(problemIn(bench)).toEqual(problem(422, 'lot_must_be_a_load'))
  })

  test('of a lifted load shows the curve that it took, and does not learn from itself', async () => {
    await pour('l')
    pass(4)
    await weigh('l', '5.33')
    pass(4)
    const scrapings = { reading: { net: g('20') }, water: WATER }
    await pottery.does('lift', { lotId: 'l', reading: { net: kg('4.85') }, scrapings })
    pass(100)
    const found = await load('l')
    expect(found).toMatchObject({ endedBy: 'lift', endedAt: '2026-05-14T19:20:00+01:00' })
    expect(found['restsOn']).toContain('no past load of this studio was weighed; 2 weigh-ins')
    expect(Number(found.water.median)).toBeCloseTo(1 - (3771.78 - 12.6) / 4850, 2)
    expect(found.curve.length).toBeGreaterThan(20)
  })

  test('has the curve with its band, falling, and wide enough for its weigh-ins', async () => {
    await pour('l')
    pass(4)
    await weigh('l', '5.33')
    const { curve } = await load('l')
    const medians = curve.map((point) => Number(point.waterContentWetBasis.median))
    expect([...medians].sort((one, other) => other - one)).toEqual(medians)
    for (const { waterContentWetBasis: water } of curve) {
      expect(Number(water.from)).toBeLessThanOrEqual(Number(water.median))
      expect(Number(water.to)).toBeGreaterThanOrEqual(Number(water.median))
    }
  })

  test('comes as a table', async () => {
    await pour('l')
    pass(4)
    await weigh('l', '5.33')
    const { text, contentType } = await pottery.ask('GET', '/v1/reports/plaster?format=csv')
    expect(contentType).toContain('text/csv')
    const [headings, row] = text.split('\r\n')
    expect(headings).toMatch(/^bat,load,body,laid_at/)
    expect(row).toMatch(/^b,l,buff,2026-05-14T11:20:00\+01:00/)
    const bats = await pottery.ask('GET', '/v1/reports/plaster?format=csv&table=bats')
    expect(bats.text).toContain('\r\nbat-a,7000,')
  })
})
