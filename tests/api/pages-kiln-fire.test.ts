import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { faultsIn, entryOf, openBags, pageAt, pressed, send, valueIn } from './page-acts.ts'
import { chosen } from './page-forms.ts'
import { kg } from '../support/studio.ts'
import { openPottery, type Pottery } from './pottery.ts'

const RUNS = ['first', 'second', 'third', 'fourth'] as const

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await openBags(pottery)
  const early = { happenedAt: '2026-06-01T11:00:00Z' }
  for (const runId of RUNS) {
    const from = [{ lotId: 'o1', balls: 10, ballMass: kg('0.400') }]
    await pottery.does('throw', { formId: 'mug', runId, from, label: runId, ...early })
  }
})
afterAll(() => pottery.close())

const kiln = (body: object) => pottery.ask('POST', '/v1/kilns', { body })

async function loaded(key: string, runId: string, fields: Record<string, string> = {}) {
  const { status } = await send(pottery, '/kiln/load/bisque', { key, all: runId, ...fields })
  expect(status).toBe(303)
  return `/kiln/unload/${key}`
}

const previewOf = async (path: string, fields: Record<string, string>) =>
  (await send(pottery, path, { preview: 'true', ...fields })).text

async function firingOf(entryId: string) {
  return (await entryOf(pottery, entryId)) as unknown as {
    firing: Record<string, unknown> | null
    said: { firing?: unknown }
  }
}

describe('a fire on the pages', () => {
  test('without a kiln in the books nothing is asked of it', async () => {
    const path = await loaded('load-1', 'first')
    const { text } = await pageAt(pottery, path)
    expect(text).not.toContain('Meter after')
    expect((await pageAt(pottery, '/kiln')).text).toContain('href="/books/things/kilns/new"')
    await send(pottery, '/kiln/take-out/load-1', {})
  })

  test('with one kiln loading asks nothing, and the preview says that no size tells how full', async () => {
    const body = { kilnId: 'top', name: 'Top loader', pricePerKilowattHour: '0.28' }
    expect((await kiln({ ...body, volumeLitres: '100', wearPerFiring: '2.40' })).status).toBe(201)
    expect((await pageAt(pottery, '/kiln/load/bisque')).text).not.toContain('Into which kiln')
    const preview = await previewOf('/kiln/load/bisque', { all: 'first' })
    expect(preview).toContain('10 pieces go in')
    expect(preview).toContain('enter its volume, and the room that each form takes')
  })

  test('nothing typed tells nothing where nothing is usual yet', async () => {
    const path = await loaded('load-2', 'first')
    const { text } = await pageAt(pottery, path)
    expect(text).toContain('nothing is usual yet')
    const { entryId } = await pressed(pottery, path, { key: 'u2', 'whole-first': '10' })
    expect((await firingOf(entryId)).firing).toBeNull()
  })

  test('the meter tells, with candling apart and how full; money and a full kiln are said', async () => {
    const path = await loaded('load-3', 'second')
    const fields = {
      ...{ 'whole-second': '9', meterBefore: '20418', meterAfter: '20512' },
      ...{ candlingKilowattHours: '4', full: '50', shareBy: 'count' },
    }
    const preview = await previewOf(path, fields)
    // 98 kWh at 0.28 are 27.44, and 2.40 of wear: 29.84, of which ten pieces bear 2.984 each.
    expect(preview).toContain('94 kWh by the meter')
    expect(preview).toContain('The fire cost £29.84, £2.40 of it for elements and shelves.')
    expect(preview).toContain('Half empty: 50 % full. £2.98 a piece. In a full kiln about £1.49.')
    expect(preview).toContain('stays with the others of their run')
    const happenedAt = '2026-06-15T11:00:00Z'
    const { entryId } = await pressed(pottery, path, { key: 'u3', happenedAt, ...fields })
    expect((await firingOf(entryId)).firing).toMatchObject({
      ...{ kilnId: 'top', how: 'meter', kilowattHours: '98', candlingKilowattHours: '4' },
      ...{ energyCost: '27.44', wearCost: '2.4', sharedBy: 'count', fullFraction: '0.5' },
    })
    const told = await pageAt(pottery, `/kiln?did=${entryId}`)
    expect(told.text).toContain('The fire cost £29.84')
    expect(told.text).toContain('stays with the others of their run')
    expect(told.text).toContain('Half empty: 50 % full.')
    expect(told.text).toContain('£2.98 a piece of 10')
    const trail = await pageAt(pottery, `/books/trail/entry/${entryId}`)
    expect(trail.text).toContain('Pieces counted')
    expect(trail.text).toContain('£27.44')
    expect(trail.text).toContain('firing energy £27.44')
  })

  test('the next time the meter stands where it was read, and nothing typed is as usual', async () => {
    const path = await loaded('load-4', 'third')
    const { text } = await pageAt(pottery, path)
    expect(valueIn(text, 'meterBefore')).toBe('20512')
    expect(text).toContain('About 94 kWh, as usual for this kiln')
    const { entryId } = await pressed(pottery, path, { key: 'u4', 'whole-third': '10' })
    expect((await firingOf(entryId)).firing).toMatchObject({ how: 'usual', kilowattHours: '94' })
  })

  test('what cannot be comes back at its field, with what was typed', async () => {
    const path = await loaded('load-5', 'fourth')
    const whole = { 'whole-fourth': '10' }
    for (const [fields, field] of [
      [{ meterBefore: '20512', meterAfter: '20400' }, 'meterAfter'],
      [{ meterAfter: '20600' }, 'meterBefore'],
      [{ kilowattHours: 'many' }, 'kilowattHours'],
      [{ full: '140', kilowattHours: '90' }, 'full'],
      [{ kilowattHours: '90', candlingKilowattHours: '0' }, 'candlingKilowattHours'],
      [{ gasBefore: '20', gasBeforeUnit: 'kg' }, 'gasAfter'],
    ] as const) {
      const answer = await send(pottery, path, { key: 'u5', ...whole, ...fields })
      expect([409, 422]).toContain(answer.status)
      expect(faultsIn(answer).join()).toContain(`href="#${field}"`)
    }
    const { entryId } = await pressed(pottery, path, { key: 'u6', ...whole, untold: 'yes' })
    expect((await firingOf(entryId)).firing).toBeNull()
  })

  test('of two kilns the last one is offered', async () => {
    await kiln({ kilnId: 'small', name: 'Small one' })
    const { text } = await pageAt(pottery, '/kiln/load/glaze')
    expect(text).toContain('Into which kiln')
    expect(chosen(text, 'kilnId', 'top')).toBe(true)
  })

  test('a kiln that was hot with nothing in it is on no pot', async () => {
    const { text } = await pageAt(pottery, '/kiln/empty')
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
    const none = await send(pottery, '/kiln/empty', { key: 'e0', kilnId: 'top', why: 'test' })
    expect(faultsIn(none).join()).toContain('href="#kilowattHours"')
    const fields = { key: 'e1', kilnId: 'top', why: 'new_elements', kilowattHours: '12,5' }
    const { entryId, to } = await pressed(pottery, '/kiln/empty', fields)
    expect(to).toBe('/kiln')
    expect((await firingOf(entryId)).firing).toMatchObject({ kind: 'empty', energyCost: '3.5' })
    expect((await pageAt(pottery, `/kiln?did=${entryId}`)).text).toContain('No pot bears it.')
  })
})
