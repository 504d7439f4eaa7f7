import { decimal, type Decimal } from '../../shared/decimal.ts'
import { collectSlops } from '../acts/collect-slops.ts'
import { bisqueFire, glazeFire } from '../acts/fire.ts'
import { gradeRun } from '../acts/grade.ts'
import { joinClay } from '../acts/join.ts'
import { losePieces } from '../acts/lose.ts'
import { openBag } from '../acts/open-bag.ts'
import { sell } from '../acts/sell.ts'
import { throwRun } from '../acts/throw.ts'
import { turnRun } from '../acts/turn.ts'
import { weighRun } from '../acts/weigh-run.ts'
import type { ClaySourceSaid } from '../clay-sources.ts'
import { bisqueOf, glazeOf } from './kilns.ts'
import { kilograms, weighsWet, type Hand } from './hand.ts'
import { isPacked } from './materials.ts'

/** A run of the demo: what it is of, and how it fares. */
export interface DemoRun {
  readonly runId: string
  readonly formId: string
  readonly by: 'Ines' | 'Tobin'
  readonly lotId: string
  /** Reclaimed clay that is used up first, where there is some. */
  readonly reclaimedLotId?: string | undefined
  readonly balls: number
  readonly ballKilograms: string
  readonly turnedOffFraction: number
  readonly scrapVesselId: string
  readonly slopsVesselId: string
  readonly lost: { readonly wheel: number; readonly drying: number; readonly bisque: number }
  readonly graded: {
    readonly seconds: number
    readonly wasters: number
    /** Why the wasters are, where it is not the usual. */
    readonly cause?: string
  }
  readonly priceEach: string
}

/** Bags are opened and weighed, and their clay joins what is on the bench. */
export async function openBags(
  hand: Hand,
  opened: { lotId: string; bags: number; benchLotId: string },
): Promise<void> {
  const { lotId, bags, benchLotId: intoLotId } = opened
  const net = kilograms(decimal(12500).times(bags).times(hand.wobble(lotId, 0.006)))
  await hand.does(['08:00', 'Tobin'], openBag, {
    lotId,
    bags,
    intoLotId,
    reading: { net, scaleId: 'platform' },
  })
}

/** The day a run is thrown: balls, what collapses on the wheel. */
export async function throwDay(hand: Hand, run: DemoRun): Promise<void> {
  const { runId, formId, balls: pieces, by } = run
  await hand.does(['09:00', by], throwRun, {
    runId,
    formId,
    pieces,
    from: await clayFor(hand, run),
  })
  if (run.lost.wheel === 0) return
  const wet = decimal(run.ballKilograms).times(1000).times(run.lost.wheel)
  await hand.does(['10:30', by], losePieces, {
    runId,
    pieces: run.lost.wheel,
    stage: 'wheel',
    cause: 'collapsed at the rim',
    vesselId: run.slopsVesselId,
    reading: { net: kilograms(wet.times('0.96')), scaleId: 'bench' },
  })
}

/** Balls of fresh clay; or what is left of the reclaimed, and as much fresh clay as it falls short. */
async function clayFor(hand: Hand, run: DemoRun): Promise<ClaySourceSaid[]> {
  const { lotId, reclaimedLotId, balls, ballKilograms } = run
  const ballMass = { value: ballKilograms, unit: 'kg' as const }
  if (reclaimedLotId === undefined) return [{ lotId, balls, ballMass }]
  const { held } = await hand.holds({ place: 'bench', lotId: reclaimedLotId })
  const short = wetGramsOf(run).minus(held.dryGrams).minus(held.waterGrams)
  return [
    { lotId: reclaimedLotId, whatIsLeft: true },
    { lotId, reading: { net: kilograms(short), scaleId: 'platform' } },
  ]
}

/** The evening of a day at the wheel: splash trays and hand-wipe of all runs of one clay together. */
export async function slopsOf(hand: Hand, runs: readonly DemoRun[]): Promise<void> {
  const [first] = runs
  if (first === undefined) return
  const grams = runs.reduce((sum, run) => sum.plus(wetGramsOf(run).times('0.07')), decimal(0))
  await hand.does(['16:30', first.by], collectSlops, {
    runIds: runs.map((run) => run.runId),
    vesselId: first.slopsVesselId,
    state: 'slops',
    reading: { net: kilograms(grams.times(hand.wobble('slops', 0.15))), scaleId: 'bench' },
  })
}

/** The day a run is turned: weighed leather-hard, turned, the turnings weighed. */
export async function turnDay(hand: Hand, run: DemoRun): Promise<void> {
  const { runId, by, scrapVesselId: vesselId } = run
  const pots = await hand.holds({ place: 'greenware', runId })
  const gross = weighsWet(pots.held.dryGrams.times(hand.wobble(runId, 0.004)), '0.165')
  const water = { content: '0.165', basis: 'wet' as const, standing: 'measured' as const }
  await hand.does(['09:00', by], weighRun, {
    runId,
    place: 'greenware',
    reading: { net: gross, scaleId: 'platform' },
    water,
  })
  const off = pots.held.dryGrams
    .times(run.turnedOffFraction)
    .times(hand.wobble(`off ${runId}`, 0.12))
  await hand.does(['11:00', by], turnRun, {
    runId,
    vesselId,
    turnings: { net: weighsWet(off, '0.15'), scaleId: 'bench' },
  })
}

/** Handles for mugs: pulled from the bench, what is cut off goes to the slops. */
export async function handleDay(hand: Hand, run: DemoRun): Promise<void> {
  const { runId, lotId, by, slopsVesselId } = run
  const pots = await hand.holds({ place: 'greenware', runId })
  const net = kilograms(pots.held.pieces.times(70))
  await hand.does(['13:00', by], joinClay, {
    runId,
    from: [{ lotId, reading: { net, scaleId: 'bench' } }],
    offCuts: {
      vesselId: slopsVesselId,
      reading: { net: kilograms(pots.held.pieces.times(18)), scaleId: 'bench' },
    },
  })
}

/** A run dries: some crack, are crushed back into the scrap bucket. */
export async function dryDays(hand: Hand, run: DemoRun): Promise<void> {
  if (run.lost.drying === 0) return
  await hand.does(['08:30', run.by], losePieces, {
    runId: run.runId,
    pieces: run.lost.drying,
    stage: 'drying',
    cause: 'cracked across the base',
    vesselId: run.scrapVesselId,
  })
}

/** The bisque is unloaded and weighed; what broke in it is shards. */
export async function bisqueDay(
  hand: Hand,
  runs: readonly DemoRun[],
  index: number,
): Promise<void> {
  const loads = []
  for (const { runId } of runs) {
    const { held } = await hand.holds({ place: 'greenware', runId })
    const fired = held.dryGrams.times('0.925').times(hand.wobble(`fired ${runId}`, 0.003))
    loads.push({ runId, reading: { net: kilograms(fired), scaleId: 'platform' } })
  }
  await hand.does(['10:00', 'Tobin'], bisqueFire, { runs: loads, firing: bisqueOf(hand, index) })
  for (const { runId, lost } of runs.filter((run) => run.lost.bisque > 0)) {
    await hand.does(['10:30', 'Tobin'], losePieces, {
      runId,
      pieces: lost.bisque,
      stage: 'bisque_firing',
      cause: 'blew out',
    })
  }
}

/** The glaze kiln is unloaded and looked at. */
export async function glazeDay(hand: Hand, runs: readonly DemoRun[], index: number): Promise<void> {
  await hand.does(['09:00', 'Ines'], glazeFire, {
    runs: runs.map(({ runId }) => ({ runId })),
    firing: glazeOf(hand, index),
  })
  for (const { runId, graded } of runs) {
    const { held } = await hand.holds({ place: 'glazed', runId })
    const firsts = held.pieces.toNumber() - graded.seconds - graded.wasters
    await hand.does(['11:00', 'Ines'], gradeRun, {
      runId,
      firsts,
      seconds: graded.seconds,
      wasters: graded.wasters,
      ...(graded.wasters > 0 ? { cause: graded.cause ?? 'glaze ran to the shelf' } : {}),
    })
  }
}

/** Most of a run is sold, the seconds among it at half the price; the rest stays on the shelf. */
export async function sellSome(
  hand: Hand,
  run: DemoRun,
  sold: { fraction: number; channel: string },
): Promise<void> {
  const { formId, runId } = run
  const { channel, fraction } = sold
  const firsts = await hand.holds({ place: 'finished', runId, grade: 'first' })
  const pieces = Math.floor(firsts.held.pieces.toNumber() * fraction)
  const { priceEach } = run
  await hand.does(['15:00', 'Ines'], sell, {
    ...{ formId, grade: 'first', pieces, priceEach, channel },
    ...(channel === 'online shop' && isPacked(formId) ? { packing: 'as_usual' as const } : {}),
  })
  if (run.graded.seconds < 2) return
  await hand.does(['15:10', 'Ines'], sell, {
    formId,
    grade: 'second',
    pieces: 1,
    priceEach: decimal(priceEach).dividedBy(2).toFixed(2),
    channel: 'yard door',
  })
}

function wetGramsOf(run: DemoRun): Decimal {
  return decimal(run.ballKilograms).times(1000).times(run.balls)
}
