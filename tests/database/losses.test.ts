import { afterAll, beforeAll, expect, test } from 'vitest'
import { bisqueFire, glazeFire } from '../../db/acts/fire.ts'
import { gradeRun } from '../../db/acts/grade.ts'
import { losePieces } from '../../db/acts/lose.ts'
import { openBooks } from '../../db/acts/open-books.ts'
import { kg, openTestStudio, type TestStudio } from '../support/studio.ts'

let studio: TestStudio
beforeAll(async () => {
  studio = await openTestStudio()
})
afterAll(async () => {
  await studio.close()
})

/** A run of greenware mugs, weighed dry, that cost what is said. */
async function mugs(runId: string, pieces: number, cost: string): Promise<void> {
  await studio.does(openBooks, {
    items: [
      {
        what: 'pots',
        bodyId: 'buff',
        formId: 'mug',
        runId,
        at: 'greenware',
        pieces,
        reading: { net: kg('4.00') },
        water: { content: '0', basis: 'wet', standing: 'measured' },
        cost,
      },
    ],
  })
}

async function fire(runId: string): Promise<void> {
  await studio.does(bisqueFire, { runs: [{ runId }] })
  await studio.does(glazeFire, { runs: [{ runId }] })
}

const finished = (runId: string, grade: string) => studio.holds({ place: 'finished', runId, grade })

test('a waster leaves its cost to the pots that are graded with it', async () => {
  await mugs('all-graded', 4, '1.60')
  await fire('all-graded')
  const graded = await studio.does(gradeRun, {
    runId: 'all-graded',
    firsts: 3,
    seconds: 0,
    wasters: 1,
  })
  expect((await finished('all-graded', 'first')).cost).toBe('1.6')
  expect(graded.entry.losses).toEqual([
    {
      ...{ runId: 'all-graded', pieces: 1, stage: 'glaze_firing', cause: 'waster' },
      ...{ costLeft: '0.4', abnormalPieces: 0, costAbnormal: '0' },
      usualWords:
        'nothing fired yet, so we begin with 2 lost of 40: up to 1 of 4 is called usual, never more than three in ten or one pot (by the runs alone up to 3); 1 of 4 lost is within it',
    },
  ])
})

test('what fired pots leave goes to survivors of the fire alone, and never into green clay', async () => {
  await mugs('spread', 8, '8.00')
  await studio.does(bisqueFire, { runs: [{ runId: 'spread', pieces: 6 }] })
  await studio.does(glazeFire, { runs: [{ runId: 'spread', pieces: 5 }] })
  await studio.does(losePieces, {
    runId: 'spread',
    pieces: 1,
    stage: 'bisque_firing',
    cause: 'blew out',
  })
  const green = await studio.holds({ place: 'greenware', runId: 'spread' })
  const glazed = await studio.holds({ place: 'glazed', runId: 'spread' })
  expect(green.cost).toBe('2')
  expect(glazed.cost).toBe('6')
})

test('where no pot of a run survives, its cost is lost with the last one', async () => {
  await mugs('none-left', 1, '3.00')
  await fire('none-left')
  const graded = await studio.does(gradeRun, {
    runId: 'none-left',
    firsts: 0,
    seconds: 0,
    wasters: 1,
  })
  const waste = graded.entry.lines.find((line) => line.place === 'waste')
  expect(waste?.cost).toBe('3')
  expect(graded.entry.losses[0]?.costLeft).toBe('0')
})
