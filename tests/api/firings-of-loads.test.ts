import { afterAll, beforeAll, expect, test } from 'vitest'
import { findKilnLoad, loadKiln } from '../../db/kiln-loads.ts'
import { unloadKiln } from '../../db/kiln-unloading.ts'
import { openKilnPottery, pots, type KilnPottery } from './kiln-pottery.ts'

let pottery: KilnPottery
beforeAll(async () => {
  pottery = await openKilnPottery()
})
afterAll(() => pottery.close())

test('a load remembers its kiln, and unloading tells what its fire took', async () => {
  await pots(pottery, { runId: 'loaded', pieces: 4, kilograms: '1.60', cost: '0' })
  const { services, studioId } = pottery.studio
  const runs = [{ runId: 'loaded', pieces: 4 }]
  const load = { kilnLoadId: 'load-1', kind: 'bisque', kilnId: 'electric', runs } as const
  await loadKiln(services, studioId, load)
  const found = await findKilnLoad(services.db, { studioId, kilnLoadId: 'load-1' })
  expect(found.kilnId).toBe('electric')
  const said = { kilnLoadId: 'load-1', runs: [], firing: { kilowattHours: '50' } }
  const { answer } = await unloadKiln(services, { studioId }, said)
  expect(answer.entry.firing).toMatchObject({ kilnId: 'electric', energyCost: '14' })
})
