import type { TruePotter } from './true-potter.ts'

const BUFF = 'buff'
const WHITE = 'white'

/**
 * Three weeks of a studio with two clays: thrown, turned, slaked, read, poured, dried, lifted, wedged
 * and thrown again. What stands in every place in the end comes from more than one lot.
 */
export async function threeWeeks(potter: TruePotter, testsBags: boolean): Promise<void> {
  await firstWeek(potter, testsBags)
  await secondWeek(potter)
  await thirdWeek(potter)
}

async function firstWeek(potter: TruePotter, testsBags: boolean): Promise<void> {
  await potter.deliver(BUFF, 'buff-1', 8)
  await potter.deliver(WHITE, 'white-1', 4)
  if (testsBags) await potter.testBags(BUFF, 'buff-1')
  await potter.open(BUFF, { lotId: 'buff-1', bags: 3, newLotId: 'bench-1' })
  await potter.open(WHITE, { lotId: 'white-1', bags: 2, newLotId: 'bench-w' })
  await potter.throws(BUFF, { runId: 'run-1', lotId: 'bench-1', balls: 12, ballGrams: 900 })
  await potter.throws(BUFF, { runId: 'run-2', lotId: 'bench-1', balls: 8, ballGrams: 1500 })
  await potter.throws(WHITE, { runId: 'run-w', lotId: 'bench-w', balls: 15, ballGrams: 600 })
  await potter.slopsOf(BUFF, 'run-1', 'bucket-1')
  await potter.slopsOf(BUFF, 'run-2', 'bucket-1')
  await potter.slopsOf(WHITE, 'run-w', 'bucket-2')
  await potter.turns(BUFF, 'run-1', 'bucket-1')
  await potter.turns(BUFF, 'run-2', 'bucket-1')
  await potter.turns(WHITE, 'run-w', 'bucket-2')
}

async function secondWeek(potter: TruePotter): Promise<void> {
  await potter.slakes(BUFF, 'bucket-1')
  await potter.readsSlurry(BUFF)
  await potter.pours(BUFF, { batId: 'bat-a', lotId: 'load-1', share: 0.45 })
  await potter.pours(BUFF, { batId: 'bat-b', lotId: 'load-2', share: 0.7 })
  await potter.weighsSlab(BUFF, 'load-1')
  await potter.deliver(BUFF, 'buff-2', 5)
  await potter.open(BUFF, { lotId: 'buff-2', bags: 2, intoLotId: 'bench-1' })
  await potter.lifts(BUFF, 'load-1', 'lifted-1')
  await potter.lifts(BUFF, 'load-2', 'lifted-2')
  await potter.wedges(BUFF, {
    ...{ allOf: 'lifted-1', someOf: 'bench-1' },
    ...{ someGrams: 4_000, newLotId: 'wedged-1' },
  })
}

async function thirdWeek(potter: TruePotter): Promise<void> {
  await potter.throws(BUFF, { runId: 'run-3', lotId: 'wedged-1', balls: 6, ballGrams: 500 })
  await potter.open(BUFF, { lotId: 'buff-1', bags: 2, newLotId: 'bench-2' })
  await potter.throws(BUFF, { runId: 'run-4', lotId: 'bench-2', balls: 10, ballGrams: 1200 })
  await potter.slopsOf(BUFF, 'run-3', 'bucket-1')
  await potter.turns(BUFF, 'run-3', 'bucket-1')
  await potter.slopsOf(BUFF, 'run-4', 'bucket-1')
  await potter.turns(BUFF, 'run-4', 'bucket-1')
  await potter.slakes(BUFF, 'bucket-1')
  await potter.pours(BUFF, { batId: 'bat-a', lotId: 'load-3', share: 0.4 })
  await potter.pours(BUFF, { batId: 'bat-b', lotId: 'load-4', share: 0.5 })
  await potter.weighsSlab(BUFF, 'load-3')
  await potter.throws(BUFF, { runId: 'run-5', lotId: 'bench-2', balls: 6, ballGrams: 800 })
  await potter.slopsOf(BUFF, 'run-5', 'bucket-1')
  await potter.turns(BUFF, 'run-5', 'bucket-1')
}
