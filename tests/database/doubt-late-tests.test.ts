import { setTimeout as pause } from 'node:timers/promises'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { testDry } from '../../db/acts/dry-test.ts'
import { openBooks } from '../../db/acts/open-books.ts'
import { slake } from '../../db/acts/slake.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import type { Act, Circumstances } from '../../db/perform.ts'
import { correctEntry } from '../../db/correct.ts'
import { reconcile } from '../../db/reports/reconcile.ts'
import { heldIn, sourcesOf, unsureBy } from '../support/doubts.ts'
import { clayOf, on, sample } from '../support/dry-tests.ts'
import { g, kg, openTestStudio, type TestStudio } from '../support/studio.ts'

let studio: TestStudio
beforeAll(async () => {
  studio = await openTestStudio()
})
afterAll(async () => {
  await studio.close()
})

const { open, mugs } = clayOf(() => studio)

describe('a test that is told late', () => {
  test('leaves a run alone that was thrown after it, and corrects what was thrown before', async () => {
    await open('late', 11, 'white')
    await mugs('before-it', 'late', 12)
    await mugs('after-it', 'late', 14)
    const before = await heldIn(studio, { runId: 'before-it' })
    const later = await heldIn(studio, { runId: 'after-it' })
    const state = 'wedged' as const
    await studio.does(testDry, {
      happenedAt: on(13),
      bodyId: 'white',
      state,
      sample: sample('75.00'),
    })
    expect(await heldIn(studio, { runId: 'after-it' })).toEqual(later)
    const corrected = await heldIn(studio, { runId: 'before-it' })
    expect(corrected.dryGrams.lessThan(before.dryGrams)).toBe(true)
  })

  test('leaves a bucket alone that was emptied and filled again since, and is not refused for it', async () => {
    const turned = { runId: 'before-it', vesselId: 'bucket-2', turnings: { net: g('300') } }
    await studio.does(turnRun, { ...turned, happenedAt: on(16), vesselId: 'bucket-2' })
    await studio.does(slake, {
      ...{ happenedAt: on(18), fromVesselId: 'bucket-2', basinVesselId: 'basin-2' },
    })
    await studio.does(turnRun, { ...turned, happenedAt: on(19) })
    const filled = await heldIn(studio, { vesselId: 'bucket-2', bodyId: 'white' })
    expect(sourcesOf(filled.dryDoubt, 'moisture')).toHaveLength(1)
    const said = { bodyId: 'white', state: 'turnings' as const, sample: sample('70.00') }
    await studio.does(testDry, { ...said, happenedAt: on(17) })
    expect(await heldIn(studio, { vesselId: 'bucket-2', bodyId: 'white' })).toEqual(filled)
    const basin = await heldIn(studio, { vesselId: 'basin-2' })
    expect(basin.dryGrams.toFixed()).toBe('255')
    expect((await reconcile(studio.services.db)).faults).toEqual([])
  })

  test('leaves a bucket alone that had less then than would be taken from it now', async () => {
    const figure = { bodyId: 'white', state: 'slops' as const }
    const scrap = {
      what: 'scrap' as const,
      bodyId: 'white',
      vesselId: 'bucket-1',
      state: 'slops' as const,
    }
    await studio.does(openBooks, {
      happenedAt: on(21),
      items: [{ ...scrap, reading: { net: g('10') } }],
    })
    await studio.does(openBooks, {
      happenedAt: on(23),
      items: [{ ...scrap, reading: { net: kg('9.000') } }],
    })
    const filled = await heldIn(studio, { vesselId: 'bucket-1', bodyId: 'white' })
    await studio.does(testDry, { ...figure, happenedAt: on(22), sample: sample('20.00') })
    expect(await heldIn(studio, { vesselId: 'bucket-1', bodyId: 'white' })).toEqual(filled)
  })
})

/** An act that has written what it does to its book, and takes its time with telling the ledger. */
function slowly<Said extends Circumstances>(act: Act<Said>) {
  let say: () => void = () => undefined
  const isWritten = new Promise<void>((resolve) => (say = resolve))
  const write: Act<Said>['write'] = async (book, said) => {
    const made = await act.write(book, said)
    say()
    await pause(300)
    return made
  }
  return { act: { kind: act.kind, write }, isWritten }
}

test('a test of a lot that is thrown to its last gram in that moment tells of the clay alone', async () => {
  await open('going', 1)
  const { act: slow, isWritten } = slowly(throwRun)
  const from = [{ lotId: 'going', whatIsLeft: true as const }]
  const thrown = studio.does(slow, { formId: 'mug', runId: 'gone', pieces: 40, from })
  await isWritten
  const said = { bodyId: 'buff', state: 'wedged' as const, lotId: 'going', sample: sample('75.00') }
  const [, tested] = await Promise.all([thrown, studio.does(testDry, said)])
  expect(tested.entry.kind).toBe('dry_test')
  expect((await heldIn(studio, { lotId: 'going' })).dryGrams.toFixed()).toBe('0')
  expect((await reconcile(studio.services.db)).faults).toEqual([])
})

test('two tests that are told at once correct as the same two told one after the other', async () => {
  const said = { bodyId: 'pepper', state: 'wedged' as const, sample: sample('75.00') }
  const inLine: string[] = []
  await open('in-line', 1, 'pepper')
  for (const _ of [1, 2]) {
    const { entry } = await studio.does(testDry, said)
    inLine.push(entry.entryId)
  }
  const expected = await heldIn(studio, { lotId: 'in-line' })
  const { services, studioId } = studio
  for (const entryId of inLine.reverse()) {
    await correctEntry(services, { studioId }, { said: { entryId } })
  }
  const before = await heldIn(studio, { lotId: 'in-line' })
  expect(before.dryGrams.toFixed()).toBe('15600')
  const { act: slow, isWritten } = slowly(testDry)
  const first = studio.does(slow, said)
  await isWritten
  await Promise.all([first, studio.does(testDry, said)])
  const found = await heldIn(studio, { lotId: 'in-line' })
  expect(found.dryGrams.toFixed(3)).toBe(expected.dryGrams.toFixed(3))
  expect(unsureBy(found.dryDoubt)).toBeCloseTo(unsureBy(expected.dryDoubt), 3)
})
