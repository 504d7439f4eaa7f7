import { describe, expect, test } from 'vitest'
import { adviceOnFound } from '../../shared/balance-advice.ts'
import type { BookedEntry } from '../../shared/balance-book.ts'
import { decimal } from '../../shared/decimal.ts'
import { NO_DOUBT } from '../../shared/doubt.ts'
import type { FoundSuspicion } from '../../shared/month-finding.ts'
import { MonthNodes } from '../../shared/month-nodes.ts'

const stock = (id: string, place: 'greenware' | 'scrap' | 'bench') => ({ id, place, name: id })
const entry = (entryId: string): BookedEntry => ({
  ...{ entryId, kind: 'turn', said: { runId: entryId }, day: '14 May', time: '10:00' },
  ...{ state: null, stage: null, fromLotIds: [], counts: [], batIds: [], lines: [] },
  ...{ estimates: [], weighings: [] },
})
const holding = (holdingId: string) => ({
  ...{ holdingId, place: 'scrap' as const, bodyId: 'buff', name: holdingId },
  ...{ lotId: null, runId: null, vesselId: null, nowDryGrams: decimal(900) },
  ...{ openingDryGrams: decimal(0), openingDryDoubt: NO_DOUBT },
})

/** Turnings of so many runs, each into a bucket of its own; those that are settled were emptied since. */
function month(count: number, settled: readonly number[] = []) {
  const ids = Array.from({ length: count }, (_, index) => `turnings ${String(index + 1)}`)
  const nodes = new MonthNodes()
  ids.forEach((id, index) => {
    const [run, bucket] = [stock(`run of ${id}`, 'greenware'), stock(`bucket of ${id}`, 'scrap')]
    const read = { dryGrams: decimal(900), standardUncertaintyGrams: decimal(10) }
    nodes.moves(run, bucket, { id, kind: 'turn', label: `The ${id}`, ...read })
    if (!settled.includes(index)) return
    nodes.empties(run)
    nodes.empties(bucket)
  })
  const nothing = { weighing: null, dryFraction: 1, mistakes: [] }
  return {
    balance: {
      description: nodes.description([]),
      origins: new Map(ids.map((id) => [id, { entryId: id, holdingId: id, ...nothing }])),
      ...{ sources: new Map(), stocks: nodes.stocks(), settled: nodes.settled() },
    },
    book: {
      ...{ bodyId: 'buff', lossOnIgnitionFraction: decimal(0), vessels: [], bats: [] },
      holdings: ids.map((id) => holding(`bucket of ${id}`)),
      ...{ entries: ids.map(entry), openFrom: null, isClosed: false },
    },
  }
}

function found(count: number, as: 'alike' | 'nearly'): FoundSuspicion {
  const all = Array.from({ length: count }, (_, index) => ({
    ...{ what: 'reading' as const, id: `turnings ${String(index + 1)}` },
    label: `The turnings ${String(index + 1)}`,
    ...{ size: decimal(400), standardUncertainty: decimal(10), standardised: 40 },
    ...{ alike: [], mistakes: [] },
  }))
  const [first, ...others] = all
  if (first === undefined) throw new TypeError('something stands out')
  return { ...first, alike: [], nearly: [], [as]: others }
}

describe('what is offered', () => {
  test('about one alone is about that one', () => {
    const { whatNow, offers } = adviceOnFound(found(1, 'alike'), month(1))
    expect(whatNow).toMatch(/^Look first/)
    expect(offers.map(({ what }) => what)).toEqual(['correct', 'count'])
  })

  test.each(['alike', 'nearly'] as const)(
    'where another is %s is something for each, and it says that the readings cannot tell',
    (as) => {
      const { whatNow, offers } = adviceOnFound(found(2, as), month(2))
      expect(whatNow).toMatch(
        /^The readings cannot tell which of these it was: the turnings 1, or the turnings 2\. /,
      )
      const corrects = offers.filter(({ what }) => what === 'correct')
      expect(corrects.map(({ body }) => body['entryId'])).toEqual(['turnings 1', 'turnings 2'])
      expect(corrects[1]?.words).toMatch(/^If it was the turnings 2: look at what/)
    },
  )

  test('is nothing where one of them has nothing to send, or where there are too many', () => {
    const settled = adviceOnFound(found(2, 'nearly'), month(2, [1]))
    expect(settled.offers).toEqual([])
    expect(settled.whatNow).toContain('cannot tell which')
    const many = adviceOnFound(found(6, 'alike'), month(6))
    expect(many.offers).toEqual([])
    expect(many.whatNow).toContain('or one of 2 more')
  })
})
