import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { Refusal } from '../../shared/refusal.ts'
import { Dice } from '../support/arbitraries.ts'
import { attempt, deedFor, type Real } from './commands.ts'
import type { Deed } from './deed.ts'
import { FreshStudios, KINDS, SECOND, wishes } from './fresh-studios.ts'
import { faultsOf, fingerprintOf } from './second-opinion.ts'
import { viewStudio } from './view.ts'

const RUNS = 2
const WISHES = 40
const AT_ONCE = 10

let studios: FreshStudios
beforeAll(async () => {
  studios = await FreshStudios.open({ poolSize: AT_ONCE })
})
afterAll(() => studios.close())

const acts = KINDS.filter((kind) => kind !== 'correct' && kind !== 'close_month')

/** As it travels: what is not said is not there, and the order of fields does not matter. */
function asSent(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value))
}

async function entriesOf({ services, studioId }: Real): Promise<number> {
  return (await viewStudio(services.db, studioId)).entries.length
}

function printOf({ services, studioId }: Real): Promise<readonly string[]> {
  return fingerprintOf(services.db, studioId)
}

/** Sends a deed under a key, again, and another deed under the same key. */
async function sendTwice(real: Real, sent: { deed: Deed; other: Deed; key: string }) {
  const { deed, other, key } = sent
  const { services, studioId } = real
  const occasion = { studioId, idempotencyKey: key }
  const before = await printOf(real)
  const told = `${deed.kind} ${JSON.stringify(deed.said)}`
  const first = await attempt(told, () => deed.perform(services, occasion))
  const after = await printOf(real)
  if (first.answer === undefined) {
    expect(after, 'a refusal leaves its key free').toEqual(before)
    return
  }
  const second = await deed.perform(services, occasion)
  expect(second.isRetry).toBe(true)
  expect(second.answer).toEqual(asSent(first.answer))
  const isSame = JSON.stringify([deed.kind, deed.said]) === JSON.stringify([other.kind, other.said])
  if (!isSame) {
    const otherwise = await attempt(told, () => other.perform(services, occasion))
    expect(otherwise.refusal?.code).toBe('key_must_keep_its_content')
  }
  expect(await printOf(real), 'a retry posts nothing').toEqual(after)
}

/** Sends a deed under a key from many places at the same instant. */
async function sendAtOnce(real: Real, sent: { deed: Deed; key: string }) {
  const { services, studioId } = real
  const entriesBefore = await entriesOf(real)
  const all = await Promise.allSettled(
    Array.from({ length: AT_ONCE }, () =>
      sent.deed.perform(services, { studioId, idempotencyKey: sent.key }),
    ),
  )
  const answers = all.flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []))
  const first = answers.find((one) => !one.isRetry)
  const [refused] = all.flatMap((one) => (one.status === 'rejected' ? [one.reason as unknown] : []))
  if (first === undefined) {
    expect(refused, `${sent.deed.kind} ${JSON.stringify(sent.deed.said)}`).toBeInstanceOf(Refusal)
    expect(await entriesOf(real)).toBe(entriesBefore)
    return
  }
  expect(answers).toHaveLength(AT_ONCE)
  expect(answers.filter((one) => !one.isRetry)).toHaveLength(1)
  for (const one of answers) expect(asSent(one.answer)).toEqual(asSent(first.answer))
  expect(await entriesOf(real)).toBe(entriesBefore + 1)
}

describe('the same request sent again', () => {
  test(
    'gets the first answer and posts nothing more; other content under its key is refused',
    async () => {
      await fc.assert(
        fc.asyncProperty(wishes(acts, WISHES), async (wanted) => {
          const { real } = await studios.afterAGoodDay()
          for (const [index, { kind, shown }] of wanted.entries()) {
            const view = await viewStudio(real.services.db, real.studioId)
            const deed = deedFor(kind, view, new Dice(shown))
            const next = wanted[index + 1] ?? { kind: 'rewet', shown: [1] }
            const other = deedFor(next.kind, view, new Dice(next.shown))
            await sendTwice(real, { deed, other, key: `key-${String(index)}` })
          }
          expect(await faultsOf(real.services.db, real.studioId)).toEqual([])
        }),
        {
          numRuns: RUNS,
          unbiased: true,
          endOnFailure: true,
          interruptAfterTimeLimit: 120 * SECOND,
        },
      )
    },
    180 * SECOND,
  )

  test(
    'is posted once where ten arrive at the same instant',
    async () => {
      await fc.assert(
        fc.asyncProperty(wishes(acts, WISHES / 2), async (wanted) => {
          const { real } = await studios.afterAGoodDay()
          for (const [index, { kind, shown }] of wanted.entries()) {
            const view = await viewStudio(real.services.db, real.studioId)
            const deed = deedFor(kind, view, new Dice(shown))
            await sendAtOnce(real, { deed, key: `at-once-${String(index)}` })
          }
          expect(await faultsOf(real.services.db, real.studioId)).toEqual([])
        }),
        { numRuns: 1, endOnFailure: true, interruptAfterTimeLimit: 120 * SECOND },
      )
    },
    180 * SECOND,
  )
})
