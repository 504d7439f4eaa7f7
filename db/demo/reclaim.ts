import { decimal } from '../../shared/decimal.ts'
import { present } from '../../shared/assert.ts'
import type { ReclaimWay } from '../../shared/reclaim-worth.ts'
import { decant } from '../acts/decant.ts'
import { lift } from '../acts/lift.ts'
import { moveLoad } from '../acts/move-load.ts'
import { pour } from '../acts/pour.ts'
import { readSlurry } from '../acts/read-slurry.ts'
import { slake } from '../acts/slake.ts'
import { weighOnPlaster } from '../acts/weigh-on-plaster.ts'
import { weighScrap } from '../acts/weigh-scrap.ts'
import { wedge } from '../acts/wedge.ts'
import { kilograms, type Hand } from './hand.ts'
import { batAfter, laidSlab, SLAB_MILLIMETRES, slabAfter, type DemoSlab } from './slab.ts'

const DAYS_IN_WEEK = 7
/** Slurry is poured on Thursdays. */
const POUR_DAY = 3

/** One clay's way back: from which bucket, through which basin, over which bats. */
export interface WayBack {
  readonly bodyId: string
  readonly scrapVesselId: string
  readonly slopsVesselId: string
  readonly basinVesselId: string
  readonly batIds: readonly string[]
  readonly benchLotId: string
  /** What makes it clay again, and in how many minutes the slabs of a week are wedged by it. */
  readonly by: ReclaimWay
  readonly minutesToWedge: string
}

/** The buckets are weighed and go into the basin with water, dry turnings first. */
export async function slakeDay(hand: Hand, way: WayBack): Promise<void> {
  const { bodyId, scrapVesselId, slopsVesselId, basinVesselId } = way
  const scrap = await hand.holds({ place: 'scrap', vesselId: scrapVesselId })
  await hand.does(['08:10', 'Tobin'], weighScrap, {
    vesselId: scrapVesselId,
    bodyId,
    state: 'air_dry',
    reading: {
      gross: kilograms(
        scrap.held.dryGrams.dividedBy('0.98').times(hand.wobble('scrap', 0.006)).plus(1000),
      ),
      inVesselId: scrapVesselId,
      scaleId: 'platform',
    },
    minutes: '5',
  })
  const dry = (await hand.holds({ place: 'scrap', vesselId: scrapVesselId })).held.dryGrams
  await hand.does(['08:20', 'Tobin'], slake, {
    fromVesselId: scrapVesselId,
    basinVesselId,
    water: { net: kilograms(dry.times('0.9')), scaleId: 'platform' },
    minutes: '10',
  })
  await hand.does(['08:30', 'Tobin'], slake, {
    ...{ fromVesselId: slopsVesselId, basinVesselId },
    minutes: '5',
  })
}

/** What stands clear over the clay is drawn off, the slurry is stirred, read and poured. */
export async function pourDay(
  hand: Hand,
  way: WayBack,
  times = { decanted: '09:00', read: '09:30', poured: '10:00' },
): Promise<DemoSlab[]> {
  const { basinVesselId, batIds } = way
  const before = await hand.holds({ place: 'basin', vesselId: basinVesselId })
  const water = before.held.waterGrams.minus(before.held.dryGrams.times('0.8'))
  if (water.greaterThan(200)) {
    await hand.does([times.decanted, 'Tobin'], decant, {
      basinVesselId,
      reading: { net: kilograms(water), scaleId: 'platform' },
      clarity: 'clear',
      minutes: '5',
    })
  }
  const { held } = await hand.holds({ place: 'basin', vesselId: basinVesselId })
  const wet = held.dryGrams.plus(held.waterGrams)
  const litre = wet
    .dividedBy(held.dryGrams.dividedBy('2.6').plus(held.waterGrams.dividedBy('0.9982')))
    .times(1000)
  await hand.does([times.read, 'Tobin'], readSlurry, {
    basinVesselId,
    slurry: {
      net: { value: litre.times(hand.wobble('density', 0.004)).toFixed(0), unit: 'g' },
      scaleId: 'bench',
    },
    volume: { value: '1000', unit: 'ml' },
    celsius: '18',
    whole: { net: kilograms(wet), scaleId: 'platform' },
  })
  const each = wet.times('0.96').dividedBy(batIds.length)
  const answer = await hand.does([times.poured, 'Tobin'], pour, {
    basinVesselId,
    loads: batIds.map((batId) => ({
      batId,
      reading: { net: kilograms(each), scaleId: 'platform' },
      thicknessMillimetres: SLAB_MILLIMETRES,
    })),
    minutes: '20',
  })
  const lotIds = [...(answer.made['lotIds'] ?? [])]
  const laid = lotIds.map((lotId, index) => laidSlab(hand, { lotId, batId: batIds[index] ?? '' }))
  return Promise.all(laid)
}

const HOURS_TO_FRIDAY = 22
const HOURS_TO_EVENING = 31
const HOURS_TO_SATURDAY = 46

/** The slabs are turned over and weighed; one of them carelessly, with its bat. */
export async function weighSlabs(hand: Hand, slabs: readonly DemoSlab[]): Promise<void> {
  for (const [index, slab] of slabs.entries()) {
    const alone = slabAfter(hand, slab, HOURS_TO_FRIDAY)
    const withPlaster = index > 0
    const grams = withPlaster ? alone.plus(batAfter(hand, slab, HOURS_TO_FRIDAY)) : alone
    await hand.does([index === 0 ? '08:00' : '08:15', 'Tobin'], weighOnPlaster, {
      lotId: slab.lotId,
      reading: { net: kilograms(grams), scaleId: 'platform' },
      withPlaster,
      turned: true,
    })
  }
}

/** A slab whose bat has drunk its fill is laid on one that is dry; what it is there. */
export async function moveSlab(hand: Hand, slab: DemoSlab, batId: string): Promise<DemoSlab> {
  const answer = await hand.does(['17:00', 'Tobin'], moveLoad, {
    lotId: slab.lotId,
    batId,
    reading: { net: kilograms(slabAfter(hand, slab, HOURS_TO_EVENING)), scaleId: 'platform' },
    bat: { net: kilograms(batAfter(hand, slab, HOURS_TO_EVENING)), scaleId: 'platform' },
    minutes: '5',
  })
  const lotId = present(answer.made['lotId'], 'a move makes a load').toString()
  return laidSlab(hand, { lotId, batId })
}

/**
 * The evening on which the story ends: slabs dry, one of them weighed alone, so that the board has
 * something to show. What is in the buckets is slaked and poured, where nothing lies on the bats yet.
 */
export async function leaveSlabsDrying(
  hand: Hand,
  way: WayBack,
  lying: readonly DemoSlab[],
): Promise<void> {
  const [thatLies] = lying
  if (thatLies !== undefined) {
    if (hand.day % DAYS_IN_WEEK === POUR_DAY) await weighAtNight(hand, thatLies, 12)
    return
  }
  const { scrapVesselId, slopsVesselId, basinVesselId } = way
  for (const fromVesselId of [scrapVesselId, slopsVesselId]) {
    const found = await hand.finds({ place: 'scrap', vesselId: fromVesselId })
    if (found === undefined) continue
    const water = kilograms(decimal(200).plus(found.held.dryGrams.times('0.3')))
    await hand.does(['17:00', 'Tobin'], slake, {
      fromVesselId,
      basinVesselId,
      water: { net: water, scaleId: 'platform' },
    })
  }
  const [first] = await pourDay(hand, way, { decanted: '17:40', read: '18:00', poured: '18:10' })
  await weighAtNight(hand, present(first, 'slurry was poured on a bat'), 4)
}

/** One slab of the day is lifted last thing, and weighed with its bat beside it. */
async function weighAtNight(hand: Hand, slab: DemoSlab, hours: number): Promise<void> {
  await hand.does(['22:10', 'Ines'], weighOnPlaster, {
    lotId: slab.lotId,
    reading: { net: kilograms(slabAfter(hand, slab, hours)), scaleId: 'platform' },
    bat: { net: kilograms(batAfter(hand, slab, hours)), scaleId: 'platform' },
    withPlaster: false,
  })
}

/** The slabs are lifted and wedged with fresh clay into what is on the bench. */
export async function liftDay(
  hand: Hand,
  way: WayBack,
  lifted: { loads: readonly DemoSlab[]; withBallClay: boolean },
): Promise<string> {
  const lotIds: string[] = []
  for (const slab of lifted.loads) {
    const { lotId } = slab
    // A slab that was moved the evening before has lain on its bat since then.
    const isMoved = slab.batId !== way.batIds[lotIds.length]
    const hours = isMoved ? HOURS_TO_SATURDAY - HOURS_TO_EVENING : HOURS_TO_SATURDAY
    const grams = slabAfter(hand, slab, hours)
    const answer = await hand.does(['08:00', 'Tobin'], lift, {
      lotId,
      reading: { net: kilograms(grams.minus(13)), scaleId: 'platform' },
      bat: { net: kilograms(batAfter(hand, slab, hours)), scaleId: 'platform' },
      scrapings: { reading: { net: { value: '13', unit: 'g' }, scaleId: 'glaze' } },
      minutes: '10',
      way: way.by,
    })
    lotIds.push(present(answer.made['lotId'], 'a lift makes a lot').toString())
  }
  const fresh = {
    lotId: way.benchLotId,
    reading: { net: kilograms(decimal(3000)), scaleId: 'platform' },
  }
  const additions = lifted.withBallClay
    ? [
        {
          name: 'ball clay, for plasticity',
          reading: { net: { value: '240', unit: 'g' as const }, scaleId: 'glaze' },
          price: '0.22',
        },
      ]
    : []
  const answer = await hand.does(['09:00', 'Tobin'], wedge, {
    from: [...lotIds.map((lotId) => ({ lotId, whatIsLeft: true as const })), fresh],
    additions,
    label: `wedged reclaim of ${way.bodyId}`,
    minutes: way.minutesToWedge,
    way: way.by,
  })
  return present(answer.made['lotId'], 'wedging makes a lot').toString()
}
