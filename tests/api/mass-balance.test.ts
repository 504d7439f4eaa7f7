import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { makePlates, wet } from './plates.ts'
import { NEIGHBOUR, openPottery, problem, problemIn, type Pottery } from './pottery.ts'

// What answers hold, as far as the tests look into it.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Json = any

let pottery: Pottery
beforeEach(async () => {
  pottery = await openPottery()
})
afterEach(() => pottery.close())

const MAY = '/v1/reports/mass-balance?month=2026-05&bodyId=buff'
async function balance(address = MAY): Promise<Json> {
  const answer = await pottery.ask('GET', address)
  expect(answer.status, answer.text).toBe(200)
  return answer.body
}

async function booksOf(): Promise<string> {
  const parts = []
  for (const address of ['/v1/entries?limit=200', '/v1/holdings?limit=200', '/v1/reports/stock']) {
    parts.push((await pottery.ask('GET', address)).text)
  }
  return parts.join('\n')
}

describe('a month in which all was weighed rightly', () => {
  test('agrees, says how sure every flow is, and what size of mistake would have shown', async () => {
    await makePlates(pottery)
    const { verdict, words, globalTest, suspicions, readings, nextWeighIn } = await balance()
    expect(verdict).toBe('agrees')
    // The plates are told from figures made to fit, which is better than scales would have them.
    expect(words).toEqual([
      'All readings of the month agree, as well as they are known.',
      expect.stringMatching(/^They agree even better than they claim to be unsure/),
    ])
    expect(globalTest.degreesOfFreedom).toBeGreaterThan(3)
    expect(Number(globalTest.pValue)).toBeGreaterThan(0.05)
    expect([suspicions, nextWeighIn]).toEqual([[], null])
    const turned = readings.find((one: Json) => one.label.startsWith('The turnings'))
    expect(turned).toMatchObject({
      ...{ label: 'The turnings of 14 May (Plates of buff)', kind: 'turn', howKnown: 'weighed' },
      ...{ from: 'greenware', to: 'scrap', measuredDryGrams: '3340', standing: 'checked' },
    })
    expect(Number(turned.wouldShowFromGrams)).toBeGreaterThan(20)
    expect(Number(turned.wouldShowFromGrams)).toBeLessThan(250)
    for (const { trail, standing, standardUncertaintyGrams } of readings) {
      expect((await pottery.ask('GET', trail)).status).toBe(200)
      expect(standardUncertaintyGrams === null).toBe(standing === 'open')
    }
  })

  test('is had as CSV, a line a reading', async () => {
    await makePlates(pottery)
    const { readings } = await balance()
    const { text, contentType } = await pottery.ask('GET', `${MAY}&format=csv`)
    const lines = text.trim().split('\r\n')
    expect(contentType).toContain('text/csv')
    expect(lines).toHaveLength(readings.length + 1)
    expect(lines[0]).toMatch(/^reading,label,kind,from,to,how_known,measured_dry_grams,/)
    expect(text).toContain('The turnings of 14 May (Plates of buff),turn,greenware,scrap,weighed')
  })

  test('moves nothing in the books by being asked', async () => {
    await makePlates(pottery, { turnings: { net: kg('4.40') } })
    const before = await booksOf()
    const { suspicions } = await balance()
    expect(suspicions).toHaveLength(1)
    expect(await booksOf()).toBe(before)
  })
})

describe('a forgotten tare', () => {
  test('is named first, with what it was and whose tare it fits', async () => {
    await makePlates(pottery, { turnings: { net: kg('4.40') } })
    const { verdict, words, suspicions } = await balance()
    expect(verdict).toBe('something_stands_out')
    expect(words).toHaveLength(1)
    expect(words[0]).toMatch(
      /^The turnings of 14 May \(Plates of buff\) weighed 3\d\d g more than everything else says \(give or take \d+ g\): was the tare of bucket-1 left on/,
    )
    const [first] = suspicions
    expect(first).toMatchObject({ what: 'reading', offByUncertainties: null, alike: [] })
    // 400 g wet at 16.5 % water are 334 g dry.
    const unsure = Number(first.standardUncertainty)
    expect(Math.abs(Number(first.tooHeavyGrams) - 334)).toBeLessThan(3 * unsure)
    const entry = await pottery.ask('GET', first.trail)
    expect(entry.body['kind']).toBe('turn')
  })

  test('that a later weigh-in of the pots has settled leaves the bucket to be counted', async () => {
    await makePlates(pottery, { turnings: { net: kg('4.40') } })
    const [{ offers, whatNow }] = (await balance()).suspicions
    expect(whatNow).toContain('weigh it and count it')
    expect(offers).toHaveLength(1)
    const [{ what, path, body, fillIn }] = offers
    expect([what, path, fillIn]).toEqual(['count', '/v1/acts/count', ['/reading/net/value']])
    const filled = { ...body, reading: { net: kg('4.00') }, water: wet('0.165') }
    expect((await pottery.ask('POST', path, { body: filled })).status).toBe(201)
  })

  test('that nothing has settled is offered as the entry told again, and the month then agrees', async () => {
    await makePlates(pottery, { bucketWeighs: '4.40' })
    const { suspicions, words } = await balance()
    expect(words[0]).toMatch(
      /^The whole vessel weighed on 14 May \(bucket-1\) weighed 3\d\d g more .* was the tare of bucket-1 left on/,
    )
    const [correct] = suspicions[0].offers
    expect(correct).toMatchObject({ what: 'correct', path: '/v1/acts/correct', fillIn: [] })
    expect(correct.body).toMatchObject({
      note: 'The tare of bucket-1 was left on.',
      postAgain: {
        act: 'weigh-scrap',
        content: { reading: { gross: kg('4.40'), inVesselId: 'bucket-1' }, state: 'turnings' },
      },
    })
    const sent = await pottery.ask('POST', correct.path, { body: correct.body })
    expect(sent.status, sent.text).toBe(201)
    expect((await balance()).verdict).toBe('agrees')
  })

  test('in a closed month is still named, and its correction is dated into the open one', async () => {
    await makePlates(pottery, { bucketWeighs: '4.40' })
    await pottery.does('close-month', { month: '2026-05' })
    const { isClosed, suspicions } = await balance()
    expect(isClosed).toBe(true)
    const [{ body }] = suspicions[0].offers
    expect(body.happenedAt).toBe('2026-05-31T23:00:00.000Z')
    expect(body.postAgain.content.happenedAt).toBe(body.happenedAt)
    const sent = await pottery.ask('POST', '/v1/acts/correct', { body })
    expect(sent.status, sent.text).toBe(201)
  })
})

describe('other mistakes', () => {
  test.each([
    ['pounds read as kilograms', { net: kg('8.82') }, 'was it read in pounds'],
    ['two digits swapped', { net: kg('0.40') }, 'was it 4.00 kg, with two digits swapped'],
    [
      'a tare taken off twice',
      { gross: kg('4.00'), tare: g('400') },
      'was the tare taken off twice',
    ],
  ])('%s', async (_, turnings, asks) => {
    await makePlates(pottery, { turnings })
    const { words, suspicions } = await balance()
    expect(suspicions[0].label).toBe('The turnings of 14 May (Plates of buff)')
    expect(words[0]).toContain(asks)
  })

  test('a count that does not fit is named, and enters as a measurement', async () => {
    await makePlates(pottery, { benchCount: '15.00' })
    const { words, suspicions } = await balance()
    expect(suspicions[0].label).toBe('The count of 31 May (opened from 4 bags of buff)')
    expect(words[0]).toContain('less than everything else says')
    expect(suspicions[0].offers[0].what).toBe('correct')
  })

  test('a water content that several weigh-ins rest on is named itself', async () => {
    await makePlates(pottery, { leatherHard: '0.12' })
    const [first] = (await balance()).suspicions
    expect(first).toMatchObject({ what: 'source', tooHeavyGrams: null })
    expect(first.label).toMatch(/^The water content that was said for the /)
    expect(Number(first.offByUncertainties)).toBeGreaterThan(8)
    expect(first.offers[0]).toMatchObject({ what: 'dry_test', path: '/v1/acts/dry-test' })
  })

  test('what was taken back counts for nothing', async () => {
    await makePlates(pottery, { turnings: { net: kg('4.00') }, bucketWeighs: '4.40' })
    const { body } = await pottery.ask('GET', '/v1/entries?month=2026-05&flow=scrap_weighed_in')
    const [{ entryId }] = body['items'] as [{ entryId: string }]
    await pottery.ask('POST', '/v1/acts/correct', { body: { entryId } })
    const { verdict, readings } = await balance()
    expect(verdict).toBe('agrees')
    expect(readings.some((one: Json) => one.kind === 'weigh_scrap')).toBe(false)
  })
})

describe('one body', () => {
  test('is told apart from another: a mistake in the one leaves the other alone', async () => {
    await makePlates(pottery)
    await makePlates(pottery, { bodyId: 'white', turnings: { net: kg('4.40') } })
    const buff = await balance()
    const white = await balance('/v1/reports/mass-balance?month=2026-05&bodyId=white')
    expect([buff.verdict, white.verdict]).toEqual(['agrees', 'something_stands_out'])
    expect(buff.readings.every((one: Json) => !one.label.includes('white'))).toBe(true)
    const neighbour = await pottery.ask('GET', MAY, { studio: NEIGHBOUR })
    expect(neighbour.body['readings']).toEqual([])
  })
})

describe('a month in which nothing is checked', () => {
  test('says so, and which one weigh-in would make it checkable', async () => {
    await makePlates(pottery, { bags: 3, benchCount: null, weighsPots: false, weighsFired: false })
    const { verdict, words, nextWeighIn } = await balance()
    expect(verdict).toBe('nothing_to_check')
    expect(words[0]).toContain('nothing can be checked')
    expect(nextWeighIn.words).toMatch(/^Weigh /)
    expect((await pottery.ask('GET', nextWeighIn.trail)).status).toBe(200)
  })

  test('and one in which nothing happened has nothing to say', async () => {
    const report = await balance('/v1/reports/mass-balance?month=2026-02&bodyId=buff')
    expect(report).toMatchObject({ verdict: 'nothing_to_check', readings: [], nextWeighIn: null })
  })
})

describe('what is asked wrongly', () => {
  test('is refused', async () => {
    const ask = (query: string) => pottery.ask('GET', `/v1/reports/mass-balance?${query}`)
    const faults = 'fields_must_be_right'
    expect(problemIn(await ask('month=2026-05&bodyId=nothing'))).toEqual(
      problem(404, 'body_not_found'),
    )
    expect(problemIn(await ask('month=2026-13&bodyId=buff'))).toEqual(
      problem(422, faults, ['month']),
    )
    expect(problemIn(await ask('month=2026-05'))).toEqual(problem(422, faults, ['bodyId']))
  })
})
