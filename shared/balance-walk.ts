import type {
  BalanceBook,
  BookedEntry,
  BookedEstimate,
  BookedHolding,
  BookedWeighing,
} from './balance-book.ts'
import type { Decimal } from './decimal.ts'
import { MonthNodes, UNWEIGHED, type Stock } from './month-nodes.ts'
import type { FlowReading } from './month-network.ts'
import type { PlaceInside } from './place.ts'
import type { WetMistake } from './reading-mistakes.ts'
import { SURE, WetnessTrace, type Wetness } from './wetness.ts'

/** What a reading of the balance was made from. */
export interface Origin {
  readonly entryId: string | null
  readonly holdingId: string
  readonly weighing: BookedWeighing | null
  /** Dry grams a wet gram. */
  readonly dryFraction: number
  readonly mistakes: readonly WetMistake[]
}

/** What a figure is that several readings share. */
export interface SourceOrigin {
  readonly label: string
  /** The entry that told it, and the state of clay that it speaks of; null where none did. */
  readonly entryId: string | null
  readonly state: string | null
  /** Nobody said or measured it by itself. */
  readonly isNeverNamed?: boolean
}

/** A reading with what its dry share rests on. */
export interface MadeReading {
  readonly reading: Omit<FlowReading, 'id' | 'label'>
  readonly wetness: Wetness
}

/** Where clay is followed: glazed pots weigh their glaze too, so no reading of theirs says anything. */
const FOLLOWED = ['store', 'bench', 'scrap', 'basin', 'plaster', 'greenware', 'bisque'] as const

/** A month of the books while it is read, entry after entry. */
export class BalanceWalk {
  readonly book: BalanceBook
  readonly nodes = new MonthNodes()
  readonly wetness = new WetnessTrace()
  readonly sources = new Map<string, SourceOrigin>()
  readonly origins = new Map<string, Origin>()
  readonly #holdings: ReadonlyMap<string, BookedHolding>
  readonly #held = new Map<string, Decimal>()
  readonly #left = new Set<string>()

  constructor(book: BalanceBook) {
    this.book = book
    this.#holdings = new Map(book.holdings.map((one) => [one.holdingId, one]))
    for (const one of book.holdings) this.#held.set(one.holdingId, one.openingDryGrams)
  }

  holding(holdingId: string | null): BookedHolding | undefined {
    return holdingId === null ? undefined : this.#holdings.get(holdingId)
  }

  /** Where it stands in the network; null of what is outside, of another clay, or glazed. */
  stock(holdingId: string | null): Stock | null {
    const found = this.holding(holdingId)
    if (found === undefined || found.bodyId !== this.book.bodyId) return null
    const place = FOLLOWED.find((one) => one === found.place)
    return place === undefined ? null : { id: found.holdingId, place, name: found.name }
  }

  /** The holdings of an entry's lines that gave clay at a place, or got some. */
  at(entry: BookedEntry, place: PlaceInside, way: 'gave' | 'got'): string[] {
    return entry.lines
      .filter(({ holdingId, dryGrams }) => {
        const isWay = way === 'gave' ? dryGrams.lessThan(0) : dryGrams.greaterThan(0)
        return isWay && this.holding(holdingId)?.place === place
      })
      .map(({ holdingId }) => holdingId)
  }

  /** What an entry's line says of a holding, in or out. Units: grams. */
  booked(entry: BookedEntry, holdingId: string | null): number {
    const line = entry.lines.find((one) => one.holdingId === holdingId)
    return line === undefined ? 0 : line.dryGrams.abs().toNumber()
  }

  held(holdingId: string): Decimal | undefined {
    return this.#held.get(holdingId)
  }

  /** Clay moves; where a reading says nothing of how much, the books' figure still mixes its water. */
  moves(moved: {
    readonly id: string
    readonly entry: BookedEntry
    readonly from: string | null
    readonly to: string | null
    readonly label: string
    readonly dryGrams: number
    readonly made?: MadeReading | undefined
    readonly again?: readonly FlowReading[]
  }): void {
    const { id, entry, from, to, label, made, again } = moved
    this.keeps(id, entry, from ?? to)
    const wetness = made?.wetness ?? (from === null ? SURE : this.wetness.of(from))
    this.nodes.moves(this.stock(from), this.stock(to), {
      ...{ id, kind: entry.kind, label },
      ...(made?.reading ?? UNWEIGHED),
      ...(again === undefined ? {} : { again }),
    })
    if (from !== null) this.#left.add(from)
    if (to !== null) this.wetness.receives(to, { dryGrams: moved.dryGrams, wetness })
  }

  /** Says of a flow that no reading speaks of which entry it is of. */
  keeps(id: string, { entryId }: BookedEntry, holdingId: string | null): void {
    if (this.origins.has(id)) return
    const nothing = { weighing: null, dryFraction: 1, mistakes: [] }
    this.origins.set(id, { entryId, holdingId: holdingId ?? '', ...nothing })
  }

  /** True where this very entry has let clay of a holding go already. */
  hasLeft(holdingId: string): boolean {
    return this.#left.has(holdingId)
  }

  /** The books after an entry: what is empty by them is empty. */
  closes(entry: BookedEntry): void {
    this.#left.clear()
    for (const { holdingId, dryGrams } of entry.lines) {
      const before = this.#held.get(holdingId)
      if (before === undefined) continue
      const now = before.plus(dryGrams)
      this.#held.set(holdingId, now)
      this.wetness.holds(holdingId, now.toNumber())
      const stock = this.stock(holdingId)
      if (stock !== null && now.lessThanOrEqualTo(0)) this.nodes.empties(stock)
    }
  }

  weighingOf(entry: BookedEntry, estimate: BookedEstimate): BookedWeighing | undefined {
    return entry.weighings.find(({ weighingNo }) => weighingNo === estimate.weighingNo)
  }
}
