import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openPottery, type Body, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

const g = (value: string) => ({ value, unit: 'g' })
const kg = (value: string) => ({ value, unit: 'kg' })
const sample = (dry: string) => ({ wetWithTin: g('100.00'), dryWithTin: g(dry) })
const at = (day: string) => `2026-${day}T10:00:00Z`

async function turningsOf(bodyId: string): Promise<Body> {
  const { body } = await pottery.ask('GET', `/v1/bodies/${bodyId}/moisture`)
  const states = (body.states ?? body.items ?? body) as readonly Body[]
  return states.find((row) => row.state === 'turnings') as Body
}

describe('the figure for the water of a clay', () => {
  test('is the handbook’s while nobody has tested it', async () => {
    expect(await turningsOf('buff')).toMatchObject({
      ...{ waterContentWetBasis: '0.15', standardUncertainty: '0.015', standing: 'assumed' },
      ...{ tests: 0, weightOfTests: '0', words: 'Assumed: nobody has tested it here.' },
    })
  })

  test('is drawn towards a test by how sure that is, and says what stands behind it', async () => {
    const test = { bodyId: 'buff', state: 'turnings', sample: sample('80.00') }
    await pottery.does('dry-test', { ...test, happenedAt: at('04-02') })
    // Believed 0.15, of the whole by 0.015 x root(3/4): a variance of 0.00016875. The sample says 0.2 by
    // 0.002, and batches differ by 0.0075: 0.00006025. Of both it has 0.00016875 / 0.000229.
    const row = await turningsOf('buff')
    expect(Number(row.weightOfTests)).toBeCloseTo(0.16875 / 0.229, 4)
    expect(Number(row.waterContentWetBasis)).toBeCloseTo(0.15 + (0.05 * 0.16875) / 0.229, 4)
    const shared = 0.00016875 * (1 - 0.16875 / 0.229)
    expect(Number(row.sharedUncertainty)).toBeCloseTo(Math.sqrt(shared), 5)
    expect(row.betweenBatches).toBe('0.0075')
    expect(Number(row.standardUncertainty)).toBeCloseTo(Math.hypot(Math.sqrt(shared), 0.0075), 5)
    expect(row).toMatchObject({ tests: 1, standing: 'estimated', method: 'studio_tests' })
    expect(row.words).toBe(
      '74 % of it is the word of one dry test; the rest is the 15.0 % that was believed before.',
    )
  })

  test('is of the tests alone that stand: one that is taken back leaves it as it was', async () => {
    const test = { bodyId: 'white', state: 'turnings', sample: sample('80.00') }
    const before = await turningsOf('white')
    const { entry } = await pottery.does('dry-test', test)
    expect((await turningsOf('white')).tests).toBe(1)
    await pottery.does('correct', { entryId: (entry as Body).entryId })
    expect(await turningsOf('white')).toEqual(before)
  })
})

test('a sample is of a lot or of a vessel, not of both', async () => {
  const test = { bodyId: 'buff', state: 'slops', sample: sample('50.00') }
  const both = { ...test, lotId: 'some-lot', vesselId: 'bucket-1' }
  const { status, body } = await pottery.ask('POST', '/v1/acts/dry-test', { body: both })
  expect(status).toBe(422)
  expect(body.errors?.[0]).toMatchObject({ pointer: '#/vesselId' })
})

describe('the month report, of clay that a count does not find', () => {
  const words = async (month: string) => {
    const { body } = await pottery.ask('GET', `/v1/reports/month?month=${month}`)
    return body.unexplainedWords
  }

  beforeAll(async () => {
    const clay = { what: 'clay', bodyId: 'white', lotId: 'shelf', reading: { net: kg('20.000') } }
    await pottery.does('open-books', { happenedAt: at('04-01'), items: [clay] })
  })
  const count = async (day: string, grams: string) => {
    const holdingId = await pottery.holdingAt('bench')
    const water = { content: '0.22', basis: 'wet', standing: 'stated' }
    const reading = { net: g(grams) }
    await pottery.does('count', { happenedAt: at(day), holdingId, reading, water })
  }

  test('says nothing where nothing is unexplained', async () => {
    expect(await words('2026-03')).toBe('Unexplained: nothing.')
  })

  test('calls a shortage within its uncertainty no finding', async () => {
    // 0.234 kg of 15.6 kg are missing; two water contents leave 2 x root(2) x 1.5 % of 20 kg open.
    await count('04-20', '19700')
    expect(await words('2026-04')).toMatch(
      /^Unexplained: -0\.234 kg of dry clay, give or take 0\.\d{3} kg: not distinguishable from zero\.$/,
    )
  })

  test('says of a large one that it is more than what was measured leaves open', async () => {
    // Again by the same water content, so that only the scale is unsure of what went between the two.
    await count('05-20', '17700')
    expect(await words('2026-05')).toMatch(
      /^Unexplained: -1\.560 kg of dry clay, give or take 0\.\d{3} kg: more than what was measured leaves open\.$/,
    )
  })
})
