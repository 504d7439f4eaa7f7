import { bisqueFire, glazeFire } from '../../db/acts/fire.ts'
import { breakInShop, giveAway } from '../../db/acts/part-with.ts'
import { collectSlops } from '../../db/acts/collect-slops.ts'
import { correctEntry } from '../../db/correct.ts'
import { countHolding } from '../../db/acts/count.ts'
import { gradeRun } from '../../db/acts/grade.ts'
import { joinClay } from '../../db/acts/join.ts'
import { lift } from '../../db/acts/lift.ts'
import { losePieces } from '../../db/acts/lose.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { openBooks } from '../../db/acts/open-books.ts'
import { pour } from '../../db/acts/pour.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { sell } from '../../db/acts/sell.ts'
import { slake } from '../../db/acts/slake.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { wedge } from '../../db/acts/wedge.ts'
import { g, kg, type TestStudio } from './studio.ts'

const wet = (content: string) => ({ content, basis: 'wet' as const, standing: 'measured' as const })
const on = (day: string) => `2026-${day}T10:00:00+01:00`

/**
 * Two months of a small studio, in figures that are easily worked out by hand.
 *
 * April: two bags of 10 kg buff at a fifth of water (16 kg dry) for 32 and 4 of freight; both opened.
 * Ten mugs of 400 g wet: 3200 g dry, 7.20. A ball collapses at the wheel; slops and turnings leave.
 * Nine mugs are fired, one of them lost in the glaze kiln. May: sales, a gift, a breakage, a white
 * blend, a sale that was taken back, and a count that finds clay missing.
 */
export async function fillSmallStudio(studio: TestStudio): Promise<{ soldEntryId: string }> {
  await clayOfApril(studio)
  await mugsOfApril(studio)
  await reclaimOfApril(studio)
  const soldEntryId = await shopOfMay(studio)
  await blendOfMay(studio)
  return { soldEntryId }
}

async function clayOfApril({ does }: TestStudio): Promise<void> {
  await does(openBooks, {
    happenedAt: on('03-31'),
    items: [
      {
        what: 'clay',
        bodyId: 'white',
        lotId: 'old-white',
        reading: { net: kg('5.000') },
        water: wet('0.2'),
        cost: '3',
      },
    ],
  })
  await does(receiveDelivery, {
    happenedAt: on('04-01'),
    clays: [
      { bodyId: 'buff', lotId: 'bags', bags: 2, bagMass: kg('10'), water: wet('0.2'), price: '32' },
    ],
    freight: '4',
  })
  await does(openBag, { happenedAt: on('04-02'), lotId: 'bags', bags: 2, newLotId: 'opened' })
}

async function mugsOfApril({ does }: TestStudio): Promise<void> {
  await does(throwRun, {
    happenedAt: on('04-03'),
    formId: 'mug',
    runId: 'mugs',
    from: [{ lotId: 'opened', balls: 10, ballMass: g('400') }],
  })
  await does(losePieces, {
    happenedAt: on('04-03'),
    runId: 'mugs',
    pieces: 1,
    stage: 'wheel',
    cause: 'collapsed',
    vesselId: 'bucket-1',
    reading: { net: g('400') },
    water: wet('0.2'),
  })
  await does(collectSlops, {
    happenedAt: on('04-03'),
    runIds: ['mugs'],
    vesselId: 'bucket-1',
    state: 'slops',
    reading: { net: g('360') },
    water: wet('0.5'),
  })
  await does(turnRun, {
    happenedAt: on('04-04'),
    runId: 'mugs',
    vesselId: 'bucket-1',
    turnings: { net: g('450') },
    water: wet('0.2'),
  })
  await does(joinClay, {
    happenedAt: on('04-04'),
    runId: 'mugs',
    from: [{ lotId: 'opened', reading: { net: g('300') } }],
    offCuts: { reading: { net: g('75') }, water: wet('0.2'), vesselId: 'bucket-2' },
  })
  await does(bisqueFire, { happenedAt: on('04-10'), runs: [{ runId: 'mugs' }] })
  await does(glazeFire, { happenedAt: on('04-20'), runs: [{ runId: 'mugs' }] })
  await does(losePieces, {
    happenedAt: on('04-21'),
    runId: 'mugs',
    pieces: 1,
    stage: 'glaze_firing',
    cause: 'stuck to the shelf',
  })
  await does(gradeRun, {
    happenedAt: on('04-21'),
    runId: 'mugs',
    firsts: 7,
    seconds: 1,
    wasters: 0,
  })
}

async function reclaimOfApril({ does }: TestStudio): Promise<void> {
  await does(slake, {
    happenedAt: on('04-22'),
    fromVesselId: 'bucket-1',
    basinVesselId: 'basin-1',
    water: { net: g('1000') },
  })
  await does(pour, {
    happenedAt: on('04-23'),
    basinVesselId: 'basin-1',
    loads: [{ batId: 'bat-a', lotId: 'load', reading: { net: g('1000') } }],
  })
  await does(lift, { happenedAt: on('04-25'), lotId: 'load', newLotId: 'reclaimed' })
}

async function shopOfMay(studio: TestStudio): Promise<string> {
  const { does } = studio
  const wrong = await does(sell, {
    ...{ happenedAt: on('05-02'), formId: 'mug', grade: 'first', pieces: 2 },
    ...{ priceEach: '24', channel: 'shop' },
  })
  await correctEntry(
    studio.services,
    { studioId: studio.studioId },
    { said: { entryId: wrong.entry.entryId, note: 'it was three' } },
  )
  const sold = await does(sell, {
    ...{ happenedAt: on('05-02'), formId: 'mug', grade: 'first', pieces: 3 },
    ...{ priceEach: '24', channel: 'shop', note: '=HYPERLINK("x")' },
  })
  await does(sell, {
    ...{ happenedAt: on('05-03'), formId: 'mug', grade: 'second', pieces: 1 },
    ...{ priceEach: '15', channel: 'fair' },
  })
  await does(giveAway, { happenedAt: on('05-04'), formId: 'mug', grade: 'first', pieces: 1 })
  await does(breakInShop, { happenedAt: on('05-05'), formId: 'mug', grade: 'first', pieces: 1 })
  return sold.entry.entryId
}

async function blendOfMay({ does, holds }: TestStudio): Promise<void> {
  await does(wedge, {
    happenedAt: on('05-10'),
    from: [
      { lotId: 'opened', reading: { net: g('1000') } },
      { lotId: 'old-white', reading: { net: g('1000') } },
    ],
    fromVesselIds: ['bucket-2'],
    blendBodyId: 'pepper',
    newLotId: 'blend',
  })
  const { holdingId } = await holds({ place: 'bench', lotId: 'old-white' })
  await does(countHolding, {
    happenedAt: on('05-31'),
    holdingId,
    reading: { net: kg('3.900') },
    water: wet('0.2'),
  })
}
