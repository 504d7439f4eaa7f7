import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { isInside, type Place } from '../../shared/place.ts'
import { proportionalPart } from '../../shared/quantity.ts'
import type { ClayEntry, ClayLine } from '../../shared/reclaim-at-nil.ts'

interface Held {
  readonly dryGrams: Decimal
  readonly pieces: Decimal
  readonly cost: Decimal
}
const NOTHING: Held = { dryGrams: ZERO, pieces: ZERO, cost: ZERO }

/** What some dry clay in a holding is moved to, by parts of it. */
export interface MovedTo {
  readonly holding: string
  readonly dryGrams: Decimal
  readonly pieces?: number
}

/**
 * A small ledger of clay by moving average, for entries as the books would write them. A holding is
 * called after its place, as in `greenware:1`.
 */
export class ClayBooks {
  readonly entries: ClayEntry[] = []
  readonly #held = new Map<string, Held>()

  held(holding: string): Held {
    return this.#held.get(holding) ?? NOTHING
  }

  receive(holding: string, dryGrams: Decimal, cost: Decimal): void {
    this.#post([
      line('supplier', dryGrams.negated(), cost.negated()),
      line(holding, dryGrams, cost),
    ])
  }

  /** From one holding to others, in proportion to mass; the fire takes none of the cost. */
  move(from: string, to: readonly MovedTo[]): void {
    const leaving = to.reduce((sum, { dryGrams }) => sum.plus(dryGrams), ZERO)
    const held = this.held(from)
    const cost = proportionalPart({ amount: held.cost, part: leaving, whole: held.dryGrams })
    const paying = to.filter(({ holding }) => placeOf(holding) !== 'fire')
    let left = cost
    let clay = paying.reduce((sum, { dryGrams }) => sum.plus(dryGrams), ZERO)
    const came = to.map(({ holding, dryGrams, pieces = 0 }) => {
      if (placeOf(holding) === 'fire') return line(holding, dryGrams, ZERO)
      const part = proportionalPart({ amount: left, part: dryGrams, whole: clay })
      left = left.minus(part)
      clay = clay.minus(dryGrams)
      return { ...line(holding, dryGrams, part), pieces: decimal(pieces) }
    })
    const pieces = came.reduce((sum, one) => sum.plus(one.pieces), ZERO)
    this.#post([
      { ...line(from, leaving.negated(), cost.negated()), pieces: pieces.negated() },
      ...came,
    ])
  }

  /** Lost after bisque: the clay is waste, and its cost stays with the rest of the run, where there is one. */
  loseFired(from: string, dryGrams: Decimal): void {
    const held = this.held(from)
    const cost = dryGrams.equals(held.dryGrams) ? held.cost : ZERO
    this.#post([line(from, dryGrams.negated(), cost.negated()), line('waste', dryGrams, cost)])
  }

  find(holding: string, dryGrams: Decimal): void {
    const held = this.held(holding)
    const cost = proportionalPart({ amount: held.cost, part: dryGrams, whole: held.dryGrams })
    this.#post([
      line(holding, dryGrams, cost),
      line('unexplained', dryGrams.negated(), cost.negated()),
    ])
  }

  /** A dry test: clay without cost. */
  correct(holding: string, dryGrams: Decimal): void {
    this.#post([line(holding, dryGrams, ZERO), line('unexplained', dryGrams.negated(), ZERO)])
  }

  /** Takes an entry back, where what it moved is still there; says whether it could. */
  reverse(id: string): boolean {
    const entry = this.entries.find((one) => one.id === id)
    const isDone = this.entries.some(({ reverses }) => reverses === id)
    if (entry === undefined || isDone || entry.reverses !== null) return false
    const lines = entry.lines.map((one) => ({
      ...one,
      dryGrams: one.dryGrams.negated(),
      pieces: one.pieces.negated(),
      clayCost: one.clayCost.negated(),
    }))
    if (!this.#fits(lines)) return false
    this.#post(lines, id)
    return true
  }

  #fits(lines: readonly ClayLine[]): boolean {
    return lines.every(({ holding, place, dryGrams, clayCost }) => {
      if (!isInside(place as Place)) return true
      const held = this.held(holding)
      const [dry, cost] = [held.dryGrams.plus(dryGrams), held.cost.plus(clayCost)]
      return !dry.isNegative() && !cost.isNegative() && (!dry.isZero() || cost.isZero())
    })
  }

  #post(lines: readonly ClayLine[], reverses: string | null = null): void {
    for (const { holding, dryGrams, pieces, clayCost } of lines) {
      const held = this.held(holding)
      this.#held.set(holding, {
        dryGrams: held.dryGrams.plus(dryGrams),
        pieces: held.pieces.plus(pieces),
        cost: held.cost.plus(clayCost),
      })
    }
    this.entries.push({ id: String(this.entries.length + 1), reverses, lines })
  }

  holdings(place: string): string[] {
    return [...this.#held.keys()].filter(
      (holding) => placeOf(holding) === place && this.held(holding).dryGrams.greaterThan(0),
    )
  }
}

function placeOf(holding: string): string {
  return holding.split(':')[0] ?? holding
}

function line(holding: string, dryGrams: Decimal, clayCost: Decimal): ClayLine {
  return { holding, place: placeOf(holding), dryGrams, pieces: ZERO, clayCost }
}
