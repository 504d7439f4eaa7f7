import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { gasOnShelf, openKilnPottery, pots, type KilnPottery } from './kiln-pottery.ts'

let pottery: KilnPottery
beforeAll(async () => {
  pottery = await openKilnPottery()
  await gasOnShelf(pottery)
})
afterAll(() => pottery.close())

const at = (place: string, runId: string) => pottery.studio.holds({ place, runId })
const refused = async (said: object, runId: string) => {
  const { status, body } = await pottery.ask('POST', '/v1/acts/bisque', {
    runs: [{ runId }],
    firing: said,
  })
  return [status, body.type, body.errors?.[0]?.pointer]
}

describe('a firing of which little is told', () => {
  const told = async (runId: string, said: object, happenedAt: string) => {
    const entry = await pottery.does('bisque', {
      ...{ happenedAt, runs: [{ runId, pieces: 1 }] },
      firing: { kilnId: 'spare', ...said },
    })
    return entry.firing
  }

  test('goes by the rule, then by what was usual of its metered firings', async () => {
    await pottery.ask('POST', '/v1/kilns', {
      ...{ kilnId: 'spare', name: 'Spare', ratedKilowatts: '10' },
      ...{ bisqueHours: '7', pricePerKilowattHour: '0.20' },
    })
    const happenedAt = '2026-04-01T08:00:00Z'
    await pots(pottery, { runId: 'many', pieces: 9, kilograms: '3.60', cost: '0', happenedAt })
    // 10 kW × 7 h × 0.5, and 8 h where they were read.
    const usualHours = await told('many', {}, '2026-04-02T08:00:00Z')
    expect(usualHours).toMatchObject({ how: 'rule', kilowattHours: '35', standing: 'assumed' })
    const readHours = await told('many', { hours: '8' }, '2026-04-03T08:00:00Z')
    expect(readHours).toMatchObject({ how: 'rule', kilowattHours: '40', standing: 'estimated' })
    await told('many', { meter: { before: '0', after: '50' } }, '2026-04-04T08:00:00Z')
    await told('many', { meter: { before: '50', after: '104' } }, '2026-04-05T08:00:00Z')
    const usual = await told('many', {}, '2026-04-06T08:00:00Z')
    expect(usual).toMatchObject({ how: 'usual', kilowattHours: '52', energyCost: '10.4' })
  })

  test('of which nothing is told costs nothing and has no facts', async () => {
    await pots(pottery, { runId: 'untold', pieces: 2, kilograms: '0.80', cost: '1.00' })
    const entry = await pottery.does('bisque', { runs: [{ runId: 'untold' }] })
    expect(entry.firing).toBeNull()
    expect((await at('bisque', 'untold')).cost).toBe('1')
  })

  test('is refused where it cannot be known, at the field that would tell it', async () => {
    await pots(pottery, { runId: 'waits', pieces: 2, kilograms: '0.80', cost: '1.00' })
    const type = '/problems/energy_must_be_told'
    for (const [said, pointer] of [
      [{ kilnId: 'bare' }, '#/firing/kilowattHours'],
      [{ kilnId: 'bare', kilowattHours: '50' }, '#/firing/pricePerKilowattHour'],
      [{ kilnId: 'electric', meter: { before: '12', after: '11' } }, '#/firing/meter/after'],
      [{ kilnId: 'bare', candling: { hours: '3' }, kilowattHours: '1' }, '#/firing/candling/hours'],
      [{ kilnId: 'electric', fuel: { burnt: { value: '2', unit: 'kg' } } }, '#/firing/fuel'],
    ] as const) {
      expect(await refused(said, 'waits')).toEqual([422, type, pointer])
    }
    const unknown = await refused({ kilnId: 'nobodys' }, 'waits')
    expect(unknown.slice(1)).toEqual(['/problems/kiln_not_found', '#/firing/kilnId'])
    const tooMuch = { kilnId: 'gas', fuel: { burnt: { value: '99', unit: 'kg' } } }
    expect(await refused(tooMuch, 'waits')).toEqual([
      ...[409, '/problems/material_must_be_enough', '#/firing/fuel'],
    ])
  })
})
