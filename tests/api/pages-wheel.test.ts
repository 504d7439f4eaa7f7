import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import {
  faultsIn,
  openBags,
  pageAt,
  pressed,
  sameAs,
  send,
  sendKept,
  valueIn,
} from './page-acts.ts'
import { chosen } from './page-forms.ts'
import { g, kg } from '../support/studio.ts'
import { NEIGHBOUR, openPottery, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await openBags(pottery)
})
afterAll(() => pottery.close())

const BALLS = { lotId: 'o1', how: 'balls', balls: '20', ballMass: '400', ballMassUnit: 'g' }

describe('throwing', () => {
  test('begins with the forms, and with the ball of the catalogue before anything was thrown', async () => {
    const { text } = await pageAt(pottery, '/wheel/throw')
    expect(text).toContain('href="/wheel/throw/mug"')
    expect(text).toContain('href="/books/things/forms"')
    const mug = await pageAt(pottery, '/wheel/throw/mug')
    expect(valueIn(mug.text, 'ballMass')).toBe('400')
    expect(valueIn(mug.text, 'balls')).toBeUndefined()
    expect(mug.text.match(/<h1[ >]/g)).toHaveLength(1)
  })

  test('records what the API records, under a name of form and day', async () => {
    const { entry, to } = await pressed(pottery, '/wheel/throw/mug', { ...BALLS, by: 'Ines' })
    const runId = to.replace('/wheel/run/', '')
    expect(entry.said['label']).toBe('Mug, 15 Jun 2026')
    const { label } = entry.said
    const said = {
      formId: 'mug',
      label,
      from: [{ lotId: 'o1', balls: 20, ballMass: g('400') }],
      by: 'Ines',
    }
    // The page leaves the id of the run to the ledger; its twin needs the same for what comes after.
    const { body } = await pottery.ask('POST', '/v1/acts/throw', {
      studio: NEIGHBOUR,
      body: { ...said, runId },
    })
    expect(entry.said).toEqual(said)
    expect((body['made'] as { runId: string }).runId).toBe(runId)
  })

  test('the next time the last one stands ready: press and it is done', async () => {
    const { text } = await pageAt(pottery, '/wheel/throw/mug')
    expect([valueIn(text, 'balls'), valueIn(text, 'ballMass')]).toEqual(['20', '400'])
    expect(chosen(text, 'lotId', 'o1')).toBe(true)
    const wheel = await pageAt(pottery, '/wheel')
    expect(wheel.text).toContain('Mug again')
    expect(wheel.text).toContain('20 × 400 g')
  })

  test('another clay is none until one is chosen, and can be none again', async () => {
    const isNone = (html: string) =>
      ['lotId', 'lotId2', 'lotId3'].map((name) => chosen(html, name, ''))
    expect(isNone((await pageAt(pottery, '/wheel/throw/mug')).text)).toEqual([false, true, true])
    const touched = { ...BALLS, lotId2: 'o2', lotId3: '', how3: 'lump' }
    const refused = await send(pottery, '/wheel/throw/mug', touched)
    expect(faultsIn(refused).join()).toContain('href="#balls2"')
    expect(chosen(refused.text, 'lotId2', 'o2')).toBe(true)
    expect(isNone(refused.text)).toEqual([false, false, true])
    const tried = { ...touched, lotId2: '', preview: 'true' }
    const answer = await send(pottery, '/wheel/throw/mug', tried)
    expect(answer.status).toBe(200)
    expect(answer.text).not.toContain('How many balls?')
    expect(answer.text).toContain('<dt>Dry clay</dt>')
  })

  test('takes all that is left, and several clays, with pieces that balls do not tell', async () => {
    const { entry } = await pressed(pottery, '/wheel/throw/plate', {
      ...{ lotId: 'o2', how: 'left', balls: '', ballMass: '' },
      ...{ lotId2: 'o1', how2: 'lump', lump2: '3,20', lump2Unit: 'kg' },
      ...{ pieces: '9', label: 'Big plates' },
    })
    await sameAs(pottery, entry, {
      act: 'throw',
      said: {
        formId: 'plate',
        label: 'Big plates',
        from: [
          { lotId: 'o2', whatIsLeft: true },
          { lotId: 'o1', reading: { net: kg('3.20') } },
        ],
        pieces: 9,
      },
    })
  })

  test.each([
    [{ ...BALLS, balls: '' }, 'How many balls?', 'balls'],
    [{ ...BALLS, ballMass: '' }, 'One ball weighs what?', 'ballMass'],
    [{ ...BALLS, how: 'left' }, 'How many pieces were begun?', 'pieces'],
    [{ ...BALLS, how: 'lump' }, 'What does it weigh?', 'lump'],
    [{ ...BALLS, balls: 'many' }, 'This is text; it must be a number.', 'balls'],
    [{ ...BALLS, balls: '900' }, 'o1', 'lotId'],
  ])('what is wrong comes back at its field, all else kept: %j', async (fields, words, field) => {
    const before = await pottery.entries()
    const answer = await send(pottery, '/wheel/throw/mug', { ...fields, label: 'My mugs' })
    expect([409, 422]).toContain(answer.status)
    expect(faultsIn(answer).join()).toContain(`href="#${field}"`)
    if (words !== 'o1') expect(faultsIn(answer).join()).toContain(words)
    expect(valueIn(answer.text, 'label')).toBe('My mugs')
    expect(chosen(answer.text, 'how', fields.how)).toBe(true)
    expect(await pottery.entries()).toBe(before)
  })

  test.each([
    ['2199-01-01T10:00', 'That is still to come by the studio’s clock.'],
    ['yesterday', 'Write the day and the time.'],
  ])('of a moment that cannot be, %s, speaks of the wall’s clock', async (when, words) => {
    const answer = await send(pottery, '/wheel/throw/mug', { ...BALLS, when })
    expect(answer.status).toBe(422)
    expect(faultsIn(answer)).toEqual([`<a href="#when">${words}</a>`])
    expect(answer.text).not.toMatch(/happenedAt|offset/)
    const kept = await sendKept(pottery, '/wheel/throw/mug', { ...BALLS, when })
    const { detail, errors } = kept.body
    expect([detail, errors?.[0]?.detail]).toContain(words)
  })

  test('a form that is not there is said so, and a double press is one run', async () => {
    expect((await pageAt(pottery, '/wheel/throw/teapot')).status).toBe(404)
    const once = { ...BALLS, balls: '2', key: 'press-1' }
    const first = await pressed(pottery, '/wheel/throw/mug', once)
    const again = await pressed(pottery, '/wheel/throw/mug', once)
    expect(again.entryId).toBe(first.entryId)
  })
})

describe('the phone’s own queue', () => {
  test('gets the plain answer and where to go, and problems as problems', async () => {
    const ok = await sendKept(pottery, '/wheel/throw/mug', { ...BALLS, balls: '1' })
    expect(ok.status).toBe(201)
    expect(ok.headers.get('slakebook-next')).toMatch(/^\/wheel\/run\/[^?]+\?did=/)
    const bad = await sendKept(pottery, '/wheel/throw/mug', { ...BALLS, balls: '' })
    expect([bad.status, bad.contentType]).toEqual([422, 'application/problem+json'])
  })

  test('a preview says what would be recorded and records nothing', async () => {
    const before = await pottery.entries()
    const answer = await send(pottery, '/wheel/throw/mug', { ...BALLS, preview: 'true' })
    expect(answer.status).toBe(200)
    expect(answer.text).toContain('Dry clay')
    expect(answer.text).not.toContain('<html')
    expect(await pottery.entries()).toBe(before)
  })
})
