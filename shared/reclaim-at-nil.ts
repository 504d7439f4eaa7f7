import { toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { shareOut } from './money.ts'
import { isInside, type Place, type PlaceInside } from './place.ts'
import { proportionalPart } from './quantity.ts'

/** A line of an entry, as far as clay and its cost go. */
export interface ClayLine {
  /** What tells the holding from all others. */
  readonly holding: string
  readonly place: string
  readonly dryGrams: Decimal
  readonly pieces: Decimal
  /** Of clay alone, without glaze, fire and the rest. */
  readonly clayCost: Decimal
}

/** An entry; its clay cost sums to nothing over its lines. */
export interface ClayEntry {
  readonly id: string
  /** The entry that this one takes back. */
  readonly reverses: string | null
  readonly lines: readonly ClayLine[]
}

/** One amount of money under both rules. */
export interface UnderBothRules {
  /** Cost follows the mass of clay, wherever it goes: the rule of the books. */
  readonly byMass: Decimal
  /** Clay that goes back to a bucket takes no cost along. */
  readonly atNil: Decimal
}

/** Where clay cost went that was neither sold nor is in stock; outside places go by their own names. */
export const LOST_ONLY_AT_NIL = {
  lost_green: 'whole runs that went back to the bucket before they were fired',
  no_clay_left: 'left where no clay is left, after something was taken back',
} as const

/** What one entry moved, or several together, or all up to some moment. */
export interface ClayCostMoved {
  readonly cameIn: UnderBothRules
  readonly inStock: UnderBothRules
  /** Out of the door: sold, given away, kept. */
  readonly sold: UnderBothRules
  readonly lost: ReadonlyMap<string, UnderBothRules>
}

const SOURCES: readonly string[] = ['supplier', 'before']
const SOLD: readonly string[] = ['customer']
const RECLAIM: readonly string[] = ['scrap', 'basin', 'plaster'] satisfies PlaceInside[]
/** Places that take clay or water and never cost. */
const COSTLESS: readonly string[] = ['fire', 'air', 'tap', 'hands'] satisfies Place[]

/**
 * The cost of clay under both rules for reclaim, entry by entry.
 *
 * By mass is what the lines say. At nil, what comes from outside brings its cost; what leaves a holding
 * takes as large a part of its cost as it does in the books, and that goes to where the books send it,
 * except into a bucket: then it stays with the holding that it was cut from. Where that is empty now, it
 * goes to what else the entry made of the clay, or, as when a whole run is lost green, to `lost_green`.
 * What is made of the bucket's clay costs nothing by itself, as it moves by moving average. Scrap that
 * was here before the books began keeps what it was said to be worth. A reversal undoes exactly what was
 * done for its entry; what it leaves where no clay is left goes to `no_clay_left`.
 *
 * Shape: entries in the order in which they were written; what each moved, in that order. Any stretch of
 * it can be added up with `clayCostSum`: all up to a moment, or a period.
 * Units: money at ledger scale; under each rule came in = stock + sold + lost, to the last unit.
 * Source: our choice. Scrap at nil: by-products of no weight, IAS 2 paragraph 14 (from memory).
 */
export function clayCostUnderBothRules(entries: readonly ClayEntry[]): ClayCostMoved[] {
  const held = new Map<string, HeldUnderBoth>()
  const done = new Map<string, Changes>()
  return entries.map((entry) => {
    const lines = byHolding(entry.lines)
    const undone = entry.reverses === null ? undefined : done.get(entry.reverses)
    const changes = undone === undefined ? changesOf(lines, held) : negatedChanges(undone)
    moveHoldings(lines, changes, held)
    sweepEmpty(lines, changes, held)
    done.set(entry.id, changes)
    return movedBy(lines, changes)
  })
}

/**
 * What several entries moved together.
 *
 * Units: money, exact. Source: arithmetic.
 */
export function clayCostSum(moves: readonly ClayCostMoved[]): ClayCostMoved {
  const lost = new Map<string, UnderBothRules>()
  for (const move of moves) {
    for (const [name, amounts] of move.lost) {
      lost.set(name, sumOfBoth([lost.get(name) ?? NOTHING, amounts]))
    }
  }
  return {
    cameIn: sumOfBoth(moves.map(({ cameIn }) => cameIn)),
    inStock: sumOfBoth(moves.map(({ inStock }) => inStock)),
    sold: sumOfBoth(moves.map(({ sold }) => sold)),
    lost,
  }
}

/**
 * By how much more the same clay costs at nil than by mass; below zero, by how much less.
 *
 * Units: money, exact. Source: arithmetic.
 */
export function moreAtNil({ byMass, atNil }: UnderBothRules): Decimal {
  return atNil.minus(byMass)
}

interface HeldUnderBoth {
  readonly dryGrams: Decimal
  readonly byMass: Decimal
  readonly atNil: Decimal
}
const EMPTY: HeldUnderBoth = { dryGrams: ZERO, byMass: ZERO, atNil: ZERO }
const NOTHING: UnderBothRules = { byMass: ZERO, atNil: ZERO }

/** What an entry does at nil: to each holding, and to what is lost only there. */
interface Changes {
  readonly ofHoldings: Map<string, Decimal>
  readonly lost: Map<keyof typeof LOST_ONLY_AT_NIL, Decimal>
}

/** One line a holding: what an entry does to it in all. */
function byHolding(lines: readonly ClayLine[]): ClayLine[] {
  const together = new Map<string, ClayLine>()
  for (const line of lines) {
    const { dryGrams, pieces, clayCost } = together.get(line.holding) ?? NO_LINE
    together.set(line.holding, {
      ...line,
      dryGrams: dryGrams.plus(line.dryGrams),
      pieces: pieces.plus(line.pieces),
      clayCost: clayCost.plus(line.clayCost),
    })
  }
  return [...together.values()]
}
const NO_LINE = { dryGrams: ZERO, pieces: ZERO, clayCost: ZERO }

type Holdings = ReadonlyMap<string, HeldUnderBoth>

function changesOf(lines: readonly ClayLine[], held: Holdings): Changes {
  const ofHoldings = new Map<string, Decimal>()
  const change = (line: ClayLine, amount: Decimal) => {
    ofHoldings.set(line.holding, (ofHoldings.get(line.holding) ?? ZERO).plus(amount))
  }
  const sources = lines.filter(({ place }) => SOURCES.includes(place))
  const others = lines.filter(({ place }) => !SOURCES.includes(place))
  const takers = takersAmong(others)
  const toBucket = partToBucket(others, takers)
  let onTheWay = ZERO
  for (const line of sources) {
    change(line, line.clayCost)
    onTheWay = onTheWay.minus(line.clayCost)
  }
  for (const line of others) {
    const given = givenBy(line, { lines: others, held })
    if (given.isZero()) continue
    const isEmptied = isInside(line.place as Place) && dryAfter(line, held).isZero()
    const stays = isEmptied ? ZERO : proportionalPart({ amount: given, ...toBucket })
    change(line, stays.minus(given))
    onTheWay = onTheWay.plus(given).minus(stays)
  }
  const lost: Changes['lost'] = new Map()
  const isTaken = takers.length > 0 && onTheWay.greaterThan(0)
  if (!isTaken) lost.set('lost_green', onTheWay)
  const shares = isTaken ? shareOut(onTheWay, weightsOf(takers)) : []
  for (const [index, share] of shares.entries()) {
    const taker = takers[index]
    if (taker !== undefined) change(taker, share)
  }
  return { ofHoldings, lost }
}

/** Who takes cost in an entry: not a bucket, unless all that is given comes from reclaim or outside. */
function takersAmong(lines: readonly ClayLine[]): ClayLine[] {
  const comesFromWork = lines.some(
    (line) => isGiver(line) && isInside(line.place as Place) && !RECLAIM.includes(line.place),
  )
  const taking = lines.filter(
    ({ place, ...line }) =>
      isTaker(line) && !COSTLESS.includes(place) && !(comesFromWork && place === 'scrap'),
  )
  const withCost = taking.filter(({ clayCost }) => clayCost.greaterThan(0))
  return withCost.length > 0 ? withCost : taking.filter(({ clayCost }) => clayCost.isZero())
}

function isGiver({ dryGrams, clayCost }: Pick<ClayLine, 'dryGrams' | 'clayCost'>): boolean {
  return clayCost.isNegative() || (clayCost.isZero() && dryGrams.isNegative())
}

function isTaker({ dryGrams, clayCost }: Pick<ClayLine, 'dryGrams' | 'clayCost'>): boolean {
  return clayCost.greaterThan(0) || (clayCost.isZero() && dryGrams.greaterThan(0))
}

function weightsOf(takers: readonly ClayLine[]): Decimal[] {
  const haveCost = takers.some(({ clayCost }) => clayCost.greaterThan(0))
  return takers.map(({ clayCost, dryGrams }) => (haveCost ? clayCost : dryGrams))
}

/** How much of what the entry hands on goes to where no cost goes. */
function partToBucket(lines: readonly ClayLine[], takers: readonly ClayLine[]) {
  const all = lines.filter((line) => isTaker(line) && !COSTLESS.includes(line.place))
  const total = (some: readonly Decimal[]) => some.reduce((sum, one) => sum.plus(one), ZERO)
  const weights = weightsOf(all)
  const whole = total(weights)
  const taken = total(weights.filter((_, index) => takers.includes(all[index] as ClayLine)))
  // Nothing to go by: what leaves without cost stays where it was.
  return whole.isZero() ? { part: whole, whole } : { part: whole.minus(taken), whole }
}

/** What leaves a holding at nil: the same part of its cost as in the books; all where it is emptied. */
function givenBy(line: ClayLine, { lines, held }: { lines: readonly ClayLine[]; held: Holdings }) {
  if (!isGiver(line)) return ZERO
  if (!isInside(line.place as Place)) return foundAtNil(line, lines, held)
  const { byMass, atNil } = held.get(line.holding) ?? EMPTY
  if (dryAfter(line, held).isZero()) return atNil
  if (byMass.greaterThan(0)) {
    return proportionalPart({ amount: atNil, part: line.clayCost.negated(), whole: byMass })
  }
  return ZERO
}

/** Clay that comes to light is worth what lies beside it; in the books it is, too. */
function foundAtNil(line: ClayLine, lines: readonly ClayLine[], held: Holdings): Decimal {
  const takers = lines.filter(isTaker)
  const came = takers.reduce((sum, { clayCost }) => sum.plus(clayCost), ZERO)
  if (came.isZero()) return ZERO
  const worth = takers.reduce((sum, taker) => {
    const { byMass, atNil } = held.get(taker.holding) ?? EMPTY
    return byMass.isZero() ? sum : sum.plus(atNil.times(taker.clayCost).dividedBy(byMass))
  }, ZERO)
  return toLedgerScale(worth.times(line.clayCost.negated()).dividedBy(came))
}

function dryAfter(line: ClayLine, held: Holdings): Decimal {
  return (held.get(line.holding) ?? EMPTY).dryGrams.plus(line.dryGrams)
}

function negatedChanges({ ofHoldings, lost }: Changes): Changes {
  return {
    ofHoldings: new Map([...ofHoldings].map(([name, amount]) => [name, amount.negated()])),
    lost: new Map([...lost].map(([name, amount]) => [name, amount.negated()])),
  }
}

function moveHoldings(
  lines: readonly ClayLine[],
  { ofHoldings }: Changes,
  held: Map<string, HeldUnderBoth>,
): void {
  for (const { holding, dryGrams, clayCost } of lines) {
    const before = held.get(holding) ?? EMPTY
    held.set(holding, {
      dryGrams: before.dryGrams.plus(dryGrams),
      byMass: before.byMass.plus(clayCost),
      atNil: before.atNil.plus(ofHoldings.get(holding) ?? ZERO),
    })
  }
}

function sweepEmpty(
  lines: readonly ClayLine[],
  { ofHoldings, lost }: Changes,
  held: Map<string, HeldUnderBoth>,
): void {
  for (const { holding, place } of lines) {
    const left = held.get(holding) ?? EMPTY
    if (!isInside(place as Place) || !left.dryGrams.isZero() || left.atNil.isZero()) continue
    held.set(holding, { ...left, atNil: ZERO })
    ofHoldings.set(holding, (ofHoldings.get(holding) ?? ZERO).minus(left.atNil))
    lost.set('no_clay_left', (lost.get('no_clay_left') ?? ZERO).plus(left.atNil))
  }
}

function movedBy(lines: readonly ClayLine[], { ofHoldings, lost }: Changes): ClayCostMoved {
  const both = ({ holding, clayCost }: ClayLine) => ({
    byMass: clayCost,
    atNil: ofHoldings.get(holding) ?? ZERO,
  })
  const at = (isThere: (place: string) => boolean) =>
    sumOfBoth(lines.filter(({ place }) => isThere(place)).map(both))
  const cameIn = at((place) => SOURCES.includes(place))
  const lostByName = new Map<string, UnderBothRules>()
  for (const line of lines) {
    if (isInside(line.place as Place) || [...SOURCES, ...SOLD].includes(line.place)) continue
    const amounts = sumOfBoth([lostByName.get(line.place) ?? NOTHING, both(line)])
    if (!amounts.byMass.isZero() || !amounts.atNil.isZero()) lostByName.set(line.place, amounts)
  }
  for (const [name, atNil] of lost) {
    if (!atNil.isZero()) lostByName.set(name, { byMass: ZERO, atNil })
  }
  return {
    cameIn: { byMass: cameIn.byMass.negated(), atNil: cameIn.atNil.negated() },
    inStock: at((place) => isInside(place as Place)),
    sold: at((place) => SOLD.includes(place)),
    lost: lostByName,
  }
}

function sumOfBoth(all: readonly UnderBothRules[]): UnderBothRules {
  return {
    byMass: all.reduce((sum, { byMass }) => sum.plus(byMass), ZERO),
    atNil: all.reduce((sum, { atNil }) => sum.plus(atNil), ZERO),
  }
}
