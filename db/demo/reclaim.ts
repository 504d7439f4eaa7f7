import { decimal } from '../../shared/decimal.ts'
import { present } from '../../shared/assert.ts'
import type { Mass } from '../../shared/units.ts'
import { decant } from '../acts/decant.ts'
import { lift } from '../acts/lift.ts'
import { moveLoad } from '../acts/move-load.ts'
import { pour } from '../acts/pour.ts'
import { readSlurry } from '../acts/read-slurry.ts'
import { slake } from '../acts/slake.ts'
import { weighOnPlaster } from '../acts/weigh-on-plaster.ts'
import { weighScrap } from '../acts/weigh-scrap.ts'
import { wedge } from '../acts/wedge.ts'
import { kilograms, weighsWet, type Hand } from './hand.ts'

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
export async function pourDay(hand: Hand, way: WayBack): Promise<string[]> {
  const { basinVesselId, batIds } = way
  const before = await hand.holds({ place: 'basin', vesselId: basinVesselId })
  const water = before.held.waterGrams.minus(before.held.dryGrams.times('0.8'))
  if (water.greaterThan(200)) {
    await hand.does(['09:00', 'Tobin'], decant, {
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
  await hand.does(['09:30', 'Tobin'], readSlurry, {
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
  const answer = await hand.does(['10:00', 'Tobin'], pour, {
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
    const alone = held.dryGrams.dividedBy('0.69')
    await hand.does([index === 0 ? '08:00' : '08:15', 'Tobin'], weighOnPlaster, {
      lotId,
      reading: { net: kilograms(index === 0 ? alone : alone.plus(7800)), scaleId: 'platform' },
      withPlaster: index > 0,
    })
  }
}

/** What is too wet yet goes to the bat that is free again. */
export async function moveSlab(
  hand: Hand,
  moved: { lotId: string; batId: string; bat: Mass },
): Promise<string> {
  const { lotId, batId, bat } = moved
  const { held } = await hand.holds({ place: 'plaster', lotId })
  const answer = await hand.does(['17:00', 'Tobin'], moveLoad, {
    lotId,
    batId,
    reading: { net: weighsWet(held.dryGrams, '0.252'), scaleId: 'platform' },
    bat: { net: bat, scaleId: 'platform' },
  })
  return present(answer.made['lotId'], 'a move makes a load').toString()
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
    const answer = await hand.does(['08:00', 'Tobin'], lift, {
      lotId,
      reading: { net: weighsWet(held.dryGrams.minus(10), '0.225'), scaleId: 'platform' },
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
