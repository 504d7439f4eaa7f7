import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openPottery, problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

describe('/v1/bodies/{id}/moisture', () => {
  interface Row {
    readonly state: string
    readonly waterContentWetBasis: string
    readonly standing: string
    readonly method: string
    readonly tests: number
    readonly source: string | null
  }
  const moisture = async () => {
    const { body } = await pottery.ask('GET', '/v1/bodies/buff/moisture')
    return new Map((body['states'] as Row[]).map((row) => [row.state, row]))
  }

  test('is the default with its source, then what is stated, then what was tested here', async () => {
    const before = (await moisture()).get('wedged')
    expect(before).toMatchObject({ method: 'default_for_state', standing: 'assumed', tests: 0 })
    expect(before?.source).not.toBeNull()

    const wedged = { waterContentWetBasis: '0.23', standardUncertainty: '0.01' }
    await pottery.ask('PATCH', '/v1/bodies/buff', { body: { moisture: { wedged } } })
    const stated = (await moisture()).get('wedged')
    expect(stated).toMatchObject({ ...wedged, method: 'body_figure', source: null })

    const grams = (value: string) => ({ value, unit: 'g' })
    await pottery.does('dry-test', {
      bodyId: 'buff',
      state: 'wedged',
      sample: { tin: grams('20.0'), wetWithTin: grams('120.0'), dryWithTin: grams('98.0') },
    })
    const tested = (await moisture()).get('wedged')
    expect(tested).toMatchObject({
      // Stated 0.23 with 0.01, half of that doubt of the batch; tested 0.22 with 0.002 of sampling and
      // 0.00037 of the scale: weights 1/0.000075 and 1/0.0000291.
      waterContentWetBasis: '0.222798',
      method: 'studio_tests',
      standing: 'estimated',
      tests: 1,
    })
  })

  test('is none of a body that there is not', async () => {
    const answer = await pottery.ask('GET', '/v1/bodies/nothing/moisture')
    expect(problemIn(answer)).toEqual(problem(404, 'body_not_found'))
  })
})
