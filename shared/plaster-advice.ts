import { assert } from './assert.ts'
import { percentWords } from './percent.ts'
import { decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import type { PlasterTarget } from './plaster-target.ts'
import { batThirst, type BatThirst, type BatWeighed } from './plaster.ts'

export type PlasterAct = 'weigh' | 'lift' | 'lift_and_wet' | 'move_to_dry_bat' | 'turn' | 'leave'

export interface PlasterAdvice {
  readonly act: PlasterAct
  /** What to do and the figures behind it, as a potter would say it. */
  readonly words: string
  /** Absent where the bat's masses are not known. */
  readonly bat: BatThirst | undefined
}

/** One plaster maker's sheet: with this much free water plaster draws about half as fast. */
const SLOW_FRACTION = decimal('0.05')
/** Midway between the ends of the common range at which a bat is sated. Our choice. */
const TIRED_FRACTION = decimal('0.10')
/** After half a day the slab lets go by itself. Common practice. */
const TURNING_HOURS = 12

const LEFT_HERE = 'Move the slab to a dry bat: left here it may take longer than the forecast says.'

/**
 * What to do next with a slab on its bat.
 *
 * A slab that is ready is lifted. One that still has water to lose goes to a dry bat as soon as its own
 * is tired or could not drink the rest; otherwise it is turned after half a day, so that both faces dry.
 * A bat that may be tired and was not weighed is weighed first.
 *
 * Units: grams, hours since the slab was laid or last turned.
 * Refuses: `reading_must_not_be_below_known_dry`.
 * Source: common practice, no source, for turning after 12 to 24 hours; that plaster draws half as fast
 * with 5 per cent of free water is one maker's sheet; moving at 10 per cent is our choice.
 */
export function plasterAdvice(load: {
  readonly bat: BatWeighed | undefined
  readonly waterToGoGrams: Decimal
  /** True where more has left than the studio wants. */
  readonly isTooDry?: boolean
  readonly hoursSinceTurned: number
  /** The most water that it may still hold, nineteen times in twenty; absent where it was weighed ready. */
  readonly waterContentAtMost?: Decimal | undefined
  readonly target?: PlasterTarget | undefined
}): PlasterAdvice {
  assert(load.hoursSinceTurned >= 0, 'a slab was laid before it is asked about')
  const bat = load.bat === undefined ? undefined : batThirst(load.bat)
  const held = heldWords(bat, load.bat?.leastGrams !== undefined)
  const toGo = `the slab has ${grams(load.waterToGoGrams)} of water still to go`
  const advise = (act: PlasterAct, words: string) => ({ act, words, bat })
  const doubt = doubtOf(load)
  if (doubt !== undefined) return advise('weigh', doubt)
  if (load.isTooDry === true) {
    return advise('lift_and_wet', 'The slab is too dry. Lift it, and wet it before it is wedged.')
  }
  if (load.waterToGoGrams.lessThanOrEqualTo(0)) {
    return advise('lift', 'The slab is as dry as it shall be. Lift it and wrap it.')
  }
  if (bat?.leastHeldFractionOfDry.greaterThanOrEqualTo(TIRED_FRACTION) === true) {
    return advise('move_to_dry_bat', `${held}, and ${toGo}. ${LEFT_HERE}`)
  }
  if (bat?.heldFractionOfDry.greaterThanOrEqualTo(TIRED_FRACTION) === true) {
    return advise('weigh', `${held}, and ${toGo}. ${mayBeTired(load.bat)}`)
  }
  const rest = restOf(bat, load.waterToGoGrams)
  if (load.hoursSinceTurned >= TURNING_HOURS) {
    const lain = `it has lain for ${load.hoursSinceTurned.toFixed(0)} h, and ${toGo}`
    return advise('turn', `Turn the slab if it lets go by itself: ${lain}.${rest}`)
  }
  return advise('leave', `${held}${paceOf(bat)}, and ${toGo}. Leave the slab where it is.${rest}`)
}

/** How fast a bat draws that was weighed; how fast one may that was not. */
function paceOf(bat: BatThirst | undefined): string {
  if (bat?.heldFractionOfDry.greaterThanOrEqualTo(SLOW_FRACTION) !== true) return ''
  const isKnown = bat.leastHeldFractionOfDry.greaterThanOrEqualTo(SLOW_FRACTION)
  return `${isKnown ? ' and draws' : ' and may draw'} about half as fast as a dry one`
}

/** What the bat alone on the scale would have to weigh for the slab to be moved. */
function mayBeTired(bat: BatWeighed | undefined): string {
  if (bat === undefined) return ''
  const tiredGrams = bat.dryGrams.times(TIRED_FRACTION.plus(1))
  return `The bat may be tired, or what the slab lost may be in the air: weigh the bat alone. If it weighs ${grams(tiredGrams)} or more, move the slab to a dry one.`
}

/** A slab that is lifted by a forecast alone may be too wet yet: then the scale is asked. */
function doubtOf(load: Parameters<typeof plasterAdvice>[0]): string | undefined {
  const { waterContentAtMost: atMost, target, isTooDry = false } = load
  if (atMost === undefined || target === undefined) return undefined
  const { readyWaterContentWetBasis: ready, tooDryWaterContentWetBasis: tooDry } = target
  const mayHold = `it may hold up to ${percentWords(atMost)} yet`
  if (isTooDry && atMost.greaterThanOrEqualTo(tooDry)) {
    return `It may be too dry already, or ${mayHold}. Lift the slab now and weigh it alone.`
  }
  if (isTooDry || load.waterToGoGrams.greaterThan(0) || atMost.lessThanOrEqualTo(ready)) {
    return undefined
  }
  return `It should be ready by now, but ${mayHold}. Lift the slab and weigh it alone.`
}

/**
 * What to do with a slab of which nobody can say how wet it is.
 *
 * Units: none. Source: our choice, because only the slab alone on the scale can tell.
 */
export function adviceToWeigh(weighIns: number): Pick<PlasterAdvice, 'act' | 'words'> {
  const words =
    weighIns === 0
      ? 'Lift the slab and weigh it alone: only that tells how wet it is.'
      : 'Weigh the slab alone once more, some hours after the last time.'
  return { act: 'weigh', words }
}

/** Said beforehand, so that a second bat is dry when it is needed. */
function restOf(bat: BatThirst | undefined, waterToGoGrams: Decimal): string {
  if (bat === undefined || waterToGoGrams.lessThanOrEqualTo(bat.drinksStillGramsMax)) return ''
  return ` This bat drinks at most ${grams(bat.drinksStillGramsMax)} more; the rest takes a second bat, or the air.`
}

function heldWords(bat: BatThirst | undefined, isAtMost: boolean): string {
  if (bat === undefined) return 'What the bat holds is not known'
  const held = `${grams(bat.holdsGrams)} of water, ${percentWords(bat.heldFractionOfDry)} of its dry mass`
  return isAtMost
    ? `The bat was not weighed lately and holds at most ${held}`
    : `The bat holds ${held}`
}

function grams(amount: Decimal): string {
  return `${amount.toFixed(0)} g`
}
