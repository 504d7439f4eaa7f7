import type { CostLayer } from './cost-layer.ts'
import { ZERO, type Decimal } from './decimal.ts'
import { surely, unsurePer, type Unsure } from './how-sure.ts'
import type { ActKind } from './month-world.ts'
import type { Grade, LossStage } from './place.ts'
import { cameTo, piecesLost, type PotFlows } from './run-flows.ts'

/** What an average pot took on beside clay: money a piece that went through. */
export interface TakenOn {
  readonly glaze: Unsure
  readonly firingEnergy: Unsure
  readonly kilnWear: Unsure
}

/** What those that were lost after bisque left to the others: money of the whole run, by what it was paid for. */
export interface LeftByLost {
  readonly clay: Decimal
  readonly glaze: Decimal
  readonly fire: Decimal
}

type FireKind = Extract<ActKind, 'bisque' | 'glaze_fire'>

/**
 * What an average pot of a run took on beside clay by being glazed and fired: what a fire was charged by those that
 * went through it, the coat by those that came through to the glaze fire, or to the bisque where none has yet.
 *
 * Units: money a piece, unrounded. Source: what the acts post; energy and wear are booked as known, not doubted.
 */
export function takenOnEach(run: PotFlows): TakenOn {
  const glaze = cameTo(run, { kinds: ['glaze'] })
  const coated = throughOf(run, 'glaze_fire')
  const fires = (layer: 'fire' | 'wear') =>
    surely(firedEach(run, 'bisque', layer).plus(firedEach(run, 'glaze_fire', layer)))
  return {
    glaze: sharedBy(
      { amount: layerOf(glaze, 'glaze'), doubt: glaze.costDoubt },
      coated.greaterThan(0) ? coated : throughOf(run, 'bisque'),
    ),
    firingEnergy: fires('fire'),
    kilnWear: fires('wear'),
  }
}

/**
 * What the lost of a run left to the others, told apart by what it was paid for.
 *
 * The books kept what they left as one sum a stage. It is parted as an average pot of that stage was made up:
 * those lost in or after the bisque fire carried clay and that fire, those lost in or after the glaze fire glaze and
 * both fires. Elements and shelves count with the fire.
 *
 * Units: money of the run; the three sum to what was left exactly. `clay` is that of an average fired pot.
 * Source: our choice.
 */
export function leftByLost(run: PotFlows, clayEach: Decimal): LeftByLost {
  const each = (kind: FireKind) => firedEach(run, kind, 'fire').plus(firedEach(run, kind, 'wear'))
  const bisque = each('bisque')
  const glaze = takenOnEach(run).glaze.amount
  const parts = run.losses.map(({ stage, costLeft }) => {
    const isGlazed = GLAZED_STAGES.some((one) => one === stage)
    return partedLikeAPot(costLeft, {
      clay: clayEach,
      glaze: isGlazed ? glaze : ZERO,
      fire: isGlazed ? bisque.plus(each('glaze_fire')) : bisque,
    })
  })
  const sum = (name: keyof LeftByLost) => parts.reduce((all, part) => all.plus(part[name]), ZERO)
  return { clay: sum('clay'), glaze: sum('glaze'), fire: sum('fire') }
}

const GLAZED_STAGES = ['glaze_firing', 'handling'] as const satisfies readonly LossStage[]
const FIRED_INTO = { bisque: 'bisque', glaze_fire: 'glazed' } as const

function partedLikeAPot(left: Decimal, pot: LeftByLost): LeftByLost {
  const whole = pot.clay.plus(pot.glaze).plus(pot.fire)
  if (whole.isZero()) return { clay: left, glaze: ZERO, fire: ZERO }
  const glaze = left.times(pot.glaze).dividedBy(whole)
  const fire = left.times(pot.fire).dividedBy(whole)
  return { clay: left.minus(glaze).minus(fire), glaze, fire }
}

/**
 * What firsts and seconds that were sold bore more or less than an average graded pot of their run.
 *
 * Units: money of those sold, exact; nothing where the two cost alike but for rounding.
 * Source: our choice of a step; `seconds-cost.ts` has the rule.
 */
export function gradedApart(run: PotFlows, sold: Readonly<Record<Grade, Decimal>>): Decimal {
  const graded = (grade: Grade) => cameTo(run, { kinds: ['grade'], places: ['finished'], grade })
  const [firsts, seconds] = [graded('first'), graded('second')]
  if (!firsts.pieces.greaterThan(0) || !seconds.pieces.greaterThan(0)) return ZERO
  const pieces = firsts.pieces.plus(seconds.pieces)
  const average = firsts.cost.plus(seconds.cost).dividedBy(pieces)
  const apart = (some: typeof firsts) => some.cost.dividedBy(some.pieces).minus(average)
  const [first, second] = [apart(firsts), apart(seconds)]
  if (first.minus(second).abs().lessThan(ROUNDING)) return ZERO
  return first.times(sold.first).plus(second.times(sold.second))
}

/** Money a piece: what sharing out to the last unit may make of two equal costs. */
const ROUNDING = '0.00001'

/** How many of some runs nobody told a fire or a glaze of, that they went through. */
export interface Untold {
  readonly runs: number
  readonly bisque: number
  readonly glazeFire: number
  readonly glaze: number
}

/** Which runs went through a fire of which nothing was told. Units: runs. Source: what the acts post. */
export function untoldOf(runs: readonly PotFlows[]): Untold {
  const isUntold = (kind: FireKind) => (run: PotFlows) =>
    throughOf(run, kind).greaterThan(0) && firedEach(run, kind, 'fire').isZero()
  const isBare = (run: PotFlows) =>
    throughOf(run, 'glaze_fire').greaterThan(0) &&
    cameTo(run, { kinds: ['glaze'] }).materialGrams.isZero()
  return {
    runs: runs.length,
    bisque: runs.filter(isUntold('bisque')).length,
    glazeFire: runs.filter(isUntold('glaze_fire')).length,
    glaze: runs.filter(isBare).length,
  }
}

/**
 * What is not in the cost of a piece, because nobody told it; labour never is.
 *
 * Units: none. Source: our choice of words.
 */
export function untoldWords({ runs, bisque, glazeFire, glaze }: Untold): string {
  const of = (count: number) =>
    count === runs && runs === 1 ? 'the only run' : `${String(count)} of ${String(runs)} runs`
  const fires =
    bisque === glazeFire
      ? [{ what: 'fire', count: bisque, missing: 'firing' }]
      : [
          { what: 'bisque fire', count: bisque, missing: 'bisque' },
          { what: 'glaze fire', count: glazeFire, missing: 'glaze fire' },
        ]
  const said = [{ what: 'glaze', count: glaze, missing: 'glaze' }, ...fires]
    .filter(({ count }) => count > 0)
    .map(
      ({ what, count, missing }) =>
        `No ${what} was told for ${of(count)}: ${count === 1 ? 'its' : 'their'} ${missing} is not in this figure.`,
    )
  return [...said, 'Labour is not in the books.'].join(' ')
}

/** Money a piece; nothing without pieces. Units: money a piece. Source: arithmetic. */
export function sharedBy(money: Unsure, pieces: Decimal): Unsure {
  return pieces.greaterThan(0) ? unsurePer(money, pieces) : surely(ZERO)
}

/** Pieces lost after bisque. Units: pieces. Source: the books' own stages. */
export function piecesLostFired(run: PotFlows): Decimal {
  return piecesLost(run, ['bisque_firing', 'glazing', 'glaze_firing', 'handling'])
}

function throughOf(run: PotFlows, kind: FireKind): Decimal {
  return cameTo(run, { kinds: [kind], places: [FIRED_INTO[kind]] }).pieces
}

function firedEach(run: PotFlows, kind: FireKind, layer: CostLayer): Decimal {
  const through = throughOf(run, kind)
  const money = layerOf(cameTo(run, { kinds: [kind] }), layer)
  return through.greaterThan(0) ? money.dividedBy(through) : ZERO
}

function layerOf(
  { costLayers }: { readonly costLayers: ReadonlyMap<CostLayer, Decimal> },
  layer: CostLayer,
): Decimal {
  return costLayers.get(layer) ?? ZERO
}
