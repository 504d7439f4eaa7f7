import { glazePots, type GlazeSaid } from '../../db/acts/glaze.ts'
import { loseGlaze } from '../../db/acts/lose-glaze.ts'
import { mixGlaze } from '../../db/acts/mix-glaze.ts'
import { readGlaze } from '../../db/acts/read-glaze.ts'
import { waterGlaze } from '../../db/acts/water-glaze.ts'
import { Decimal } from '../../shared/decimal.ts'
import type { Dice } from '../support/arbitraries.ts'
import { deedOf, type DeedMaker } from './deed.ts'
import { gramsOf, partOf, readingOf, someGrams } from './said.ts'
import { piecesAt, type HeldHere, type View } from './view.ts'

const PAILS = ['glaze-1', 'glaze-2'] as const

/** A pail with glaze in it, or any pail. */
function pailOf(view: View, dice: Dice): { vesselId: string; held: HeldHere | undefined } {
  const full = view.holdings.filter(
    (held) => held.place === 'glaze_bucket' && !held.materialGrams.isZero(),
  )
  const held = dice.isOnceIn(15) ? undefined : dice.pickOr(full, undefined)
  return { vesselId: held?.vesselId ?? dice.pick([...PAILS, 'bucket-3']), held }
}

const shelved = (view: View, materialId: string) =>
  view.holdings.find((held) => held.place === 'materials' && held.materialId === materialId)

const mix: DeedMaker = (view, dice) => {
  const vesselId = dice.isOnceIn(20) ? 'bucket-1' : dice.pick(PAILS)
  const inside = view.holdings.find(
    (held) =>
      held.place === 'glaze_bucket' && held.vesselId === vesselId && !held.materialGrams.isZero(),
  )
  const known = inside?.materialId ?? dice.pick(['celadon', 'tenmoku'])
  const glazeId = dice.isOnceIn(15) ? dice.pick(['celadon', 'tenmoku', 'quartz']) : known
  const water = { water: gramsOf(someGrams(dice, 3000), 0) }
  const amounts = ['quartz', 'whiting'].map((ingredientId) => {
    const there = shelved(view, ingredientId)?.wetGrams ?? someGrams(dice, 90)
    return { ingredientId, reading: readingOf(partOf(there, dice), dice) }
  })
  const dryGrams = Decimal.max(
    (shelved(view, 'whiting')?.materialGrams ?? someGrams(dice, 90)).times(dice.pick(SHARES)),
    '0.000001',
  ).toFixed(6)
  const said = dice.isOnceIn(2)
    ? { glazeId, vesselId, dryGrams, ...water }
    : { glazeId, vesselId, ingredients: amounts, ...(dice.isOnceIn(3) ? {} : water) }
  return deedOf(dice, { act: mixGlaze, said })
}
const SHARES = ['0.5', '1', '0.1', '2.6'] as const

const water: DeedMaker = (view, dice) => {
  const { vesselId, held } = pailOf(view, dice)
  const drawn = partOf(held?.waterGrams ?? someGrams(dice, 50), dice)
  const said = dice.isOnceIn(2)
    ? {
        vesselId,
        takenOff: readingOf(drawn, dice),
        clarity: dice.pick(['clear', 'cloudy'] as const),
      }
    : { vesselId, water: gramsOf(someGrams(dice, 900), 0) }
  return deedOf(dice, { act: waterGlaze, said })
}

/** A litre of it weighs more than water, as a glaze does. */
const densityOf = (dice: Dice) => ({
  slurry: { net: { value: dice.pick(['720', '690', '760', '505']), unit: 'g' as const } },
  volume: { value: '500', unit: 'ml' as const },
})

const read: DeedMaker = (view, dice) => {
  const { vesselId, held } = pailOf(view, dice)
  const wetGrams = held?.wetGrams ?? someGrams(dice, 900)
  const reading = readingOf(wetGrams.times(dice.pick(['1', '0.96', '1.05'])), dice)
  const density = densityOf(dice)
  const said = dice.isOnceIn(3) ? { vesselId, density } : { vesselId, density, reading }
  return deedOf(dice, { act: readGlaze, said })
}

const lose: DeedMaker = (view, dice) => {
  const { vesselId, held } = pailOf(view, dice)
  const why = dice.pick(['sieve', 'wash', 'spilt'] as const)
  const reading = readingOf(partOf(held?.wetGrams ?? someGrams(dice, 50), dice).times('0.3'), dice)
  const dryGrams = (held?.materialGrams ?? someGrams(dice, 5)).times('0.02').toFixed(6)
  return deedOf(dice, {
    act: loseGlaze,
    said: dice.pick([
      { vesselId, why, reading },
      { vesselId, why, dryGrams },
      { vesselId, why, reading },
      ...(dice.isOnceIn(4) ? [{ vesselId, why, whatIsLeft: true as const }] : []),
    ]),
  })
}

/** Pots that are to be glazed, now and then those of two runs, and their dry clay. */
function bisqueIn(view: View, dice: Dice) {
  const pots = dice.pickOr(piecesAt(view, 'bisque'), undefined)
  const others = piecesAt(view, 'bisque').filter(({ runId }) => runId !== pots?.runId)
  const other = dice.isOnceIn(3) ? dice.pickOr(others, undefined) : undefined
  const pieces = dice.isOnceIn(3) ? 1 + dice.roll(1 + (pots?.pieces ?? 1)) : undefined
  const second = other === undefined ? [] : [{ runId: other.runId ?? '' }]
  const there = [pots, other].flatMap((held) => (held === undefined ? [] : [held.dryGrams]))
  const dryGrams = there.length === 0 ? someGrams(dice, 900) : Decimal.sum(...there)
  return { runs: [{ runId: pots?.runId ?? 'no-run', pieces }, ...second], dryGrams }
}

const glaze: DeedMaker = (view, dice) => {
  const { vesselId, held } = pailOf(view, dice)
  const glazeId = held?.materialId ?? dice.pick(['celadon', 'tenmoku'])
  const { runs, dryGrams } = bisqueIn(view, dice)
  const weighed = { after: readingOf(dryGrams.times(dice.pick(['1.05', '1.02', '1.1'])), dice) }
  const left = (held?.wetGrams ?? someGrams(dice, 900)).times(dice.pick(['0.9', '0.7', '0.97']))
  const after = { reading: readingOf(left, dice), density: densityOf(dice) }
  const bucket = { after, washedOffDryGrams: dice.isOnceIn(3) ? '1.5' : undefined }
  const known = dice.pick<Pick<GlazeSaid, 'usual' | 'pots' | 'bucket'>>([
    { usual: true },
    { pots: weighed },
    { bucket },
    { bucket: { after }, pots: weighed },
  ])
  return deedOf(dice, { act: glazePots, said: { glazeId, vesselId, runs, ...known } })
}

export const DEEDS_OF_GLAZE = {
  mix_glaze: mix,
  water_glaze: water,
  read_glaze: read,
  lose_glaze: lose,
  glaze,
} as const satisfies Record<string, DeedMaker>
