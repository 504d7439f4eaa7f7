import { decimal } from '../../shared/decimal.ts'
import { present } from '../../shared/assert.ts'
import { decant } from '../acts/decant.ts'
import { lift } from '../acts/lift.ts'
import { moveLoad } from '../acts/move-load.ts'
import { pour } from '../acts/pour.ts'
import { readSlurry } from '../acts/read-slurry.ts'
import { slake } from '../acts/slake.ts'
import { weighOnPlaster } from '../acts/weigh-on-plaster.ts'
import { weighScrap } from '../acts/weigh-scrap.ts'
import { wedge } from '../acts/wedge.ts'
import type { FoundHolding } from '../holdings.ts'
import { kilograms, weighsWet, type Hand } from './hand.ts'

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
  })
  const dry = (await hand.holds({ place: 'scrap', vesselId: scrapVesselId })).held.dryGrams
  await hand.does(['08:20', 'Tobin'], slake, {
    fromVesselId: scrapVesselId,
    basinVesselId,
    water: { net: kilograms(dry.times('0.9')), scaleId: 'platform' },
  })
  await hand.does(['08:30', 'Tobin'], slake, { fromVesselId: slopsVesselId, basinVesselId })
}

/** What stands clear over the clay is drawn off, the slurry is stirred, read and poured. */
export async function pourDay(
  hand: Hand,
  way: WayBack,
  times = { decanted: '09:00', read: '09:30', poured: '10:00' },
): Promise<string[]> {
  const { basinVesselId, batIds } = way
  const before = await hand.holds({ place: 'basin', vesselId: basinVesselId })
  const water = before.held.waterGrams.minus(before.held.dryGrams.times('0.8'))
  if (water.greaterThan(200)) {
    await hand.does([times.decanted, 'Tobin'], decant, {
      basinVesselId,
      reading: { net: kilograms(water), scaleId: 'platform' },
      clarity: 'clear',
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
    })),
  })
  return [...(answer.made['lotIds'] ?? [])]
}

/** The slabs are turned over and weighed; one of them carelessly, with its bat. */
export async function weighSlabs(hand: Hand, lotIds: readonly string[]): Promise<void> {
  for (const [index, lotId] of lotIds.entries()) {
    const { held } = await hand.holds({ place: 'plaster', lotId })
    const alone = held.dryGrams.dividedBy('0.69').times(hand.wobble(lotId, 0.02))
    await hand.does([index === 0 ? '08:00' : '08:15', 'Tobin'], weighOnPlaster, {
      lotId,
      reading: { net: kilograms(index === 0 ? alone : alone.plus(7800)), scaleId: 'platform' },
      withPlaster: index > 0,
      turned: true,
    })
  }
}

/** A slab whose bat has drunk its fill is laid on one that is dry; what it is there. */
export async function moveSlab(
  hand: Hand,
  moved: { lotId: string; toBatId: string },
): Promise<string> {
  const { held } = await hand.holds({ place: 'plaster', lotId: moved.lotId })
  const answer = await hand.does(['17:00', 'Tobin'], moveLoad, {
    lotId: moved.lotId,
    batId: moved.toBatId,
    reading: {
      net: weighsWet(held.dryGrams.times(hand.wobble('moved', 0.01)), '0.262'),
      scaleId: 'platform',
    },
    bat: { net: kilograms(decimal(7680).times(hand.wobble('bat', 0.01))), scaleId: 'platform' },
  })
  return present(answer.made['lotId'], 'a move makes a load').toString()
}

/**
 * The evening on which the story ends: two slabs dry, one of them weighed alone, so that the board has
 * something to show. What is in the buckets is slaked and poured, where nothing lies on the bats yet.
 */
export async function leaveSlabsDrying(hand: Hand, way: WayBack): Promise<void> {
  const { scrapVesselId, slopsVesselId, basinVesselId, bodyId } = way
  const lying = await hand.finds({ place: 'plaster', bodyId })
  if (lying !== undefined) {
    if (hand.day % DAYS_IN_WEEK === POUR_DAY) await weighAtNight(hand, lying, '0.36')
    return
  }
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
  const lotId = present(first, 'slurry was poured on a bat')
  await weighAtNight(hand, await hand.holds({ place: 'plaster', lotId }), '0.395')
}

/** One slab of the day is lifted last thing, and weighed with its bat beside it. */
async function weighAtNight(
  hand: Hand,
  { ref, held }: FoundHolding,
  waterContentWetBasis: string,
): Promise<void> {
  await hand.does(['22:10', 'Ines'], weighOnPlaster, {
    lotId: ref.lotId ?? '',
    reading: { net: weighsWet(held.dryGrams, waterContentWetBasis), scaleId: 'platform' },
    bat: { net: kilograms(decimal(7260)), scaleId: 'platform' },
    withPlaster: false,
  })
}

/** The slabs are lifted and wedged with fresh clay into what is on the bench. */
export async function liftDay(
  hand: Hand,
  way: WayBack,
  lifted: { loads: readonly string[]; withBallClay: boolean },
): Promise<string> {
  const lotIds: string[] = []
  for (const lotId of lifted.loads) {
    const { held } = await hand.holds({ place: 'plaster', lotId })
    const slab = held.dryGrams.minus(10).times(hand.wobble(`lifted ${lotId}`, 0.008))
    const answer = await hand.does(['08:00', 'Tobin'], lift, {
      lotId,
      reading: { net: weighsWet(slab, '0.225'), scaleId: 'platform' },
      scrapings: { reading: { net: { value: '13', unit: 'g' }, scaleId: 'glaze' } },
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
  })
  return present(answer.made['lotId'], 'wedging makes a lot').toString()
}
