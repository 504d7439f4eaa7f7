import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { faultsIn, pageAt, pressed, sameAs, send, valueIn } from './page-acts.ts'
import { chosen } from './page-forms.ts'
import { g, kg } from '../support/studio.ts'
import { NEIGHBOUR, openPottery, STUDIO, type Pottery } from './pottery.ts'

let pottery: Pottery
let runId = ''
beforeAll(async () => {
  pottery = await openPottery()
  for (const studio of [STUDIO, NEIGHBOUR]) {
    const delivery = { bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }
    const early = { happenedAt: '2026-06-01T10:00:00Z' }
    await pottery.does('receive-delivery', { clays: [delivery], ...early }, { studio })
    await pottery.does('open-bag', { lotId: 'd1', bags: 2, newLotId: 'o1', ...early }, { studio })
    await pottery.does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o2', ...early }, { studio })
  }
})
afterAll(() => pottery.close())

const at = (action: string) => `/wheel/run/${runId}/${action}`
const BALLS = { lotId: 'o1', how: 'balls', balls: '20', ballMass: '400', ballMassUnit: 'g' }

describe('throwing', () => {
  test('begins with the forms, and with the ball of the catalogue before anything was thrown', async () => {
    const { text } = await pageAt(pottery, '/wheel/throw')
    expect(text).toContain('href="/wheel/throw/mug"')
    expect(text).toContain('href="/books/things/forms"')
    const mug = await pageAt(pottery, '/wheel/throw/mug')
    expect(valueIn(mug.text, 'ballMass')).toBe('400')
    expect(valueIn(mug.text, 'balls')).toBeUndefined()
    expect(mug.text.match(/<h1>/g)).toHaveLength(1)
  })

  test('records what the API records, under a name of form and day', async () => {
    const { entry, to } = await pressed(pottery, '/wheel/throw/mug', { ...BALLS, by: 'Ines' })
    runId = to.replace('/wheel/run/', '')
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

  test('a form that is not there is said so, and a double press is one run', async () => {
    expect((await pageAt(pottery, '/wheel/throw/teapot')).status).toBe(404)
    const once = { ...BALLS, balls: '2', key: 'press-1' }
    const first = await pressed(pottery, '/wheel/throw/mug', once)
    const again = await pressed(pottery, '/wheel/throw/mug', once)
    expect(again.entryId).toBe(first.entryId)
  })
})

describe('a run on its boards', () => {
  test('stands on the wheel and on its page, with what to do next', async () => {
    const wheel = await pageAt(pottery, '/wheel')
    expect(wheel.text).toContain(`href="/wheel/run/${runId}"`)
    expect(wheel.text).toContain('Just thrown')
    expect(wheel.text).toContain('A guess:')
    const { text } = await pageAt(pottery, `/wheel/run/${runId}`)
    for (const action of ['turn', 'join', 'lose']) expect(text).toContain(`href="${at(action)}"`)
    expect(text).toContain(`/kiln/load/bisque?runIds=${runId}`)
    expect(text.match(/<h1>/g)).toHaveLength(1)
  })

  test('gives slops, alone on the scale', async () => {
    const { text } = await pageAt(pottery, `/wheel/slops?runIds=${runId}`)
    expect(chosen(text, 'runIds', runId)).toBe(true)
    const { entry } = await pressed(pottery, '/wheel/slops', {
      ...{ runIds: runId, state: 'slops', way: 'alone', amount: '0.42', amountUnit: 'kg' },
      vesselId: 'bucket-2',
    })
    await sameAs(pottery, entry, {
      act: 'collect-slops',
      said: {
        runIds: [runId],
        state: 'slops',
        reading: { net: kg('0.42') },
        vesselId: 'bucket-2',
      },
    })
  })

  test('is turned: the bucket before is the tare of the bucket after', async () => {
    const page = await pageAt(pottery, at('turn'))
    expect(page.text).toContain('comes off by your word')
    const { entry, to } = await pressed(pottery, at('turn'), {
      ...{ way: 'bucket', bucketBefore: '0.40', bucketBeforeUnit: 'kg' },
      ...{ bucketAfter: '0.86', bucketAfterUnit: 'kg', vesselId: 'bucket-1' },
    })
    expect(to).toBe(`/wheel/run/${runId}`)
    await sameAs(pottery, entry, {
      act: 'turn',
      said: {
        runId,
        vesselId: 'bucket-1',
        turnings: { gross: kg('0.86'), tare: kg('0.40') },
      },
    })
    const { text } = await pageAt(pottery, to)
    expect(text).toContain('Turned off')
    expect(text).toContain('Too few runs')
  })

  test('is turned by the pots before and after, and by a bucket that was empty', async () => {
    const pots = await pressed(pottery, at('turn'), {
      ...{ way: 'pots', potsBefore: '7.30', potsBeforeUnit: 'kg' },
      ...{ potsAfter: '7.25', potsAfterUnit: 'kg', vesselId: 'bucket-1' },
    })
    await sameAs(pottery, pots.entry, {
      act: 'turn',
      said: {
        runId,
        vesselId: 'bucket-1',
        before: { net: kg('7.30') },
        after: { net: kg('7.25') },
      },
    })
    const filled = await pressed(pottery, at('turn'), {
      ...{ way: 'filled', amount: '0.450', amountUnit: 'kg', vesselId: 'bucket-3' },
      scaleId: 'bench',
    })
    const reading = { gross: kg('0.450'), inVesselId: 'bucket-3', scaleId: 'bench' }
    await sameAs(pottery, filled.entry, {
      act: 'turn',
      said: { runId, vesselId: 'bucket-3', turnings: reading },
    })
    expect((await pageAt(pottery, at('turn'))).text).toMatch(/value="bucket-3"[^>]*checked/)
  })

  test('gets handles, with what was cut off again', async () => {
    expect(valueIn((await pageAt(pottery, at('join'))).text, 'balls')).toBe('20')
    const { entry } = await pressed(pottery, at('join'), {
      ...{ lotId: 'o1', how: 'balls', balls: '20', ballMass: '45', ballMassUnit: 'g' },
      ...{ offCuts: '150', offCutsUnit: 'g', vesselId: 'bucket-1' },
    })
    await sameAs(pottery, entry, {
      act: 'join',
      said: {
        runId,
        from: [{ lotId: 'o1', balls: 20, ballMass: g('45') }],
        offCuts: { reading: { net: g('150') }, vesselId: 'bucket-1' },
      },
    })
  })

  test('loses some, back into a bucket; the cause is one touch the next time', async () => {
    const lost = { pieces: '2', stage: 'leather_hard', vesselId: 'bucket-1' }
    const { entry } = await pressed(pottery, at('lose'), { ...lost, cause: 'rim cracked' })
    await sameAs(pottery, entry, {
      act: 'lose',
      said: {
        runId,
        pieces: 2,
        stage: 'leather_hard',
        cause: 'rim cracked',
        vesselId: 'bucket-1',
      },
    })
    const { text } = await pageAt(pottery, at('lose'))
    expect(text).toContain('name="causeBefore" value="rim cracked"')
    const again = await pressed(pottery, at('lose'), {
      ...{ ...lost, pieces: '1', causeBefore: 'rim cracked' },
      ...{ lost: '350', lostUnit: 'g' },
    })
    await sameAs(pottery, again.entry, {
      act: 'lose',
      said: { runId, ...lost, pieces: 1, cause: 'rim cracked', reading: { net: g('350') } },
    })
  })

  test('dry clay is said to be dusty before anything is recorded', async () => {
    const before = await pottery.entries()
    const lost = { pieces: '1', stage: 'drying', cause: 'dropped', vesselId: 'bucket-1' }
    const answer = await send(pottery, at('lose'), lost)
    expect(answer.status).toBe(200)
    expect(answer.text).toContain('Dust')
    expect(answer.text).toContain('name="seen" value="yes"')
    expect(await pottery.entries()).toBe(before)
  })

  test.each([
    ['turn', { way: 'alone', amount: '' }, 'What does the scale show?', 'amount'],
    ['turn', { way: 'bucket', bucketAfter: '1' }, 'And before?', 'bucketBefore'],
    ['turn', { way: 'pots', potsBefore: '5' }, 'And after?', 'potsAfter'],
    ['turn', { way: 'alone', amount: '99' }, 'dry', 'amount'],
    ['lose', { pieces: '', stage: 'drying' }, 'How many?', 'pieces'],
    ['lose', { pieces: '1', stage: 'drying', cause: '' }, 'Why?', 'cause'],
    ['lose', { pieces: '99', stage: 'drying', cause: 'x' }, '99 were named', 'pieces'],
  ])('%s with %j is not recorded: %s', async (action, fields, words, field) => {
    const before = await pottery.entries()
    const answer = await send(pottery, at(action), {
      vesselId: 'bucket-1',
      seen: 'yes',
      note: 'kept as typed',
      ...fields,
    })
    expect([409, 422]).toContain(answer.status)
    const faults = faultsIn(answer).join()
    expect(faults).toContain(words)
    expect(faults).toContain(`href="#${field}"`)
    expect(valueIn(answer.text, 'note')).toBe('kept as typed')
    expect(await pottery.entries()).toBe(before)
  })

  test('a bucket of another clay asks what the two become, and takes the answer', async () => {
    const item = {
      ...{ what: 'scrap', bodyId: 'white', vesselId: 'white-pail', state: 'turnings', cost: '1' },
      reading: { net: g('500') },
    }
    for (const studio of [STUDIO, NEIGHBOUR]) {
      const pail = { vesselId: 'white-pail', name: 'White pail', kind: 'bucket', tareGrams: '400' }
      const made = await pottery.ask('POST', '/v1/vessels', { studio, body: pail })
      expect(made.status).toBe(201)
      await pottery.does('open-books', { items: [item] }, { studio })
    }
    const fields = { way: 'alone', amount: '0.10', amountUnit: 'kg', vesselId: 'white-pail' }
    const refused = await send(pottery, at('turn'), { seen: 'yes', ...fields })
    expect(refused.status).toBe(422)
    expect(faultsIn(refused).join()).toContain('href="#vesselId"')
    expect(refused.text).toContain('name="blendBodyId" value="pepper"')
    const { entry } = await pressed(pottery, at('turn'), { ...fields, blendBodyId: 'pepper' })
    await sameAs(pottery, entry, {
      act: 'turn',
      said: {
        runId,
        vesselId: 'white-pail',
        turnings: { net: kg('0.10') },
        blendBodyId: 'pepper',
      },
    })
  })
})

describe('the phone’s own queue', () => {
  test('gets the plain answer and where to go, and problems as problems', async () => {
    const json = { Accept: 'application/json' }
    const ok = await send(pottery, '/wheel/throw/mug', { ...BALLS, balls: '1' }, json)
    expect(ok.status).toBe(201)
    expect(ok.headers.get('slakebook-next')).toMatch(/^\/wheel\/run\/[^?]+\?did=/)
    const bad = await send(pottery, '/wheel/throw/mug', { ...BALLS, balls: '' }, json)
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
