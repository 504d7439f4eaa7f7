import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { correctEntry } from '../../db/correct.ts'
import { Dice } from '../support/arbitraries.ts'
import { attempt, complain, deedFor, misnamed, type Real } from './commands.ts'
import { FreshStudios, KINDS, SECOND, wishes, type Wish } from './fresh-studios.ts'
import { faultsOf, odditiesOf } from './second-opinion.ts'
import { viewStudio } from './view.ts'

const CLIENTS = 8
const ACTS_EACH = 40
const RUNS = 2

let studios: FreshStudios
beforeAll(async () => {
  studios = await FreshStudios.open({ poolSize: CLIENTS })
})
afterAll(() => studios.close())

/** Looks at the studio, chooses by what there is, and does it; others may have been faster. */
async function fulfil(real: Real, { kind, shown }: Wish): Promise<boolean> {
  const { services, studioId } = real
  const view = await viewStudio(services.db, studioId)
  const dice = new Dice(shown)
  const entryId = dice.pickOr(view.entries, { entryId: 'no-entry' }).entryId
  const verdict = await attempt(kind, () =>
    kind === 'correct'
      ? correctEntry(services, { studioId }, { said: { entryId } })
      : deedFor(kind, view, dice).perform(services, { studioId }),
  )
  if (verdict.refusal !== undefined) complain(kind, misnamed(kind, verdict.refusal))
  return verdict.refusal === undefined
}

/** One after the other for one client; gives how many were accepted and what came instead of a refusal. */
async function work(real: Real, wanted: readonly Wish[]) {
  let accepted = 0
  const defects: string[] = []
  for (const wish of wanted) {
    await fulfil(real, wish).then(
      (isAccepted) => (accepted += isAccepted ? 1 : 0),
      (error: unknown) => defects.push(String(error)),
    )
  }
  return { accepted, defects }
}

describe('eight people who work in one studio at once', () => {
  test(
    'are answered or refused, never stopped by a lock, and leave books that add up',
    async () => {
      await fc.assert(
        fc.asyncProperty(wishes(KINDS, CLIENTS * ACTS_EACH), async (wanted) => {
          const { real } = await studios.afterAGoodDay()
          const { db } = real.services
          const before = (await viewStudio(db, real.studioId)).entries.length
          const shares = Array.from({ length: CLIENTS }, (_, client) =>
            wanted.slice(client * ACTS_EACH, (client + 1) * ACTS_EACH),
          )
          const all = await Promise.all(shares.map((share) => work(real, share)))
          const accepted = all.reduce((sum, one) => sum + one.accepted, 0)
          expect(all.flatMap((one) => one.defects)).toEqual([])
          expect(await faultsOf(db, real.studioId)).toEqual([])
          expect(await odditiesOf(db, real.studioId)).toEqual([])
          expect((await viewStudio(db, real.studioId)).entries.length).toBe(before + accepted)
          expect(accepted).toBeGreaterThan(wanted.length / 4)
        }),
        // What happened at once will not happen the same way twice: there is nothing to shrink.
        {
          numRuns: RUNS,
          unbiased: true,
          endOnFailure: true,
          interruptAfterTimeLimit: 100 * SECOND,
        },
      )
    },
    150 * SECOND,
  )
})
