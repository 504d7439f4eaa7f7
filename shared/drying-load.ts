import { assert } from './assert.ts'
import {
  hoursToMoistureRatio,
  moistureRatio,
  moistureRatioAfter,
  type DryingShape,
} from './drying-models.ts'

/** A figure with how unsure it is. */
export interface Estimate {
  readonly value: number
  readonly standardUncertainty: number
}

/** A slab of slurry on plaster, as it was poured. */
export interface DryingLoad {
  readonly dryGrams: Estimate
  readonly pouredGrams: Estimate
  /** What the air and the plaster leave in the clay in the end; the usual figure if not said. */
  readonly equilibriumWaterContentDryBasis?: Estimate | undefined
  /** The studio's usual thickness if not said. */
  readonly thicknessMillimetres?: number | undefined
}

/** The slab alone on the scale, without its bat, so many hours after the pour. */
export interface SlabWeighIn {
  readonly hours: number
  readonly slabGrams: number
  readonly standardUncertaintyGrams: number
}

/** What a load might truly be: its masses, its rest, its curve. */
export interface SlabTruth {
  readonly dryGrams: number
  readonly pouredGrams: number
  readonly equilibriumWaterContentDryBasis: number
  readonly shape: DryingShape
  /** By how much the slab is off its curve at the moment asked about, as a moisture ratio. */
  readonly offCurve: number
}

/** Clay that has come to rest with the air of a room. Common practice: 1 to 3 per cent. */
export const USUAL_EQUILIBRIUM: Estimate = { value: 0.02, standardUncertainty: 0.005 }

/** How many standard uncertainties two readings may disagree by before they are called so. */
const DISAGREEMENT = 4

/** What the load comes to rest at. Units: dry basis. Source: as `USUAL_EQUILIBRIUM`. */
export function equilibriumOf(load: DryingLoad): Estimate {
  return load.equilibriumWaterContentDryBasis ?? USUAL_EQUILIBRIUM
}

/** All the water that the load gives away in the end. Units: grams. Source: mass balance. */
export function waterToLoseGrams(load: DryingLoad): number {
  return load.pouredGrams.value - load.dryGrams.value * (1 + equilibriumOf(load).value)
}

/**
 * What the slab weighs after some time.
 *
 * It falls from what was poured towards the dry clay and the water that stays, along its curve.
 *
 * Units: hours since the pour to grams. Source: mass balance and the moisture ratio's definition.
 */
export function slabGramsAfter(truth: SlabTruth, hours: number): number {
  const atRestGrams = truth.dryGrams * (1 + truth.equilibriumWaterContentDryBasis)
  const ratio = moistureRatioAfter(truth.shape, hours) + truth.offCurve
  return atRestGrams + (truth.pouredGrams - atRestGrams) * ratio
}

/**
 * The water content after some time.
 *
 * Units: hours since the pour to a fraction of the wet mass. Source: as `slabGramsAfter`.
 */
export function waterContentWetBasisAfter(truth: SlabTruth, hours: number): number {
  const slabGrams = slabGramsAfter(truth, hours)
  return Math.max(0, slabGrams - truth.dryGrams) / Math.max(slabGrams, truth.dryGrams)
}

/**
 * The time at which the slab has dried to a water content; infinite where it never does.
 *
 * Units: a fraction of the wet mass to hours since the pour. Source: as `slabGramsAfter`.
 */
export function hoursToWaterContent(truth: SlabTruth, waterContentWetBasis: number): number {
  const atRest = truth.equilibriumWaterContentDryBasis
  const atFirst = truth.pouredGrams / truth.dryGrams - 1
  const wanted = waterContentWetBasis / (1 - waterContentWetBasis)
  if (wanted >= atFirst) return 0
  // What was poured drier than it comes to rest takes up water from the air.
  if (atFirst <= atRest) return Number.POSITIVE_INFINITY
  const ratio = moistureRatio({
    waterContentDryBasis: wanted,
    atFirstDryBasis: atFirst,
    atRestDryBasis: atRest,
  })
  return hoursToMoistureRatio(truth.shape, ratio - truth.offCurve)
}

/** Whether a load is one at all. Units: none. Source: our choice: a fault here is the program's. */
export function checkLoad(load: DryingLoad, weighIns: readonly SlabWeighIn[]): void {
  for (const { value, standardUncertainty } of [
    load.dryGrams,
    load.pouredGrams,
    equilibriumOf(load),
  ]) {
    assert(Number.isFinite(value) && value >= 0, 'a load is described by finite figures')
    assert(standardUncertainty >= 0 && standardUncertainty < Infinity, 'and by how unsure they are')
  }
  assert(load.dryGrams.value > 0, 'a load holds dry clay')
  const { thicknessMillimetres: thickness = 1 } = load
  assert(Number.isFinite(thickness) && thickness > 0, 'a slab has a thickness')
  for (const { hours, slabGrams, standardUncertaintyGrams } of weighIns) {
    assert(Number.isFinite(hours) && hours > 0, 'a slab is weighed after it was poured')
    assert(Number.isFinite(slabGrams), 'a scale shows a number')
    assert(
      standardUncertaintyGrams > 0 && standardUncertaintyGrams < Infinity,
      'no scale is without doubt',
    )
  }
}

/**
 * What speaks against a load's readings, in words, or nothing.
 *
 * A slab on plaster only loses water, and never more than it holds.
 *
 * Shape: weigh-ins in any order. Units: grams; four standard uncertainties of leeway.
 * Source: mass balance; the leeway is our choice, because a scale is seldom off by more.
 */
export function contradictionIn(
  load: DryingLoad,
  weighIns: readonly SlabWeighIn[],
): string | undefined {
  if (waterToLoseGrams(load) <= 0) {
    return `The load was poured at ${grams(load.pouredGrams.value)} and holds ${grams(load.dryGrams.value)} of dry clay, so it has no water to lose. One of the two is wrong.`
  }
  const inOrder = [...weighIns].sort((one, other) => one.hours - other.hours)
  for (const later of inOrder) {
    const heavier = inOrder.find((earlier) => earlier.hours < later.hours && rises(earlier, later))
    if (heavier !== undefined) {
      return `The slab weighed ${grams(heavier.slabGrams)} after ${hoursOf(heavier)} and ${grams(later.slabGrams)} after ${hoursOf(later)}. A slab on plaster gets lighter, so one of the two weigh-ins is not of this slab alone.`
    }
  }
  return contradictionWithLoad(load, inOrder)
}

function contradictionWithLoad(
  load: DryingLoad,
  weighIns: readonly SlabWeighIn[],
): string | undefined {
  const { dryGrams, pouredGrams } = load
  const asPoured: SlabWeighIn = {
    hours: 0,
    slabGrams: pouredGrams.value,
    standardUncertaintyGrams: pouredGrams.standardUncertainty,
  }
  const heavy = weighIns.find((later) => rises(asPoured, later))
  if (heavy !== undefined) {
    return `The slab weighs ${grams(heavy.slabGrams)} after ${hoursOf(heavy)}, more than the ${grams(pouredGrams.value)} that were poured. Weigh it without its bat.`
  }
  const { standardUncertainty } = dryGrams
  const light = weighIns.find(
    ({ slabGrams, standardUncertaintyGrams }) =>
      dryGrams.value - slabGrams >
      DISAGREEMENT * Math.hypot(standardUncertainty, standardUncertaintyGrams),
  )
  if (light === undefined) return undefined
  return `The slab weighs ${grams(light.slabGrams)} after ${hoursOf(light)}, less than its ${grams(dryGrams.value)} of dry clay. If clay was taken off it, record that first.`
}

function rises(earlier: SlabWeighIn, later: SlabWeighIn): boolean {
  const both = Math.hypot(earlier.standardUncertaintyGrams, later.standardUncertaintyGrams)
  return later.slabGrams - earlier.slabGrams > DISAGREEMENT * both
}

function grams(amount: number): string {
  return `${amount.toFixed(0)} g`
}

function hoursOf({ hours }: SlabWeighIn): string {
  return `${hours.toFixed(1)} h`
}
