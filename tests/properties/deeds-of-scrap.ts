import { collectSlops } from '../../db/acts/collect-slops.ts'
import { decant } from '../../db/acts/decant.ts'
import { lift } from '../../db/acts/lift.ts'
import { moveLoad } from '../../db/acts/move-load.ts'
import { pour } from '../../db/acts/pour.ts'
import { readSlurry } from '../../db/acts/read-slurry.ts'
import { slake } from '../../db/acts/slake.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { weighOnPlaster } from '../../db/acts/weigh-on-plaster.ts'
import { weighScrap } from '../../db/acts/weigh-scrap.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import type { Volume } from '../../shared/units.ts'
import type { Dice } from '../support/arbitraries.ts'
import { deedOf, type DeedMaker } from './deed.ts'
import { blendIn, bodyIn, bucketFor, bucketIn, newLotIn } from './deeds-of-clay.ts'
import { gramsOf, partOf, readingOf, someGrams, waterOf } from './said.ts'
import { clayAt, piecesAt, type HeldHere, type View } from './view.ts'

const BASINS = ['basin-1', 'basin-2'] as const

const collect: DeedMaker = (view, dice) => {
  const green = piecesAt(view, 'greenware')
  const run = dice.pickOr(green, undefined)
  const sisters = green.filter((held) => held.bodyId === run?.bodyId && held !== run)
  const other = dice.isOnceIn(3) ? dice.pickOr(sisters, undefined) : undefined
  const anyRun = dice.pickOr(view.runs, { runId: 'no-run' }).runId
  const runIds = [run?.runId ?? anyRun, ...(other === undefined ? [] : [other.runId ?? ''])]
  const grams = partOf(run?.wetGrams ?? someGrams(dice, 900), dice)
  const said = {
    runIds,
    vesselId: bucketFor(view, run?.bodyId ?? 'buff', dice),
    state: dice.pick(['slops', 'off_cuts', 'throwing_water'] as const),
    reading: readingOf(grams, dice),
    water: waterOf(dice),
    blendBodyId: blendIn(dice, 8),
  }
  return deedOf(dice, { act: collectSlops, said })
}

const turn: DeedMaker = (view, dice) => {
  const run = dice.pickOr(piecesAt(view, 'greenware'), undefined)
  const wetGrams = run?.wetGrams ?? someGrams(dice, 3000)
  const turnings = dice.isOnceIn(3) ? undefined : readingOf(partOf(wetGrams, dice), dice)
  const before = gramsOf(wetGrams, 1)
  const after = gramsOf(wetGrams.times(dice.pick(['0.9', '0.7', '1.01'])), 1)
  const said = {
    runId: run?.runId ?? dice.pickOr(view.runs, { runId: 'no-run' }).runId,
    vesselId: bucketFor(view, run?.bodyId ?? 'buff', dice),
    ...(turnings === undefined ? { before: { net: before }, after: { net: after } } : { turnings }),
    state: dice.isOnceIn(4) ? dice.pick(CLAY_STATES) : undefined,
    water: waterOf(dice),
    blendBodyId: blendIn(dice, 8),
  }
  return deedOf(dice, { act: turnRun, said })
}

const weigh: DeedMaker = (view, dice) => {
  const scrap = dice.isOnceIn(4) ? undefined : dice.pickOr(clayAt(view, 'scrap'), undefined)
  const bodyId = scrap?.bodyId ?? bodyIn(dice)
  const runs = piecesAt(view, 'greenware').filter((held) => held.bodyId === bodyId)
  const run = dice.isOnceIn(2) ? dice.pickOr(runs, undefined) : undefined
  const said = {
    vesselId: scrap?.vesselId ?? bucketFor(view, bodyId, dice),
    bodyId,
    reading: readingOf(partOf(scrap?.wetGrams ?? someGrams(dice, 3000), dice), dice),
    state: dice.pick(CLAY_STATES),
    water: waterOf(dice),
    runIds: run === undefined ? undefined : [run.runId ?? ''],
    blendBodyId: blendIn(dice, 10),
  }
  return deedOf(dice, { act: weighScrap, said })
}

function basinFor(view: View, bodyId: string, dice: Dice): string {
  if (dice.isOnceIn(8)) return dice.pick(['basin-1', 'bucket-1', 'no-vessel'])
  const others = view.holdings.filter((held) => held.bodyId !== bodyId && !held.dryGrams.isZero())
  return dice.pickOr(
    BASINS.filter((basin) => !others.some((held) => held.vesselId === basin)),
    'basin-1',
  )
}

const slakeSome: DeedMaker = (view, dice) => {
  const scrap = dice.pickOr(clayAt(view, 'scrap'), undefined)
  const wetGrams = scrap?.wetGrams ?? someGrams(dice, 900)
  const said = {
    fromVesselId: scrap?.vesselId ?? bucketIn(dice),
    basinVesselId: basinFor(view, scrap?.bodyId ?? 'buff', dice),
    scrap: dice.isOnceIn(2) ? readingOf(partOf(wetGrams, dice), dice) : undefined,
    water: dice.isOnceIn(3) ? undefined : readingOf(partOf(wetGrams, dice), dice),
    blendBodyId: blendIn(dice, 6),
  }
  return deedOf(dice, { act: slake, said })
}

const drawOff: DeedMaker = (view, dice) => {
  const basin = dice.pickOr(clayAt(view, 'basin'), undefined)
  const wetGrams = basin?.wetGrams ?? someGrams(dice, 900)
  const said = {
    basinVesselId: basin?.vesselId ?? 'basin-2',
    reading: readingOf(partOf(wetGrams, dice).times('0.4'), dice),
    clarity: dice.pick(['clear', 'cloudy'] as const),
    solidsFraction: dice.pick([undefined, undefined, '0.01', '0', '0.9']),
    intoVesselId: dice.isOnceIn(2) ? undefined : bucketFor(view, basin?.bodyId ?? 'buff', dice),
    blendBodyId: blendIn(dice, 8),
  }
  return deedOf(dice, { act: decant, said })
}

const readDensity: DeedMaker = (view, dice) => {
  const basin = dice.pickOr(clayAt(view, 'basin'), undefined)
  const wetGrams = basin?.wetGrams ?? someGrams(dice, 900)
  const whole = dice.isOnceIn(2)
    ? { whole: readingOf(partOf(wetGrams, dice), dice) }
    : { wholeVolume: { value: dice.pick(['3', '0.5', '11.25']), unit: 'l' as const } }
  const said = {
    basinVesselId: basin?.vesselId ?? 'basin-2',
    slurry: { net: gramsOf(someGrams(dice, 900).plus(dice.pick([1050, 900, 2000])), 0) },
    volume: dice.pick<Volume>([
      { value: '1', unit: 'l' },
      { value: '1000', unit: 'ml' },
      { value: '2', unit: 'imperial_pint' },
      { value: '2', unit: 'us_pint' },
    ]),
    celsius: dice.pick([undefined, '0', '40', '14.5']),
    ...(dice.isOnceIn(2) ? {} : whole),
  }
  return deedOf(dice, { act: readSlurry, said })
}

const pourSome: DeedMaker = (view, dice) => {
  const basin = dice.pickOr(clayAt(view, 'basin'), undefined)
  const bats = dice.pick([['bat-a'], ['bat-b'], ['bat-b', 'bat-a'], ['bat-a', 'bat-b'], ['no-bat']])
  const wetGrams = (basin?.wetGrams ?? someGrams(dice, 900)).dividedBy(bats.length)
  const said = {
    basinVesselId: basin?.vesselId ?? 'basin-1',
    loads: bats.map((batId) => ({
      batId,
      reading: readingOf(partOf(wetGrams, dice), dice),
      thicknessMillimetres: dice.isOnceIn(3) ? dice.pick(['30', '12.5', '0.001']) : undefined,
    })),
    water: waterOf(dice),
  }
  return deedOf(dice, { act: pour, said })
}

/** A load that lies on plaster, mostly; rarely one that was lifted, or a lot that never was a load. */
function loadIn(view: View, dice: Dice): { lotId: string; load: HeldHere | undefined } {
  const load = dice.isOnceIn(12) ? undefined : dice.pickOr(clayAt(view, 'plaster'), undefined)
  return { lotId: load?.lotId ?? dice.pickOr(view.lots, { lotId: 'no-lot' }).lotId, load }
}

const weighLoad: DeedMaker = (view, dice) => {
  const { lotId, load } = loadIn(view, dice)
  const grams = load?.wetGrams.times(dice.pick(['0.95', '1', '0.8', '1.2', '0.5']))
  const withPlaster = dice.isOnceIn(4)
  const said = {
    lotId,
    withPlaster,
    reading: readingOf(grams ?? someGrams(dice, 900), dice),
    bat: withPlaster || !dice.isOnceIn(4) ? undefined : readingOf(someGrams(dice, 900), dice),
    turned: dice.isOnceIn(4) ? true : undefined,
  }
  return deedOf(
    dice,
    { act: weighOnPlaster, said },
    { pieces: {}, isImpossible: !clayAt(view, 'plaster').some((held) => held.lotId === lotId) },
  )
}

const moveSome: DeedMaker = (view, dice) => {
  const { lotId, load } = loadIn(view, dice)
  const wetGrams = load?.wetGrams ?? someGrams(dice, 900)
  const said = {
    lotId,
    batId: dice.pick(['bat-a', 'bat-b', 'bat-a', 'bat-b', 'no-bat']),
    reading: dice.isOnceIn(2) ? readingOf(wetGrams.times('0.9'), dice) : undefined,
    bat: dice.isOnceIn(3) ? readingOf(someGrams(dice, 900).plus(7000), dice) : undefined,
  }
  return deedOf(
    dice,
    { act: moveLoad, said },
    { pieces: {}, isImpossible: !clayAt(view, 'plaster').some((held) => held.lotId === lotId) },
  )
}

const liftLoad: DeedMaker = (view, dice) => {
  const { lotId, load } = loadIn(view, dice)
  const wetGrams = load?.wetGrams ?? someGrams(dice, 900)
  const scraped = readingOf(wetGrams.times(dice.pick(['0.01', '0.03', '1'])), dice)
  const said = {
    lotId,
    reading: dice.isOnceIn(2) ? readingOf(wetGrams.times('0.93'), dice) : undefined,
    scrapings: dice.isOnceIn(3) ? { reading: scraped, water: waterOf(dice) } : undefined,
    ...newLotIn(view, dice),
  }
  return deedOf(dice, { act: lift, said })
}

export const DEEDS_OF_SCRAP = {
  collect_slops: collect,
  turn,
  weigh_scrap: weigh,
  slake: slakeSome,
  decant: drawOff,
  read_slurry: readDensity,
  pour: pourSome,
  weigh_on_plaster: weighLoad,
  move_load: moveSome,
  lift: liftLoad,
} as const satisfies Record<string, DeedMaker>
