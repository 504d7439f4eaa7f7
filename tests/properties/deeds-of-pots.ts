import { bisqueFire, glazeFire, type FireSaid } from '../../db/acts/fire.ts'
import { gradeRun } from '../../db/acts/grade.ts'
import { joinClay } from '../../db/acts/join.ts'
import { losePieces } from '../../db/acts/lose.ts'
import { breakInShop, giveAway, keepPieces, type PartWithSaid } from '../../db/acts/part-with.ts'
import { sell } from '../../db/acts/sell.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { weighRun } from '../../db/acts/weigh-run.ts'
import type { Act } from '../../db/perform.ts'
import {
  LOSS_STAGES,
  POT_PLACES,
  type Grade,
  type LossStage,
  type Place,
  type PotPlace,
} from '../../shared/place.ts'
import type { Dice } from '../support/arbitraries.ts'
import { deedOf, type DeedMaker } from './deed.ts'
import { blendIn, bucketFor, sourceOf } from './deeds-of-clay.ts'
import { firingOf, packingOf } from './deeds-of-materials.ts'
import { priceOf, readingOf, someGrams, waterOf } from './said.ts'
import { piecesAt, type HeldHere, type View } from './view.ts'

const throwSome: DeedMaker = (view, dice) => {
  const from = [sourceOf(view, dice), ...(dice.isOnceIn(5) ? [sourceOf(view, dice)] : [])]
  const balls = from.reduce((sum, source) => sum + (source.balls ?? 0), 0)
  const pieces = balls === 0 || dice.isOnceIn(10) ? 1 + dice.roll(9) : undefined
  const taken = dice.isOnceIn(25) ? dice.pickOr(view.runs, undefined) : undefined
  const said = {
    formId: dice.isOnceIn(25) ? 'no-form' : dice.pick(['mug', 'plate']),
    runId: taken?.runId,
    from,
    pieces,
    blendBodyId: blendIn(dice, 6),
  }
  const begun = pieces ?? balls
  return deedOf(dice, { act: throwRun, said }, { pieces: { greenware: begun, hands: -begun } })
}

/** Pots at some place, and the id of a run where there are none. */
function potsIn(view: View, dice: Dice, ...places: readonly Place[]) {
  const there = piecesAt(view, ...places)
  const chosen = dice.isOnceIn(20) ? undefined : dice.pickOr(there, undefined)
  const runId = chosen?.runId ?? dice.pickOr(view.runs, { runId: 'no-run' }).runId
  return { runId, pots: chosen ?? there.find((held) => held.runId === runId) }
}

/** One of them, some, all, or one too many. */
function someOf(pots: { pieces: number } | undefined, dice: Dice): number {
  const there = pots?.pieces ?? 1
  return dice.pick([1, there, 1 + dice.roll(there), 1 + dice.roll(there + 1)])
}

const join: DeedMaker = (view, dice) => {
  const { pots, runId } = potsIn(view, dice, 'greenware')
  const from = [sourceOf(view, dice)]
  const cut = readingOf(someGrams(dice, 40), dice)
  const vesselId = bucketFor(view, pots?.bodyId ?? 'buff', dice)
  const offCuts = { reading: cut, water: waterOf(dice), vesselId, blendBodyId: blendIn(dice, 8) }
  const said = { runId, from, offCuts: dice.isOnceIn(2) ? offCuts : undefined }
  return deedOf(dice, { act: joinClay, said })
}

const STAGES = Object.keys(LOSS_STAGES) as [LossStage, ...LossStage[]]

const lose: DeedMaker = (view, dice) => {
  const stage = dice.pick(STAGES)
  const place = LOSS_STAGES[stage]
  const { pots, runId } = potsIn(view, dice, place)
  const pieces = someOf(pots, dice)
  const isGreen = place === 'greenware'
  const back = isGreen || dice.isOnceIn(15) ? backToScrap(view, dice, { pots, pieces }) : {}
  const grade = place === 'finished' ? gradeOf(pots) : undefined
  const said = { runId, pieces, stage, cause: 'cracked', grade, ...back }
  const to: Place = isGreen ? 'hands' : 'waste'
  return deedOf(
    dice,
    { act: losePieces, said },
    {
      pieces: { [place]: -pieces, [to]: pieces },
      keepsMoney: asFarAs(view, runId, place) > pieces,
    },
  )
}

/** Fired pieces of a run at a place or past it: what shards from there cost stays with them. */
function asFarAs(view: View, runId: string, place: PotPlace): number {
  const fired = (['bisque', 'glazed', 'finished'] as const).filter(
    (at) => POT_PLACES.indexOf(at) >= POT_PLACES.indexOf(place),
  )
  const ofRun = piecesAt(view, ...fired).filter((held) => held.runId === runId)
  return ofRun.reduce((sum, held) => sum + held.pieces, 0)
}

function backToScrap(
  view: View,
  dice: Dice,
  { pots, pieces }: { pots: HeldHere | undefined; pieces: number },
) {
  const oneGrams = pots?.wetGrams.dividedBy(pots.pieces) ?? someGrams(dice, 900)
  const grams = oneGrams.times(pieces).times('0.8')
  return {
    vesselId: bucketFor(view, pots?.bodyId ?? 'buff', dice),
    reading: dice.isOnceIn(2) ? readingOf(grams, dice) : undefined,
    water: waterOf(dice),
    blendBodyId: blendIn(dice, 8),
  }
}

function gradeOf(pots: HeldHere | undefined): Grade {
  return pots?.grade === 'second' ? 'second' : 'first'
}

const weigh: DeedMaker = (view, dice) => {
  const { pots, runId } = potsIn(view, dice, 'greenware', 'bisque', 'glazed', 'finished')
  const place = (pots?.place ?? 'greenware') as 'greenware' | 'finished'
  const grams = (pots?.wetGrams ?? someGrams(dice, 900)).times(dice.pick(['1', '0.97', '1.1']))
  const said = {
    runId,
    place,
    grade: place === 'finished' ? gradeOf(pots) : undefined,
    reading: readingOf(grams, dice),
    water: waterOf(dice),
  }
  return deedOf(dice, { act: weighRun, said })
}

function fire(act: Act<FireSaid>, from: Place, to: Place): DeedMaker {
  return (view, dice) => {
    const { pots, runId } = potsIn(view, dice, from)
    const others = piecesAt(view, from).filter((held) => held.runId !== runId)
    const other = dice.isOnceIn(3) ? dice.pickOr(others, undefined) : undefined
    const load = { runId, ...loadOf(pots, dice) }
    const runs = [load, ...(other === undefined ? [] : [{ runId: other.runId ?? '' }])]
    const fired = (load.pieces ?? pots?.pieces ?? 0) + (other?.pieces ?? 0)
    const { firing, bill } = firingOf(view, dice)
    const pieces = { [from]: -fired, [to]: fired }
    return deedOf(dice, { act, said: { runs, firing } }, { pieces, bill })
  }
}

function loadOf(pots: HeldHere | undefined, dice: Dice) {
  const pieces = dice.isOnceIn(2) ? someOf(pots, dice) : undefined
  const grams = (pots?.dryGrams ?? someGrams(dice, 900)).times(dice.pick(['0.9', '0.5', '1.01']))
  return { pieces, reading: dice.isOnceIn(4) ? readingOf(grams, dice) : undefined }
}

const grade: DeedMaker = (view, dice) => {
  const { pots, runId } = potsIn(view, dice, 'glazed')
  const there = pots?.pieces ?? 1
  const firsts = dice.roll(there + 1)
  const seconds = dice.roll(there - firsts + 1)
  const rest = Math.max(there - firsts - seconds, 0)
  const wasters = firsts + seconds === 0 ? 1 : dice.pick([rest, 0, rest, rest + 1])
  const said = { runId, firsts, seconds, wasters }
  const graded = firsts + seconds + wasters
  const pieces = { glazed: -graded, finished: firsts + seconds, waste: wasters }
  const keepsMoney = asFarAs(view, runId, 'glazed') > wasters
  return deedOf(dice, { act: gradeRun, said }, { pieces, keepsMoney })
}

/** Finished pots of a form and grade, of one run or of whichever is the oldest. */
function finishedIn(view: View, dice: Dice): PartWithSaid {
  const { pots, runId } = potsIn(view, dice, 'finished')
  const formId = view.runs.find((run) => run.runId === runId)?.formId ?? 'mug'
  const ofRun = dice.isOnceIn(2) ? runId : undefined
  return { formId, grade: gradeOf(pots), pieces: someOf(pots, dice), runId: ofRun }
}

const sellSome: DeedMaker = (view, dice) => {
  const pots = finishedIn(view, dice)
  const { packing, boxes } = packingOf(view, dice, pots)
  const said = { ...pots, priceEach: priceOf(dice), channel: 'fair', packing }
  const customer = pots.pieces + boxes
  const pieces = { finished: -pots.pieces, customer, materials: -boxes }
  return deedOf(dice, { act: sell, said }, { pieces })
}

function partWith(act: Act<PartWithSaid>, to: Place): DeedMaker {
  return (view, dice) => {
    const said = finishedIn(view, dice)
    return deedOf(dice, { act, said }, { pieces: { finished: -said.pieces, [to]: said.pieces } })
  }
}

export const DEEDS_OF_POTS = {
  throw: throwSome,
  join,
  lose,
  weigh_run: weigh,
  bisque: fire(bisqueFire, 'greenware', 'bisque'),
  glaze_fire: fire(glazeFire, 'bisque', 'glazed'),
  grade,
  sell: sellSome,
  give_away: partWith(giveAway, 'customer'),
  keep: partWith(keepPieces, 'customer'),
  break_in_shop: partWith(breakInShop, 'waste'),
} as const satisfies Record<string, DeedMaker>
