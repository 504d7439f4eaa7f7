import { assert, present } from '../shared/assert.ts'
import type { Decimal } from '../shared/decimal.ts'
import type { DryMassEstimate } from '../shared/dry-mass.ts'
import type { EntryKind } from '../shared/entry-kind.ts'
import { doubtOfDifference } from '../shared/doubt.ts'
import { sourceOf, type SourceKind } from '../shared/doubt-source.ts'
import { foundDifference, type FoundDifference } from '../shared/found-difference.ts'
import { partByMeasure, partByShare, surplusFound, type ShareTaken } from '../shared/parting.ts'
import { isInside, PLACE_WORDS, type PlaceOutside } from '../shared/place.ts'
import {
  isNothing,
  negated,
  NOTHING_HELD,
  plus,
  quantities,
  type Held,
  type Quantities,
} from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import { silicaCautions, type Caution, type DustyAct } from '../shared/silica.ts'
import type { Transaction } from './connection.ts'
import { findOrMakeHolding, lockHoldings, nameOfHolding, type HoldingRef } from './holdings.ts'
import type { EstimateDraft, Movement, WeighingDraft } from './posting.ts'
import { refuseTooMuch } from './shortage.ts'
import type { StudioFacts } from './studio.ts'

/** A holding that an act works on: what it held when it was locked, and what the act did to it. */
export interface Slot {
  readonly holdingId: string
  readonly ref: HoldingRef
  readonly held: Held
}

export interface BookFacts {
  readonly ledger: Transaction
  readonly studio: StudioFacts
  readonly entryId: string
  readonly kind: EntryKind
  readonly happenedAt: Date
  /** The day of that on the studio's wall. */
  readonly day: string
  readonly by: string | undefined
  readonly newId: () => string
}

/**
 * One entry while it is being written: the holdings it has locked, what moves between them, and what
 * was read and estimated on the way. Nothing reaches the ledger before the act is through.
 */
export class Book {
  readonly facts: BookFacts
  readonly weighings: WeighingDraft[] = []
  readonly estimates: EstimateDraft[] = []
  readonly cautions: Caution[] = []
  /** What was measured otherwise than the books had it. */
  readonly differences: FoundDifference[] = []
  readonly #slots = new Map<string, { ref: HoldingRef; before: Held; change: Held }>()
  #ownSources = 0

  constructor(facts: BookFacts) {
    this.facts = facts
  }

  get ledger(): Transaction {
    return this.facts.ledger
  }

  get studioId(): string {
    return this.facts.studio.studioId
  }

  /**
   * The holdings of those names, made where there are none yet, all locked in one order.
   *
   * An act asks for all that it touches at once: asking twice could wait for another act in a ring.
   */
  async hold<const Refs extends readonly HoldingRef[]>(
    refs: Refs,
  ): Promise<{ [Index in keyof Refs]: Slot }> {
    const named = new Map(refs.map((ref) => [nameOfHolding(ref), ref]))
    const idOf = new Map<string, string>()
    const { studioId, newId } = { studioId: this.studioId, newId: this.facts.newId }
    for (const name of [...named.keys()].sort()) {
      const ref = present(named.get(name), 'a name stands for its holding')
      idOf.set(name, await findOrMakeHolding(this.ledger, { studioId, ref, newId }))
    }
    await this.holdById([...idOf.values()])
    const slots = refs.map((ref) =>
      this.slot(present(idOf.get(nameOfHolding(ref)), 'held by name')),
    )
    return slots as { [Index in keyof Refs]: Slot }
  }

  /** Holdings that exist already, by their ids, locked. Refuses: `holding_not_found`. */
  async holdById(holdingIds: readonly string[]): Promise<Slot[]> {
    const wanted = [...new Set(holdingIds)].filter((id) => !this.#slots.has(id))
    for (const found of await lockHoldings(this.ledger, this.studioId, wanted)) {
      this.#slots.set(found.holdingId, {
        ref: found.ref,
        before: found.held,
        change: NOTHING_HELD,
      })
    }
    return holdingIds.map((id) => this.slot(id))
  }

  /**
   * One holding of the studio's own that exists already, locked.
   *
   * Refuses: `holding_not_found`, `holding_must_be_inside`.
   */
  async holdOneById(holdingId: string): Promise<Slot> {
    const [slot] = await this.holdById([holdingId])
    const found = present(slot, 'a holding that was asked for is held')
    if (isInside(found.ref.place)) return found
    throw new Refusal(
      'holding_must_be_inside',
      `That is ${PLACE_WORDS[found.ref.place]}, outside the studio, where nothing is counted or thrown away. Name a holding of your own.`,
      { pointer: '/holdingId' },
    )
  }

  /** A place of the world outside, for one clay. Keeps no balance and is not locked. */
  async outside(place: PlaceOutside, bodyId: string): Promise<Slot> {
    return this.outsideLike(place, { bodyId })
  }

  /** A place of the world outside, for one material. Keeps no balance and is not locked. */
  async outsideOfMaterial(place: PlaceOutside, materialId: string): Promise<Slot> {
    return this.outsideLike(place, { bodyId: '', materialId })
  }

  /** A place of the world outside, for the clay or the material of a holding. */
  async outsideLike(
    place: PlaceOutside,
    of: Pick<HoldingRef, 'bodyId' | 'materialId'>,
  ): Promise<Slot> {
    const { bodyId, materialId } = of
    const ref = { place, bodyId, ...(materialId === undefined ? {} : { materialId }) }
    const { newId } = this.facts
    const studioId = this.studioId
    const holdingId = await findOrMakeHolding(this.ledger, { studioId, ref, newId })
    if (!this.#slots.has(holdingId)) {
      this.#slots.set(holdingId, { ref, before: NOTHING_HELD, change: NOTHING_HELD })
    }
    return this.slot(holdingId)
  }

  /** The holding as it stands after what the act has done so far. */
  slot(holdingId: string): Slot {
    const found = this.#slots.get(holdingId)
    assert(found !== undefined, 'a holding is held before it is used')
    return { holdingId, ref: found.ref, held: plus(found.before, found.change) }
  }

  /** What the act holds already and has perhaps moved, of which the tables know nothing yet. */
  heldWhere(isWanted: (ref: HoldingRef) => boolean): Slot[] {
    return [...this.#slots.entries()]
      .filter(([, { ref }]) => isWanted(ref))
      .map(([holdingId]) => this.slot(holdingId))
  }

  /** What is held now. */
  now(slot: Slot): Held {
    return this.slot(slot.holdingId).held
  }

  /** A source of doubt that this entry brings into the books. */
  ownSource(kind: SourceKind): string {
    this.#ownSources += 1
    return sourceOf(kind, this.facts.entryId, String(this.#ownSources))
  }

  /** Moves quantities as they are, with their doubt. Refuses: `clay_must_be_enough` and its sisters. */
  shift(move: { from: Slot; to: Slot; what: Quantities }): void {
    const { from, to, what } = move
    refuseTooMuch({ ...from, held: this.now(from) }, what)
    this.#change(from, negated(what))
    this.#change(to, what)
  }

  /** Moves quantities that nobody doubts, or as doubtful as is said: water from the tap, a price, a count. */
  shiftExactly(from: Slot, to: Slot, some: Partial<Quantities>): void {
    this.shift({ from, to, what: quantities(some) })
  }

  /** Moves a share of a holding with its share of water, cost and doubt; gives what moved. */
  moveShare(from: Slot, to: Slot, taken: ShareTaken): Quantities {
    refuseTooMuch({ ...from, held: this.now(from) }, quantities({ dryGrams: taken.dryGrams }))
    const what = partByShare(this.now(from), taken)
    this.shift({ from, to, what })
    return what
  }

  /** Moves all that a holding has. */
  moveAll(from: Slot, to: Slot): Quantities {
    const what = this.now(from)
    this.shift({ from, to, what })
    return what
  }

  /**
   * Moves what was weighed out of a holding. It arrives as wet as it was measured: what that differs
   * from its share of the book's water came from the tap or went into the air.
   */
  async moveMeasured(
    from: Slot,
    to: Slot,
    measured: { estimate: DryMassEstimate; pieces?: Decimal },
  ): Promise<Quantities> {
    const { estimate, pieces } = measured
    const { dryGrams, dryDoubt, waterGrams } = estimate
    refuseTooMuch({ ...from, held: this.now(from) }, quantities({ dryGrams }))
    const what = partByMeasure(this.now(from), {
      dryGrams,
      dryDoubt,
      ...(pieces === undefined ? {} : { pieces }),
    })
    this.shift({ from, to, what })
    await this.wetTo(to, this.now(to).waterGrams.plus(waterGrams).minus(what.waterGrams))
    return what
  }

  /** Brings the water of a holding to a figure, from the tap or into the air. */
  async wetTo(slot: Slot, waterGrams: Decimal): Promise<void> {
    const missing = waterGrams.minus(this.now(slot).waterGrams)
    if (missing.greaterThan(0)) {
      this.shiftExactly(await this.outsideLike('tap', slot.ref), slot, { waterGrams: missing })
    } else if (missing.lessThan(0)) {
      const air = await this.outsideLike('air', slot.ref)
      this.shiftExactly(slot, air, { waterGrams: missing.negated() })
    }
  }

  /**
   * Brings a holding to what was measured of the whole of it. The difference in dry clay goes to, or
   * comes from, `counterpart` (mostly: unexplained), at the holding's own cost per gram, so that a
   * shortage and a surplus that undo each other undo their money too.
   */
  async settle(
    slot: Slot,
    estimate: DryMassEstimate,
    counterpart: PlaceOutside = 'unexplained',
  ): Promise<Decimal> {
    const held = this.now(slot)
    const surplus = estimate.dryGrams.minus(held.dryGrams)
    const other = await this.outside(counterpart, slot.ref.bodyId)
    if (surplus.lessThan(0)) {
      const dryGrams = surplus.negated()
      const dryDoubt = doubtOfDifference(held.dryDoubt, estimate.dryDoubt)
      refuseTooMuch({ ...slot, held }, quantities({ dryGrams }))
      this.shift({ from: slot, to: other, what: partByMeasure(held, { dryGrams, dryDoubt }) })
    } else {
      this.shiftExactly(other, slot, surplusFound(held, estimate))
    }
    if (!surplus.isZero()) this.differsBy({ ...slot, held }, estimate)
    await this.wetTo(slot, estimate.waterGrams)
    return surplus
  }

  /** Notes what was measured otherwise than a holding, as it was before, has on the books. */
  differsBy({ holdingId, held }: Slot, estimate: DryMassEstimate): void {
    const amount = estimate.dryGrams.minus(held.dryGrams)
    const doubt = doubtOfDifference(estimate.dryDoubt, held.dryDoubt)
    this.differences.push(foundDifference(holdingId, { amount, doubt }))
  }

  /** Writes down what a reading was taken to mean. */
  estimated(meant: {
    slot: Slot
    of: string
    estimate: DryMassEstimate
    weighingNo?: number | undefined
  }): void {
    const { slot, of, estimate, weighingNo } = meant
    this.estimates.push({
      estimateNo: this.estimates.length + 1,
      holdingId: slot.holdingId,
      of,
      dryGrams: estimate.dryGrams.toFixed(),
      waterGrams: estimate.waterGrams.toFixed(),
      method: estimate.method,
      standing: estimate.standing,
      standardUncertaintyGrams: estimate.standardUncertaintyGrams.toFixed(),
      weighingNo: weighingNo ?? null,
    })
  }

  /** Notes that clay of some wetness is handled, or that the act itself is dry: cautions follow. */
  handles(act: Partial<Omit<DustyAct, 'jurisdiction'>>): void {
    const cautions = silicaCautions({
      handlesDryClay: false,
      dryAct: undefined,
      waterContentWetBasis: undefined,
      dustThresholdWetBasis: undefined,
      ...act,
      jurisdiction: this.facts.studio.jurisdiction,
    })
    for (const caution of cautions) {
      if (!this.cautions.some((said) => said.why === caution.why)) this.cautions.push(caution)
    }
  }

  /** What the entry moves: one movement a holding, the unmoved left out. */
  movements(): Movement[] {
    return [...this.#slots.entries()]
      .map(([holdingId, { change }]) => ({ holdingId, ...change }))
      .filter((movement) => !isNothing(movement))
  }

  #change(slot: Slot, by: Held): void {
    const found = this.#slots.get(slot.holdingId)
    assert(found !== undefined, 'a holding is held before it changes')
    found.change = plus(found.change, by)
  }
}
