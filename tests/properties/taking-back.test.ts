import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { correctEntry } from '../../db/correct.ts'
import { Dice } from '../support/arbitraries.ts'
import { attempt, complain, deedFor, differing, type Real } from './commands.ts'
import type { Deed } from './deed.ts'
import { FreshStudios, KINDS, SECOND, wishes } from './fresh-studios.ts'
import { faultsOf, fingerprintOf } from './second-opinion.ts'
import { balancesOf, viewStudio } from './view.ts'

const RUNS = 2
const WISHES = 60
const TAKEN_BACK_MIN = 30

let studios: FreshStudios
beforeAll(async () => {
  studios = await FreshStudios.open()
})
afterAll(() => studios.close())

/** What is left at each place is told without the ids of lots and runs, which are new every time. */
async function heldByPlace({ services, studioId }: Real): Promise<string[]> {
  const { holdings } = await viewStudio(services.db, studioId)
  return holdings
    .filter((held) => held.balance !== '0 0 0 0 0')
    .map((held) => [held.place, held.bodyId, held.vesselId, held.grade, held.balance].join(' '))
    .sort()
}

async function refusalOfTakingBack(real: Real, entryId: string): Promise<string> {
  const { services, studioId } = real
  const before = await fingerprintOf(services.db, studioId)
  const verdict = await attempt(`taking back ${entryId}`, () =>
    correctEntry(services, { studioId }, { said: { entryId } }),
  )
  complain(`taking back ${entryId}`, differing(before, await fingerprintOf(services.db, studioId)))
  return verdict.refusal?.code ?? 'it was taken back'
}

/** Posts, takes back, and posts again; says whether there was anything to take back. */
async function thereAndBack(real: Real, deed: Deed): Promise<boolean> {
  const { services, studioId } = real
  const before = balancesOf(await viewStudio(services.db, studioId))
  const told = `${deed.kind} ${JSON.stringify(deed.said)}`
  const done = await attempt(told, () => deed.perform(services, { studioId }))
  if (done.answer === undefined) return false
  const { entryId } = done.answer.entry
  if (deed.kind === 'close_month') {
    expect(await refusalOfTakingBack(real, entryId)).toBe('closed_month_must_stay_closed')
    return false
  }
  const after = await heldByPlace(real)
  const back = await attempt(`${told}, taken back`, () =>
    correctEntry(services, { studioId }, { said: { entryId } }),
  )
  expect(back.refusal?.code, told).toBeUndefined()
  expect(balancesOf(await viewStudio(services.db, studioId)), told).toEqual(before)
  expect(await refusalOfTakingBack(real, entryId)).toBe('entry_must_not_be_reversed_already')
  const mirror = back.answer?.entry.entryId ?? 'no-entry'
  expect(await refusalOfTakingBack(real, mirror)).toBe('entry_must_not_be_a_reversal')
  const again = await attempt(`${told}, again`, () => deed.perform(services, { studioId }))
  expect(again.refusal?.code, told).toBeUndefined()
  expect(await heldByPlace(real), told).toEqual(after)
  return true
}

describe('taking back what was posted a moment ago', () => {
  test(
    'restores every balance to the last digit, is done once, and lets it be posted again alike',
    async () => {
      let takenBack = 0
      const acts = KINDS.filter((kind) => kind !== 'correct')
      await fc.assert(
        fc.asyncProperty(wishes(acts, WISHES), async (wanted) => {
          const { real } = await studios.afterAGoodDay()
          const { services, studioId } = real
          for (const { kind, shown } of wanted) {
            const view = await viewStudio(services.db, studioId)
            const deed = deedFor(kind, view, new Dice(shown))
            if (await thereAndBack(real, deed)) takenBack += 1
          }
          complain('after all of it', await faultsOf(services.db, studioId))
        }),
        {
          numRuns: RUNS,
          unbiased: true,
          endOnFailure: true,
          interruptAfterTimeLimit: 120 * SECOND,
        },
      )
      expect(takenBack).toBeGreaterThan(TAKEN_BACK_MIN)
    },
    180 * SECOND,
  )
})
