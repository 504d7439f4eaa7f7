import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { Dice } from '../support/arbitraries.ts'
import { countedIds } from '../support/studio.ts'
import { attempt, deedFor, type Real, type Verdict } from './commands.ts'
import type { Deed } from './deed.ts'
import { FreshStudios, KINDS, SECOND, wishes } from './fresh-studios.ts'
import { balancesByName, viewStudio, type View } from './view.ts'

const RUNS = 2
const PAIRS = 30
const COMPARED_MIN = 5

let studios: FreshStudios
beforeAll(async () => {
  studios = await FreshStudios.open()
})
afterAll(() => studios.close())

/** A dry test tells the water of readings that come after it, so there the order matters, rightly. */
const acts = KINDS.filter((kind) => !['correct', 'close_month', 'dry_test'].includes(kind))

/** What somebody sees who works with one clay only. */
function onlyOf(view: View, bodyId: string): View {
  const isOf = (one: { bodyId: string }) => one.bodyId === bodyId
  return {
    ...view,
    holdings: view.holdings.filter(isOf),
    lots: view.lots.filter(isOf),
    runs: view.runs.filter(isOf),
  }
}

/** Does a deed with ids of its own, so that what it makes is called alike whenever it is done. */
function does({ services, studioId }: Real, named: { deed: Deed; ids: string }): Promise<Verdict> {
  const own = { ...services, newId: countedIds(named.ids) }
  const told = `${named.deed.kind} ${JSON.stringify(named.deed.said)}`
  return attempt(told, () => named.deed.perform(own, { studioId }))
}

function touched({ answer }: Verdict): string[] {
  return (answer?.entry.lines ?? []).map((line) =>
    [
      line.place,
      line.bodyId,
      line.materialId,
      line.lotId,
      line.runId,
      line.vesselId,
      line.grade,
    ].join('/'),
  )
}

/** Whether two deeds took nothing from each other: both were done, and no holding was of both. */
function areApart(one: Verdict, other: Verdict): boolean {
  if (one.answer === undefined || other.answer === undefined) return false
  const ofOther = new Set(touched(other))
  return !touched(one).some((name) => ofOther.has(name))
}

async function balances({ services, studioId }: Real) {
  return balancesByName(await viewStudio(services.db, studioId))
}

describe('two acts that touch nothing of each other', () => {
  test(
    'leave the same balances in either order',
    async () => {
      let compared = 0
      await fc.assert(
        fc.asyncProperty(wishes(acts, 2 * PAIRS), async (wanted) => {
          const { real: here } = await studios.afterAGoodDay()
          const { real: there } = await studios.afterAGoodDay()
          for (let at = 0; at + 1 < wanted.length; at += 2) {
            const view = await viewStudio(here.services.db, here.studioId)
            const [one, other] = (['buff', 'white'] as const).map((bodyId, index) => {
              const { kind, shown } = wanted[at + index] ?? { kind: 'rewet', shown: [0] }
              const deed = deedFor(kind, onlyOf(view, bodyId), new Dice(shown))
              return { deed, ids: `${bodyId}-${String(at)}` }
            })
            if (one === undefined || other === undefined) return
            const [firstHere, secondHere] = [await does(here, one), await does(here, other)]
            const [firstThere, secondThere] = [await does(there, other), await does(there, one)]
            const isApart = areApart(firstHere, secondHere) && areApart(firstThere, secondThere)
            const isSame =
              JSON.stringify(await balances(here)) === JSON.stringify(await balances(there))
            if (isApart) {
              expect(await balances(there)).toEqual(await balances(here))
              compared += 1
            } else if (!isSame) return
          }
        }),
        {
          numRuns: RUNS,
          unbiased: true,
          endOnFailure: true,
          interruptAfterTimeLimit: 120 * SECOND,
        },
      )
      expect(compared).toBeGreaterThan(COMPARED_MIN)
    },
    180 * SECOND,
  )
})
