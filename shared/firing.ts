import { assert } from './assert.ts'
import { ONE, ZERO, decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { Refusal } from './refusal.ts'

/** Grams a mole. Source: IUPAC abridged standard atomic weights. */
const ATOMIC_WEIGHTS: Readonly<Record<string, string>> = {
  H: '1.0080',
  C: '12.011',
  O: '15.999',
  Mg: '24.305',
  Al: '26.982',
  Si: '28.085',
  S: '32.06',
  K: '39.098',
  Ca: '40.078',
}

/**
 * What dry clay weighs after the fire.
 *
 * Bound water, carbon and carbonates leave; the loss is a fraction of the dry mass.
 *
 * Units: grams to grams at ledger scale; the loss is a fraction of the dry mass.
 * Source: the definition of loss on ignition.
 */
export function firedGramsFrom(clay: {
  readonly dryGrams: Decimal
  readonly lossOnIgnitionFraction: Decimal
}): Decimal {
  const { dryGrams, lossOnIgnitionFraction } = clay
  assert(isFractionBelowOne(lossOnIgnitionFraction), 'the fire leaves something of the clay')
  return toLedgerScale(dryGrams.times(ONE.minus(lossOnIgnitionFraction)))
}

/**
 * The loss on ignition that a weighing before and after the fire shows.
 *
 * Units: grams to a fraction of the dry mass; 60 digits.
 * Refuses: `reading_must_be_above_zero`, `parts_must_not_exceed_the_whole`.
 * Source: the definition of loss on ignition.
 */
export function lossOnIgnitionFractionFrom(clay: {
  readonly dryGrams: Decimal
  readonly firedGrams: Decimal
}): Decimal {
  const { dryGrams, firedGrams } = clay
  if (dryGrams.lessThanOrEqualTo(0) || firedGrams.lessThanOrEqualTo(0)) {
    throw new Refusal('reading_must_be_above_zero', 'Both weigh-ins weigh something.')
  }
  if (firedGrams.greaterThan(dryGrams)) {
    throw new Refusal(
      'parts_must_not_exceed_the_whole',
      `The clay weighed ${dryGrams.toFixed()} g dry and ${firedGrams.toFixed()} g fired. The fire takes away, so weigh the clay bone dry and without glaze.`,
    )
  }
  return dryGrams.minus(firedGrams).dividedBy(dryGrams)
}

/**
 * The mass of one mole of a mineral, from its formula.
 *
 * Units: grams a mole, exact sums of the atomic weights.
 * Shape: symbols with counts and groups in parentheses, such as 'Al2Si2O5(OH)4'; a count may be a
 * decimal, such as 'CaSO4(H2O)0.5'.
 * Source: IUPAC abridged standard atomic weights for the elements of clays, fluxes and plaster.
 */
export function molarMassGramsPerMole(formula: string): Decimal {
  const tokens = formula.match(/[A-Z][a-z]?|\d+(?:\.\d+)?|[()]/g) ?? []
  assert(tokens.length > 0 && tokens.join('') === formula, `${formula} is a formula`)
  const open: Decimal[] = [ZERO]
  let last = ZERO
  for (const [index, token] of tokens.entries()) {
    if (token === '(') {
      open.push(ZERO)
      continue
    }
    if (/^\d/.test(token)) continue
    last = token === ')' ? closedGroup(open, formula) : atomicWeight(token)
    const count = /^\d/.test(tokens[index + 1] ?? '') ? decimal(tokens[index + 1] ?? '1') : ONE
    open.push((open.pop() ?? ZERO).plus(last.times(count)))
  }
  assert(open.length === 1, `every group of ${formula} is closed`)
  return open[0] ?? ZERO
}

/**
 * The part of a mineral's mass that leaves in the fire.
 *
 * Units: moles lost of each substance for one mole of the mineral, to a fraction; 60 digits.
 * Source: conservation of mass; the atomic weights of `molarMassGramsPerMole`.
 */
export function massFractionLost(mineral: {
  readonly formula: string
  readonly lost: readonly { readonly formula: string; readonly moles: Decimal }[]
}): Decimal {
  const lostGrams = mineral.lost.reduce(
    (sum, { formula, moles }) => sum.plus(molarMassGramsPerMole(formula).times(moles)),
    ZERO,
  )
  return lostGrams.dividedBy(molarMassGramsPerMole(mineral.formula))
}

/**
 * How much of its wet length a piece has lost when it is fired.
 *
 * The fire shrinks what drying has left, so the two fractions multiply and do not add.
 *
 * Units: drying as a fraction of the wet length, firing of the dry length; exact.
 * Source: common practice, no source: 1 - (1 - drying)(1 - firing).
 */
export function totalLinearShrinkage(shrinkage: {
  readonly dryingFractionOfWet: Decimal
  readonly firingFractionOfDry: Decimal
}): Decimal {
  const { dryingFractionOfWet, firingFractionOfDry } = shrinkage
  return ONE.minus(ONE.minus(dryingFractionOfWet).times(ONE.minus(firingFractionOfDry)))
}

export interface BarShrinkage {
  /** Of the plastic length. */
  readonly drying: Decimal
  readonly firingOnDryLength: Decimal
  /** Of the plastic length. */
  readonly total: Decimal
}

/**
 * Drying, firing and total shrinkage of a test bar measured three times.
 *
 * Units: millimetres to fractions of the length each names; 60 digits.
 * Source: ASTM C326-09 (formulas from memory). Many data sheets give firing shrinkage on the plastic
 * length instead; this one is on the dry length.
 */
export function testBarShrinkage(bar: {
  readonly plasticMillimetres: Decimal
  readonly dryMillimetres: Decimal
  readonly firedMillimetres: Decimal
}): BarShrinkage {
  const { plasticMillimetres, dryMillimetres, firedMillimetres } = bar
  assert(plasticMillimetres.greaterThan(0) && dryMillimetres.greaterThan(0), 'a bar has a length')
  return {
    drying: plasticMillimetres.minus(dryMillimetres).dividedBy(plasticMillimetres),
    firingOnDryLength: dryMillimetres.minus(firedMillimetres).dividedBy(dryMillimetres),
    total: plasticMillimetres.minus(firedMillimetres).dividedBy(plasticMillimetres),
  }
}

/**
 * How large to throw so that the fired piece has the wanted size.
 *
 * Units: millimetres; the shrinkage is a fraction of the wet length; 60 digits.
 * Source: the definition of total linear shrinkage.
 */
export function wetLengthForFired(wanted: {
  readonly firedMillimetres: Decimal
  readonly totalFractionOfWet: Decimal
}): Decimal {
  const { firedMillimetres, totalFractionOfWet } = wanted
  assert(isFractionBelowOne(totalFractionOfWet), 'the fire leaves something of the length')
  return firedMillimetres.dividedBy(ONE.minus(totalFractionOfWet))
}

function closedGroup(open: Decimal[], formula: string): Decimal {
  assert(open.length > 1, `every group of ${formula} was opened`)
  return open.pop() ?? ZERO
}

function atomicWeight(symbol: string): Decimal {
  const weight = ATOMIC_WEIGHTS[symbol]
  assert(weight !== undefined, `${symbol} has an atomic weight in our table`)
  return decimal(weight)
}

function isFractionBelowOne(value: Decimal): boolean {
  return value.greaterThanOrEqualTo(0) && value.lessThan(1)
}
