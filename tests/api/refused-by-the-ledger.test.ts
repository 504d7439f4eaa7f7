import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import {
  openClay,
  openPottery,
  problem,
  problemIn,
  throwMugs,
  type Answered,
  type Pottery,
} from './pottery.ts'

let pottery: Pottery
let supplier: string
beforeAll(async () => {
  pottery = await openPottery()
  await openClay(pottery)
  await throwMugs(pottery)
  const slops = { runIds: ['r1'], vesselId: 'bucket-1', state: 'slops', reading: { net: g('900') } }
  await pottery.does('collect-slops', slops)
  await pottery.does('slake', {
    fromVesselId: 'bucket-1',
    basinVesselId: 'basin-1',
    water: { net: kg('2.0') },
  })
  supplier = await pottery.holdingAt('supplier')
})
afterAll(() => pottery.close())

async function refused(act: string, body: unknown): Promise<Answered> {
  const before = await pottery.entries()
  const answer = await pottery.ask('POST', `/v1/acts/${act}`, { body })
  expect(await pottery.entries()).toBe(before)
  return answer
}

const mugs = (more: object) => ({
  formId: 'mug',
  from: [{ lotId: 'o1', balls: 2, ballMass: g('400') }],
  ...more,
})

describe('what cannot have been', () => {
  test('mugs thrown before their bag was opened are refused', async () => {
    const answer = await refused('throw', mugs({ happenedAt: '2026-06-01T09:00:00Z' }))
    const code = 'holding_must_not_have_been_negative'
    expect(problemIn(answer)).toMatchObject({ status: 409, type: `/problems/${code}` })
  })

  test('turning off all the clay of a run is refused', async () => {
    const holding = await pottery.ask('GET', '/v1/holdings?place=greenware&runId=r1')
    const [run] = holding.body['items'] as { dryGrams: string; waterGrams: string }[]
    const answer = await pottery.ask('POST', '/v1/acts/turn?preview=true', {
      body: {
        runId: 'r1',
        vesselId: 'bucket-2',
        turnings: { net: g(run?.dryGrams ?? '') },
        water: { content: '0', basis: 'wet' },
      },
    })
    expect(problemIn(answer)).toMatchObject({
      status: 409,
      type: '/problems/pieces_must_have_clay',
    })
  })

  test('twenty mugs that come out of the fire with one gram are refused', async () => {
    const answer = await refused('bisque', { runs: [{ runId: 'r1', reading: { net: g('1') } }] })
    expect(problemIn(answer)).toEqual(
      problem(422, 'fire_must_leave_most_of_the_clay', ['#/runs/0/reading']),
    )
  })

  test('water that is drawn off into its own basin is refused', async () => {
    const answer = await refused('decant', {
      basinVesselId: 'basin-1',
      intoVesselId: 'basin-1',
      reading: { net: g('100') },
      clarity: 'clear',
    })
    expect(problemIn(answer)).toEqual(problem(422, 'vessel_must_be_another', ['#/intoVesselId']))
  })

  test.each(['count', 'discard'])('the supplier is outside, and no %s goes there', async (act) => {
    const said = act === 'count' ? { pieces: 3 } : { reason: 'dirty' }
    const answer = await refused(act, { holdingId: supplier, ...said })
    expect(problemIn(answer)).toEqual(problem(422, 'holding_must_be_inside', ['#/holdingId']))
  })

  test('a dry test of one clay sets no lot of another right', async () => {
    const answer = await refused('dry-test', {
      bodyId: 'white',
      state: 'wedged',
      lotId: 'o1',
      sample: { wetWithTin: g('100'), dryWithTin: g('80') },
    })
    expect(problemIn(answer)).toEqual(problem(422, 'lot_must_be_of_the_body', ['#/lotId']))
  })
})

describe('how many pieces', () => {
  test('as many as there are balls, said or not', async () => {
    await pottery.does('throw', mugs({ runId: 'said', pieces: 2 }))
    await pottery.does('throw', mugs({ runId: 'unsaid' }))
  })

  test('another number than the balls is refused, in words', async () => {
    const answer = await refused('throw', mugs({ pieces: 3 }))
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/pieces']))
    expect(answer.body.errors?.[0]?.detail).toContain('2 balls were cut')
  })

  test('is asked where some of the clay is not told in balls', async () => {
    const from = [...mugs({}).from, { lotId: 'o1', reading: { net: g('400') } }]
    const answer = await refused('throw', mugs({ from }))
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/pieces']))
    await pottery.does('throw', mugs({ from, pieces: 3 }))
  })
})

test('a glaze fire takes no reading', async () => {
  const runs = [{ runId: 'r1', reading: { net: kg('5') } }]
  const answer = await refused('glaze-fire', { runs })
  expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/runs/0/reading']))
})

test('a blend is one from the beginning', async () => {
  const answer = await pottery.ask('PATCH', '/v1/bodies/buff', { body: { isBlend: true } })
  expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/isBlend']))
  expect(answer.body.errors?.[0]?.detail).toContain('fixed when the body is made')
})

test.each(['0.51', '-0.1'])('no fire takes %s of the dry clay', async (lossOnIgnitionFraction) => {
  const body = { name: 'Half gone', lossOnIgnitionFraction }
  const answer = await pottery.ask('POST', '/v1/bodies', { body })
  const pointer = '#/lossOnIgnitionFraction'
  expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [pointer]))
})

test('an id that is none is told of what ids are made', async () => {
  const answer = await refused('throw', mugs({ formId: 'Mug' }))
  expect(answer.body.errors?.[0]?.detail).toBe(
    'An id is made of small letters, digits and hyphens, at most 64, beginning with a letter or digit.',
  )
})

describe('money', () => {
  const bag = { bodyId: 'buff', bags: 1, bagMass: kg('12.5') }

  test('finer than a penny is refused, wherever it is said', async () => {
    const delivery = {
      clays: [
        { ...bag, price: '15.00' },
        { ...bag, price: '1.005' },
      ],
    }
    const answer = await refused('receive-delivery', { ...delivery, freight: '0.001' })
    const pointers = ['#/clays/1/price', '#/freight']
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', pointers))
    expect(answer.body.errors?.[0]?.detail).toContain('GBP has 2 digits after the point')
  })

  test.each([
    [
      'sell',
      '#/priceEach',
      { formId: 'mug', grade: 'first', pieces: 1, channel: 'fair', priceEach: '9.999' },
    ],
    ['open-books', '#/items/0/cost', { items: [{ what: 'bags', ...bag, cost: '9.999' }] }],
    [
      'correct',
      '#/postAgain/content/clays/0/price',
      {
        entryId: 'any',
        postAgain: { act: 'receive-delivery', content: { clays: [{ ...bag, price: '9.999' }] } },
      },
    ],
  ])('finer than a penny is refused: %s', async (act, pointer, said) => {
    const answer = await refused(act, said)
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [pointer]))
  })

  test.each([
    ['POST', '/v1/forms', { name: 'Cup', price: '9.999' }],
    ['PATCH', '/v1/forms/mug', { price: '9.999' }],
  ])('finer than a penny is refused: %s %s', async (method, path, body) => {
    const answer = await pottery.ask(method, path, { body })
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/price']))
  })

  test('with zeros after its last coin is the same money', async () => {
    await pottery.does('receive-delivery', { clays: [{ ...bag, price: '15.0000' }] })
  })

  test('of a currency without small coins is whole, of one in thousandths may have three', async () => {
    for (const [studio, currency, right, wrong] of [
      ['kyoto', 'JPY', '1500', '1500.5'],
      ['tunis', 'TND', '1.505', '1.5055'],
    ] as const) {
      const said = { studioId: studio, name: studio, currency, timeZone: 'Asia/Tokyo' }
      await pottery.ask('POST', '/v1/studios', { body: said })
      const form = (price: string) =>
        pottery.ask('POST', '/v1/forms', { studio, body: { name: 'Cup', price } })
      expect(problemIn(await form(wrong)).pointers).toEqual(['#/price'])
      expect((await form(right)).status).toBe(201)
    }
  })
})
