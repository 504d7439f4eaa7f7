import { monthAfter, monthOf, type Month } from '../shared/month.ts'
import { furnishDemo } from './demo/furnish.ts'
import { DEMO_STUDIO } from './demo/catalogue.ts'
import { countShelf, dipDay, materialsIn, mindTheBin, mixDay, renewKiln } from './demo/glazing.ts'
import { handFor, momentAt, type Hand } from './demo/hand.ts'
import * as odds from './demo/odds.ts'
import { openTheBooks, takeDelivery } from './demo/opening.ts'
import { runsOfWeek } from './demo/plan.ts'
import {
  leaveSlabsDrying,
  liftDay,
  moveSlab,
  pourDay,
  slakeDay,
  weighSlabs,
  type WayBack,
} from './demo/reclaim.ts'
import type { DemoSlab } from './demo/slab.ts'
import * as week from './demo/week.ts'
import type { Services } from './perform.ts'

/** One day's work of the demo, on the day it falls on. */
interface Work {
  readonly day: number
  readonly does: (hand: Hand) => Promise<void>
  readonly isLift?: true
}

/** Of each clay, the reclaimed lot that waits on the bench, and the slabs that dry. */
interface Clays {
  buff?: string
  white?: string
  readonly onBats: Record<'buff' | 'white', DemoSlab[]>
}

const BUFF: WayBack = {
  bodyId: 'heather-buff',
  scrapVesselId: 'red-lid-bucket',
  slopsVesselId: 'blue-pail',
  basinVesselId: 'long-basin',
  batIds: ['bat-by-the-door', 'bat-by-the-sink'],
  benchLotId: 'buff-bench',
  by: 'by_hand',
  minutesToWedge: '35',
}
const WHITE: WayBack = {
  bodyId: 'chalk-white',
  scrapVesselId: 'white-bucket',
  slopsVesselId: 'white-pail',
  basinVesselId: 'round-basin',
  batIds: ['bat-under-the-window'],
  benchLotId: 'white-bench',
  // Once a month, on the neighbour's pug mill.
  by: 'by_mill',
  minutesToWedge: '15',
}

/** How the glaze on pots is told, week by week. */
const WAYS_TO_TELL = ['bucket', 'usual', 'pots'] as const

const MONTHS_BEFORE = 4
const DAYS_IN_WEEK = 7
const WEEKS_A_DELIVERY = 4
const DAY_MILLISECONDS = 24 * 60 * 60 * 1000

/**
 * Fills an empty ledger with four months of a made-up studio, through the program's own acts alone.
 *
 * Gives the studio and the last whole month of its books.
 */
export async function loadDemo(services: Services): Promise<{ studioId: string; month: Month }> {
  const now = services.now()
  const { studioId, timeZone } = DEMO_STUDIO
  await furnishDemo(services)
  const firstDay = mondayOf(now)
  const lastDay = Math.floor((now.getTime() - firstDay.getTime()) / DAY_MILLISECONDS) - 1
  const clays: Clays = { onBats: { buff: [], white: [] } }
  const lastHand = handFor(services, studioId, { firstDay, day: lastDay })
  const works = [...weeksOf(lastDay, clays), ...extras(), ...closings(firstDay, lastDay, timeZone)]
    .filter(({ day }) => day <= lastDay)
    .sort((one, other) => one.day - other.day)
  for (const { day, does } of works) await does(handFor(services, studioId, { firstDay, day }))
  await leaveSlabsDrying(lastHand, BUFF, clays.onBats.buff)
  await odds.tellTheEnd(lastHand, now)
  const lastMonth = new Date(Date.UTC(now.getUTCFullYear(), now.getUTCMonth(), 0))
  return { studioId, month: monthOf(lastMonth, timeZone) }
}

/** True where a demo was begun in that ledger and broken off before its end. */
export async function isDemoBrokenOff(services: Services, studioId: string): Promise<boolean> {
  if (studioId !== DEMO_STUDIO.studioId) return false
  return !(await odds.isToldToItsEnd(services.db, studioId))
}

/** The first Monday of the month four months before this one. */
function mondayOf(now: Date): Date {
  const first = new Date(Date.UTC(now.getUTCFullYear(), now.getUTCMonth() - MONTHS_BEFORE, 1))
  const untilMonday = (8 - first.getUTCDay()) % DAYS_IN_WEEK
  return new Date(first.getTime() + untilMonday * DAY_MILLISECONDS)
}

function weeksOf(lastDay: number, clays: Clays): Work[] {
  const weeks = Math.floor(lastDay / DAYS_IN_WEEK) + 1
  const works = Array.from({ length: weeks }, (_, index) => worksOfWeek(index, clays)).flat()
  // What would be lifted on the last two days lies on its bat as the story ends.
  return works.filter(({ day, isLift }) => isLift !== true || day < lastDay - 1)
}

function worksOfWeek(index: number, clays: Clays): Work[] {
  const monday = index * DAYS_IN_WEEK
  const runs = runsOfWeek(index, { buff: 'buff-bench', white: 'white-bench' })
  const delivery = deliveryOf(index)
  const mugs = runs.filter((run) => run.formId === 'mug')
  const on = (day: number, does: Work['does']): Work => ({ day: monday + day, does })
  return [
    // Reclaim is the first work of its days, as the clock on them goes.
    ...reclaimOf(index, monday, clays),
    ...(index % WEEKS_A_DELIVERY === 0 ? [on(-3, (hand) => takeDelivery(hand, delivery))] : []),
    on(0, async (hand) => {
      await week.openBags(hand, {
        lotId: `${delivery}-heather-buff`,
        bags: 3,
        benchLotId: 'buff-bench',
      })
      if (index % 2 === 0) {
        await week.openBags(hand, {
          lotId: `${delivery}-chalk-white`,
          bags: 1,
          benchLotId: 'white-bench',
        })
      }
      for (const run of runs) await week.throwDay(hand, withReclaimed(run, clays))
      await week.slopsOf(
        hand,
        runs.filter((run) => run.lotId === 'buff-bench'),
      )
      await week.slopsOf(
        hand,
        runs.filter((run) => run.lotId === 'white-bench'),
      )
    }),
    on(1, async (hand) => {
      for (const run of runs) await week.turnDay(hand, run)
    }),
    on(2, async (hand) => {
      for (const run of mugs) await week.handleDay(hand, run)
    }),
    on(5, async (hand) => {
      for (const run of runs) await week.dryDays(hand, run)
    }),
    on(8, (hand) => week.bisqueDay(hand, runs, index)),
    on(9, (hand) => dipDay(hand, runs, WAYS_TO_TELL[index % WAYS_TO_TELL.length] ?? 'usual')),
    on(10, (hand) => week.glazeDay(hand, runs, index)),
    on(12, async (hand) => {
      const channel = index % 3 === 0 ? 'market' : 'online shop'
      for (const run of runs) await week.sellSome(hand, run, { fraction: 0.9, channel })
    }),
  ]
}

/** The delivery that a week's bags are of. */
function deliveryOf(index: number): string {
  return `delivery-${String(Math.floor(index / WEEKS_A_DELIVERY) + 1)}`
}

/** Reclaimed buff goes into the week's plates, reclaimed white into the bowls. */
function withReclaimed(run: week.DemoRun, clays: Clays): week.DemoRun {
  const clay = run.formId === 'dinner-plate' ? 'buff' : 'white'
  const reclaimedLotId = clays[clay]
  const takes = run.formId === 'dinner-plate' || run.formId === 'foot-ring-bowl'
  if (!takes || reclaimedLotId === undefined) return run
  delete clays[clay]
  return { ...run, reclaimedLotId }
}

function reclaimOf(index: number, monday: number, clays: Clays): Work[] {
  const ways: ('buff' | 'white')[] = index % 4 === 3 ? ['buff', 'white'] : ['buff']
  return ways.flatMap((clay): Work[] => {
    const way = clay === 'buff' ? BUFF : WHITE
    return [
      { day: monday + 2, does: (hand) => slakeDay(hand, way) },
      {
        day: monday + 3,
        does: async (hand) => {
          clays.onBats[clay] = await pourDay(hand, way)
        },
      },
      {
        day: monday + 4,
        does: async (hand) => {
          const [first, second] = clays.onBats[clay]
          await weighSlabs(hand, clays.onBats[clay])
          if (first === undefined || second === undefined || index % 4 !== 1) return
          const toBatId = WHITE.batIds[0] ?? ''
          clays.onBats[clay] = [first, await moveSlab(hand, second, toBatId)]
        },
      },
      {
        day: monday + 5,
        isLift: true,
        does: async (hand) => {
          const withBallClay = index % 2 === 0
          const loads = clays.onBats[clay].splice(0)
          clays[clay] = await liftDay(hand, way, { loads, withBallClay })
        },
      },
    ]
  })
}

function extras(): Work[] {
  return [
    { day: -4, does: openTheBooks },
    ...ofGlazeAndKiln(),
    { day: 3 * DAYS_IN_WEEK + 4, does: odds.softenHardBag },
    { day: 4 * DAYS_IN_WEEK + 3, does: odds.throwMoonJar },
    { day: 5 * DAYS_IN_WEEK + 1, does: odds.turnMoonJar },
    { day: 6 * DAYS_IN_WEEK + 1, does: odds.fireMoonJar },
    { day: 6 * DAYS_IN_WEEK + 2, does: odds.glazeMoonJar },
    { day: 6 * DAYS_IN_WEEK + 3, does: odds.finishMoonJar },
    { day: 4 * DAYS_IN_WEEK + 1, does: odds.oddsAndEnds },
    { day: 13 * DAYS_IN_WEEK + 1, does: odds.oddsAndEnds },
    { day: 5 * DAYS_IN_WEEK + 5, does: odds.mistakenSale },
    {
      day: 14 * DAYS_IN_WEEK + 4,
      does: (hand) => odds.countStore(hand, `${deliveryOf(14)}-heather-buff`),
    },
  ]
}

/** Materials come, batches are mixed before they are short, the bin is minded and the shelf is counted. */
function ofGlazeAndKiln(): Work[] {
  const weeks = (...which: number[]) => which.map((week) => week * DAYS_IN_WEEK)
  return [
    { day: -3, does: (hand) => materialsIn(hand, { isFirst: true }) },
    { day: 9 * DAYS_IN_WEEK - 3, does: (hand) => materialsIn(hand, { isFirst: false }) },
    ...weeks(0, 4, 8, 12, 16, 20).map((day): Work => ({
      day,
      does: (hand) => mixDay(hand, 'white'),
    })),
    ...weeks(0, 8, 16).map((day): Work => ({ day: day + 1, does: (hand) => mixDay(hand, 'blue') })),
    ...weeks(3, 7, 11, 15).map((day): Work => ({ day: day + 3, does: mindTheBin })),
    { day: 7 * DAYS_IN_WEEK + 3, does: renewKiln },
    ...weeks(6, 12).map((day): Work => ({ day: day + 4, does: countShelf })),
  ]
}

/** The first months are closed some days after they end. */
function closings(firstDay: Date, lastDay: number, timeZone: string): Work[] {
  const works: Work[] = []
  let open = monthOf(firstDay, timeZone)
  for (let day = 0; day <= lastDay && works.length < 2; day += 1) {
    const month = monthOf(new Date(momentAt(firstDay, day - 5, '12:00')), timeZone)
    if (month <= open) continue
    const closing = open
    works.push({ day, does: (hand) => odds.closeBooks(hand, closing) })
    open = monthAfter(open)
  }
  return works
}
