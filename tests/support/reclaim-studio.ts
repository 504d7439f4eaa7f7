import { eq } from 'drizzle-orm'
import { bisqueFire, glazeFire } from '../../db/acts/fire.ts'
import { gradeRun } from '../../db/acts/grade.ts'
import { lift } from '../../db/acts/lift.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { openBooks } from '../../db/acts/open-books.ts'
import { pour } from '../../db/acts/pour.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { sell } from '../../db/acts/sell.ts'
import { slake } from '../../db/acts/slake.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { wedge } from '../../db/acts/wedge.ts'
import { correctEntry } from '../../db/correct.ts'
import { studio as studioTable } from '../../db/schema.ts'
import { g, kg, type TestStudio } from './studio.ts'

const wet = (content: string) => ({ content, basis: 'wet' as const, standing: 'measured' as const })
const on = (day: string) => `2026-${day}T10:00:00+01:00`

/**
 * March: 16 kg of dry buff for 36, which is 2.25 a kilogram; white scrap was here already, worth 1.
 *
 * April: ten mugs of 320 g dry, 7.20, of which 800 g are turned off into the bucket, 1.80. Slaked in ten
 * minutes, poured in twenty on two bats, 400 g on each; lifted in thirty minutes by hand, and in fifteen
 * for the mill. The white scrap is wedged soft. May: five of the mugs are sold. An hour is to be worth 1.50.
 */
export async function fillReclaimStudio(studio: TestStudio): Promise<void> {
  const { services, studioId } = studio
  await services.db
    .update(studioTable)
    .set({ hourlyFigure: '1.5' })
    .where(eq(studioTable.studioId, studioId))
  await clayOfMarch(studio)
  await mugsOfApril(studio)
  await reclaimOfApril(studio)
  await studio.does(sell, {
    ...{ happenedAt: on('05-02'), formId: 'mug', grade: 'first', pieces: 5 },
    ...{ priceEach: '24', channel: 'shop' },
  })
}

async function clayOfMarch({ does }: TestStudio): Promise<void> {
  await does(openBooks, {
    happenedAt: on('03-01'),
    items: [
      {
        what: 'scrap',
        bodyId: 'white',
        vesselId: 'bucket-2',
        reading: { net: g('500') },
        water: wet('0.2'),
        cost: '1',
      },
    ],
  })
  await does(receiveDelivery, {
    happenedAt: on('03-20'),
    clays: [
      { bodyId: 'buff', lotId: 'bags', bags: 2, bagMass: kg('10'), water: wet('0.2'), price: '32' },
    ],
    freight: '4',
  })
  await does(openBag, { happenedAt: on('03-21'), lotId: 'bags', bags: 2, newLotId: 'opened' })
}

async function mugsOfApril({ does }: TestStudio): Promise<void> {
  await does(throwRun, {
    happenedAt: on('04-03'),
    formId: 'mug',
    runId: 'mugs',
    from: [{ lotId: 'opened', balls: 10, ballMass: g('400') }],
  })
  await does(turnRun, {
    happenedAt: on('04-04'),
    runId: 'mugs',
    vesselId: 'bucket-1',
    turnings: { net: g('1000') },
    water: wet('0.2'),
  })
  await does(bisqueFire, { happenedAt: on('04-10'), runs: [{ runId: 'mugs' }] })
  await does(glazeFire, { happenedAt: on('04-20'), runs: [{ runId: 'mugs' }] })
  await does(gradeRun, {
    ...{ happenedAt: on('04-21'), runId: 'mugs', firsts: 10, seconds: 0, wasters: 0 },
  })
}

async function reclaimOfApril({ does, services, studioId }: TestStudio): Promise<void> {
  await does(slake, {
    happenedAt: on('04-22'),
    fromVesselId: 'bucket-1',
    basinVesselId: 'basin-1',
    water: { net: g('800') },
    minutes: '10',
  })
  await does(pour, {
    happenedAt: on('04-23'),
    basinVesselId: 'basin-1',
    loads: [
      { batId: 'bat-a', lotId: 'load-a', reading: { net: g('900') } },
      { batId: 'bat-b', lotId: 'load-b', reading: { net: g('900') } },
    ],
    minutes: '20',
  })
  const lifted = { happenedAt: on('04-25'), minutes: '30', way: 'by_hand' } as const
  const wrong = await does(lift, { ...lifted, lotId: 'load-a', minutes: '300' })
  const taken = { entryId: wrong.entry.entryId, note: 'half an hour it was' }
  await correctEntry(services, { studioId }, { said: taken })
  await does(lift, { ...lifted, lotId: 'load-a', newLotId: 'from-a' })
  await does(lift, { ...lifted, lotId: 'load-b', newLotId: 'from-b', minutes: '15' })
  // What was lifted by hand and wedged through the mill went through the mill.
  await does(wedge, {
    happenedAt: on('04-26'),
    from: [{ lotId: 'from-b', whatIsLeft: true }],
    way: 'by_mill',
  })
  await does(wedge, { happenedAt: on('04-27'), from: [], fromVesselIds: ['bucket-2'] })
}
