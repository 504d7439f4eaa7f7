import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import {
  faultsIn,
  entryOf,
  moved,
  openBags,
  pageAt,
  pressed,
  sameAs,
  send,
  sendKept,
  twin,
  valueIn,
} from './page-acts.ts'
import { chosen } from './page-forms.ts'
import { kg } from '../support/studio.ts'
import { NEIGHBOUR, openPottery, STUDIO, type Pottery } from './pottery.ts'

const RUNS = { mugs: ['mug', 20, '0.400'], plates: ['plate', 6, '1.600'] } as const

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await openBags(pottery)
  for (const studio of [STUDIO, NEIGHBOUR]) {
    const early = { happenedAt: '2026-06-01T11:00:00Z' }
    for (const [runId, [formId, balls, ball]] of Object.entries(RUNS)) {
      const from = [{ lotId: 'o1', balls, ballMass: kg(ball) }]
      await pottery.does('throw', { formId, runId, from, label: runId, ...early }, { studio })
    }
    const turned = { vesselId: 'bucket-1', turnings: { net: kg('0.30') }, ...early }
    for (const runId of Object.keys(RUNS)) {
      await pottery.does('turn', { runId, ...turned }, { studio })
    }
  }
})
afterAll(() => pottery.close())

/** The loads that the kiln page shows, by the address of their unloading. */
async function loadsInKiln(): Promise<string[]> {
  const { text } = await pageAt(pottery, '/kiln')
  return [...text.matchAll(/href="\/kiln\/unload\/([^"]+)"/g)].map(([, id = '']) => id)
}

/** The one load that is in the kiln. */
async function onlyLoad(): Promise<string> {
  const [load = '', ...others] = await loadsInKiln()
  expect(others).toEqual([])
  return load
}

describe('loading', () => {
  test('says what waits, what is dry as far as the books can tell, and what to mind', async () => {
    const { text } = await pageAt(pottery, '/kiln')
    expect(text).toContain('Waiting for bisque')
    expect(text).toContain('likely bone-dry')
    expect(text).toContain('carbon monoxide')
    expect(text).toContain('licensed fitters')
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
    const load = await pageAt(pottery, '/kiln/load/bisque?runIds=mugs')
    expect(chosen(load.text, 'all', 'mugs')).toBe(true)
    expect(chosen(load.text, 'all', 'plates')).toBe(false)
    expect(load.text).toContain('Dust')
    expect((await pageAt(pottery, '/kiln/load/raku')).status).toBe(404)
  })

  test('more than waits, and nothing at all, come back with what was typed', async () => {
    const many = await send(pottery, '/kiln/load/bisque', { key: 'k1', 'some-plates': '7' })
    expect(many.status).toBe(409)
    expect(faultsIn(many).join()).toContain('href="#some-plates"')
    expect(valueIn(many.text, 'some-plates')).toBe('7')
    const none = await send(pottery, '/kiln/load/bisque', { key: 'k1' })
    expect([none.status, faultsIn(none).join()]).toEqual([
      422,
      expect.stringContaining('Nothing was put into the kiln yet'),
    ])
    const odd = await send(pottery, '/kiln/load/bisque', { key: 'k1', 'some-mugs': 'lots' })
    expect(odd.status).toBe(422)
    expect(await loadsInKiln()).toEqual([])
  })

  test('is a note that moves no clay, and a double press of it is one load', async () => {
    const before = await pottery.entries()
    const fields = { key: 'load-1', all: 'mugs', 'some-plates': '5', by: 'Ines' }
    for (let press = 0; press < 2; press += 1) {
      const { status, headers } = await send(pottery, '/kiln/load/bisque', fields)
      expect([status, headers.get('location')]).toEqual([303, '/kiln'])
    }
    expect(await loadsInKiln()).toEqual(['load-1'])
    expect(await pottery.entries()).toBe(before)
    const { text } = await pageAt(pottery, '/kiln')
    expect(text).toContain('25 pieces')
    expect(text).toContain('by Ines')
  })

  test('what is in one kiln does not wait for another', async () => {
    const { text } = await pageAt(pottery, '/kiln/load/bisque')
    expect(text).not.toContain('value="mugs"')
    expect(text).toContain('All 1')
    const again = await send(pottery, '/kiln/load/bisque', { key: 'k2', 'some-plates': '2' })
    expect(again.status).toBe(409)
    expect(await loadsInKiln()).toEqual(['load-1'])
  })

  test('is changed until it comes out: put in, taken out, all of it out unfired', async () => {
    const page = await pageAt(pottery, '/kiln/change/load-1')
    expect(chosen(page.text, 'all', 'mugs')).toBe(true)
    expect(valueIn(page.text, 'some-plates')).toBe('5')
    const change = (fields: Record<string, string>) =>
      send(pottery, '/kiln/change/load-1', { key: 'c', ...fields })
    expect((await change({ all: 'plates' })).status).toBe(303)
    expect((await pageAt(pottery, '/kiln')).text).toContain('6 pieces')
    expect((await change({ 'some-plates': '7' })).status).toBe(409)
    expect((await send(pottery, '/kiln/take-out/load-1', {})).status).toBe(303)
    expect(await loadsInKiln()).toEqual([])
    expect((await change({ all: 'plates' })).status).toBe(409)
    expect((await pageAt(pottery, '/kiln/unload/load-1')).status).toBe(409)
    expect((await pageAt(pottery, '/kiln/unload/none-such')).status).toBe(404)
  })

  test('two who load the same pots at once: one of them is told', async () => {
    const press = (key: string) => send(pottery, '/kiln/load/bisque', { key, all: 'mugs' })
    const answers = await Promise.all([press('race-1'), press('race-2')])
    expect(answers.map(({ status }) => status).sort()).toEqual([303, 409])
    await send(pottery, `/kiln/take-out/${await onlyLoad()}`, {})
  })

  test('the phone’s own queue gets a plain answer, and problems as problems', async () => {
    const fields = { key: 'load-2', all: 'mugs', 'some-plates': '6' }
    const ok = await sendKept(pottery, '/kiln/load/bisque', fields)
    expect([ok.status, ok.headers.get('slakebook-next')]).toEqual([201, '/kiln'])
    const bad = await sendKept(pottery, '/kiln/load/bisque', { key: 'k3' })
    expect([bad.status, bad.contentType]).toEqual([422, 'application/problem+json'])
  })
})

describe('unloading', () => {
  test('more than went in does not come out, and nothing of it is recorded', async () => {
    const before = await pottery.entries()
    const load = await onlyLoad()
    const page = await pageAt(pottery, `/kiln/unload/${load}`)
    expect([valueIn(page.text, 'whole-mugs'), valueIn(page.text, 'whole-plates')]).toEqual([
      '20',
      '6',
    ])
    for (const fields of [
      { 'whole-mugs': '21' },
      { 'whole-mugs': '19', 'fired-plates': '99' },
      { 'whole-mugs': 'most' },
    ]) {
      const answer = await send(pottery, `/kiln/unload/${load}`, {
        seen: 'yes',
        'whole-plates': '6',
        'cause-mugs': 'blew up',
        ...fields,
      })
      expect([409, 422]).toContain(answer.status)
      expect(faultsIn(answer).join()).toMatch(/href="#(whole|fired)-(mugs|plates)"/)
      expect(valueIn(answer.text, 'cause-mugs')).toBe('blew up')
    }
    expect(await pottery.entries()).toBe(before)
    expect(await onlyLoad()).toBe(load)
  })

  test('records the fire, and each loss with its cause, as the API does; twice is once', async () => {
    const load = await onlyLoad()
    const before = await pottery.entries()
    const fields = { key: 'out-1', 'whole-mugs': '18', 'cause-mugs': 'blew up', by: 'Ines' }
    const plates = { 'whole-plates': '6', 'fired-plates': '6.70', 'fired-platesUnit': 'kg' }
    const { entry, entryId, to } = await pressed(pottery, `/kiln/unload/${load}`, {
      ...fields,
      ...plates,
    })
    expect(to).toBe('/kiln')
    expect(await pottery.entries()).toBe(before + 2)
    const runs = [
      { runId: 'mugs', pieces: 20 },
      { runId: 'plates', pieces: 6, reading: { net: kg('6.70') } },
    ]
    await sameAs(pottery, entry, { act: 'bisque', said: { runs, by: 'Ines' } })
    const answer = await pottery.ask('GET', '/v1/entries?kind=lose', { studio: STUDIO })
    const [lossId = ''] = (answer.body['items'] as { entryId: string }[]).map((one) => one.entryId)
    const loss = await entryOf(pottery, lossId)
    await sameAs(pottery, loss, {
      act: 'lose',
      said: { runId: 'mugs', pieces: 2, stage: 'bisque_firing', cause: 'blew up', by: 'Ines' },
    })
    const whole = await pottery.entries()
    const again = await pressed(pottery, `/kiln/unload/${load}`, { ...fields, ...plates })
    expect(again.entryId).toBe(entryId)
    expect(await pottery.entries()).toBe(whole)
    const second = { ...fields, ...plates, seen: 'yes', key: 'out-2' }
    const late = await send(pottery, `/kiln/unload/${load}`, second)
    expect([late.status, faultsIn(late).join()]).toEqual([
      409,
      expect.stringContaining('came out of the kiln already'),
    ])
    expect(await loadsInKiln()).toEqual([])
  })

  test('a glaze fire after which nobody said why something broke', async () => {
    await send(pottery, '/kiln/load/glaze', { key: 'load-3', all: 'mugs' })
    const { entry } = await pressed(pottery, '/kiln/unload/load-3', { 'whole-mugs': '17' })
    await sameAs(pottery, entry, {
      act: 'glaze-fire',
      said: { runs: [{ runId: 'mugs', pieces: 18 }] },
    })
    const { body } = await pottery.ask('GET', '/v1/runs/mugs', { studio: STUDIO })
    const losses = body['losses'] as { pieces: number; stage: string; cause: string }[]
    expect(losses.map(({ pieces, stage, cause }) => [pieces, stage, cause])).toEqual([
      [2, 'bisque_firing', 'blew up'],
      [1, 'glaze_firing', 'broke in the kiln'],
    ])
    await twin(pottery, 'lose', {
      runId: 'mugs',
      pieces: 1,
      stage: 'glaze_firing',
      cause: 'broke in the kiln',
    })
  })

  test('pots that left the load otherwise are refused, and nothing of the rest is recorded', async () => {
    await send(pottery, '/kiln/load/glaze', { key: 'load-4', all: 'plates' })
    const lost = { runId: 'plates', pieces: 2, stage: 'glazing', cause: 'dropped' }
    await pottery.does('lose', lost)
    await pottery.does('lose', lost, { studio: NEIGHBOUR })
    const before = await pottery.entries()
    const answer = await send(pottery, '/kiln/unload/load-4', { 'whole-plates': '6' })
    expect(answer.status).toBe(409)
    expect(faultsIn(answer).join()).toContain('href="#whole-plates"')
    expect(await pottery.entries()).toBe(before)
    await send(pottery, '/kiln/change/load-4', { key: 'c', all: '', 'some-plates': '4' })
    const unsaid = await send(pottery, '/kiln/unload/load-4', {})
    expect(faultsIn(unsaid).join()).toContain('How many came out whole?')
    const { entry } = await pressed(pottery, '/kiln/unload/load-4', { 'whole-plates': '4' })
    await sameAs(pottery, entry, {
      act: 'glaze-fire',
      said: { runs: [{ runId: 'plates', pieces: 4 }] },
    })
  })
})

describe('grading', () => {
  test('what nobody counted apart is a first', async () => {
    expect((await pageAt(pottery, '/kiln')).text).toContain('href="/kiln/grade/mugs"')
    const { entry } = await pressed(pottery, '/kiln/grade/mugs', {
      ...{ firsts: '', seconds: '2', wasters: '1', cause: 'glaze ran' },
    })
    await sameAs(pottery, entry, {
      act: 'grade',
      said: { runId: 'mugs', firsts: 14, seconds: 2, wasters: 1, cause: 'glaze ran' },
    })
  })

  test('counts that were said count, and too many come back', async () => {
    const many = await send(pottery, '/kiln/grade/plates', {
      ...{ firsts: '4', seconds: '1', wasters: '0', note: 'kept' },
    })
    expect([many.status, valueIn(many.text, 'seconds'), valueIn(many.text, 'note')]).toEqual([
      409,
      '1',
      'kept',
    ])
    const { entry } = await pressed(pottery, '/kiln/grade/plates', { firsts: '1', seconds: '1' })
    expect(entry.said).toMatchObject({ firsts: 1, seconds: 1, wasters: 0 })
    const other = await twin(pottery, 'grade', entry.said)
    expect(moved(entry)).toEqual(moved(other))
  })
})
