import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { faultsIn, openBags, pageAt, pressed, sameAs, send, valueIn } from './page-acts.ts'
import { chosen } from './page-forms.ts'
import { g, kg } from '../support/studio.ts'
import { NEIGHBOUR, openPottery, STUDIO, type Pottery } from './pottery.ts'

const runId = 'new-mugs'
const at = (action: string) => `/wheel/run/${runId}/${action}`

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await openBags(pottery)
  const from = [{ lotId: 'o1', balls: 20, ballMass: g('400') }]
  for (const studio of [STUDIO, NEIGHBOUR]) {
    await pottery.does('throw', { formId: 'mug', runId, from }, { studio })
  }
})
afterAll(() => pottery.close())

describe('a run on its boards', () => {
  test('stands on the wheel and on its page, with what to do next', async () => {
    const wheel = await pageAt(pottery, '/wheel')
    expect(wheel.text).toContain(`href="/wheel/run/${runId}"`)
    expect(wheel.text).toContain('Just thrown')
    expect(wheel.text).toContain('A guess:')
    const { text } = await pageAt(pottery, `/wheel/run/${runId}`)
    for (const action of ['turn', 'join', 'lose']) expect(text).toContain(`href="${at(action)}"`)
    expect(text).toContain(`/kiln/load/bisque?runIds=${runId}`)
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
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
    {
      action: 'turn',
      fields: { way: 'alone', amount: '' },
      words: 'What does the scale show?',
      field: 'amount',
    },
    {
      action: 'turn',
      fields: { way: 'bucket', bucketAfter: '1' },
      words: 'And before?',
      field: 'bucketBefore',
    },
    {
      action: 'turn',
      fields: { way: 'pots', potsBefore: '5' },
      words: 'And after?',
      field: 'potsAfter',
    },
    { action: 'turn', fields: { way: 'alone', amount: '99' }, words: 'dry', field: 'amount' },
    {
      action: 'lose',
      fields: { pieces: '', stage: 'drying' },
      words: 'How many?',
      field: 'pieces',
    },
    {
      action: 'lose',
      fields: { pieces: '1', stage: 'drying', cause: '' },
      words: 'Why?',
      field: 'cause',
    },
    {
      action: 'lose',
      fields: { pieces: '99', stage: 'drying', cause: 'x' },
      words: '99 were named',
      field: 'pieces',
    },
  ])('$action with $fields is not recorded: $words', async (row) => {
    const { action, fields, words, field } = row
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
