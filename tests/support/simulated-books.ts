import type {
  BalanceBook,
  BookedEntry,
  BookedEstimate,
  BookedHolding,
  BookedWeighing,
} from '../../shared/balance-book.ts'
import { decimal, toLedgerScale, type Decimal } from '../../shared/decimal.ts'
import { NO_DOUBT, type Doubt } from '../../shared/doubt.ts'
import type { DryMassMethod } from '../../shared/dry-mass.ts'
import type { ActKind } from '../../shared/month-world.ts'
import type { PlaceInside } from '../../shared/place.ts'
import type { Chance } from './chance.ts'
import { doubtOfWater, openingDoubt } from './simulated-doubts.ts'
import { mix, mixedShare } from './simulated-mixing.ts'

/** What is truly there, and what the books have. */
interface Stock {
  readonly ref: Omit<BookedHolding, 'openingDryGrams' | 'openingDryDoubt' | 'nowDryGrams'>
  readonly opening: { dryGrams: number; unsure: number; ofMass: number }
  trueDry: number
  bookDry: number
  /** Dry grams a wet gram. */
  trueShare: number
  bookShare: number
}

/** How a reading is made: on a scale, with a water content that is measured so well. */
export interface Looks {
  readonly of: string
  /** Absent where the clay is as wet as the books say of where it came from. */
  readonly waterUncertainty?: number
  /** The sample that tells the water: readings that name one share its figure and its error. */
  readonly sample?: string
  readonly purpose?: string
  readonly method?: DryMassMethod
}

const DIVISION_GRAMS = 5
const CAPACITY_GRAMS = 15_000
/** What labels say of bags, and of an opening what is doubtful of the mass: as the translation has it. */
const OF_BAGS = 0.01 / Math.sqrt(3)
const OF_THE_MASS = 0.3
const UNEVEN_WATER = 0.001
export const LOSS_ON_IGNITION = 0.0741

/**
 * The books of a made-up studio, entry by entry, beside what is truly there.
 *
 * It posts as the acts do, as far as a balance of the month looks at it: a measured amount moves as it
 * was measured, and a stock that is weighed as a whole is what it was weighed.
 */
export class SimulatedBooks {
  readonly chance: Chance
  readonly entries: BookedEntry[] = []
  /** What each reading would be if nothing erred, by its id. */
  readonly trueDryGrams = new Map<string, number>()
  day = '1 May'
  readonly #stocks = new Map<string, Stock>()
  readonly #samples = new Map<string, number>()
  #lines: { holdingId: string; dryGrams: number; pieces: number; dryDoubt: Doubt }[] = []
  #estimates: BookedEstimate[] = []
  #weighings: BookedWeighing[] = []
  /** What makes the last reading unsure, until it is in a line. */
  #lastDoubt: Doubt = NO_DOUBT

  constructor(chance: Chance) {
    this.chance = chance
  }

  /** A place for clay; with what was in it when the month began, known to a part of it. */
  has(
    id: string,
    place: PlaceInside,
    begins?: { dryGrams: number; share: number; unsure: number },
  ): void {
    const { dryGrams, share, unsure } = begins ?? { dryGrams: 0, share: 1, unsure: 0 }
    const ofMass = place === 'store' ? Math.min(unsure, OF_BAGS) : OF_THE_MASS * unsure
    const ofWater = Math.sqrt(unsure ** 2 - ofMass ** 2) * this.chance.normal()
    const bookDry = dryGrams * (1 + ofWater + ofMass * this.chance.normal())
    const ids = { holdingId: id, lotId: id, runId: null, vesselId: null }
    this.#stocks.set(id, {
      ref: { ...ids, place, bodyId: 'buff', name: id },
      opening: { dryGrams: bookDry, unsure: unsure * bookDry, ofMass: ofMass * bookDry },
      ...{ trueDry: dryGrams, bookDry, trueShare: share, bookShare: share * (1 + ofWater) },
    })
  }

  trueDry(id: string): number {
    return this.#stock(id).trueDry
  }

  /** Pots of a run go by the same run through the fire. */
  ofRun(id: string, runId: string): void {
    const stock = this.#stock(id)
    this.#stocks.set(id, { ...stock, ref: { ...stock.ref, runId, lotId: null } })
  }

  /** Clay truly moves and is weighed on the way; its water differs from where it was by so much. */
  moves(
    from: string | null,
    to: string | null,
    moved: { dryGrams: number; share?: number; looks?: Looks },
  ): void {
    const { dryGrams, looks } = moved
    this.#lastDoubt = NO_DOUBT
    const source = from === null ? { ...NOWHERE, bookDry: dryGrams } : this.#stock(from)
    const share = moved.share ?? source.trueShare
    const { bookShare } = source
    const holdingId = to ?? from ?? ''
    const read = looks && this.#reads({ dryGrams, share, bookShare, looks, holdingId })
    const booked = read ?? source.bookDry
    source.trueDry -= dryGrams
    if (from !== null) this.#line(from, -Math.min(booked, source.bookDry))
    if (to !== null) this.#arrives(to, { dryGrams, share, booked, bookShare, looks })
  }

  #arrives(
    to: string,
    came: {
      dryGrams: number
      share: number
      booked: number
      bookShare: number
      looks: Looks | undefined
    },
  ): void {
    const { dryGrams, share, booked, bookShare, looks } = came
    const goal = this.#stock(to)
    mix(goal, { trueDry: dryGrams, trueShare: share })
    goal.bookShare = mixedShare(goal, { dry: booked, share: this.#shareRead(looks) ?? bookShare })
    this.#line(to, booked, this.#lastDoubt)
  }

  /** Bags are opened and weighed; by the books each held what all hold on average. */
  opensBags(from: string, to: string, opened: { dryGrams: number; bags: number }): void {
    const { dryGrams, bags } = opened
    const store = this.#stock(from)
    const average = (store.bookDry * dryGrams) / store.trueDry
    const byCount = average * (1 + (OF_BAGS / Math.sqrt(bags)) * this.chance.normal())
    this.moves(from, to, { dryGrams, looks: { of: 'opened' } })
    const line = this.#lines.find(({ holdingId }) => holdingId === from)
    if (line === undefined) return
    store.bookDry += -line.dryGrams - byCount
    this.#lines = this.#lines.map((one) =>
      one === line ? { ...one, dryGrams: -byCount, pieces: -bags } : one,
    )
  }

  /** Clay goes that nobody sees go. */
  loses(from: string, dryGrams: number): void {
    this.#stock(from).trueDry -= dryGrams
  }

  /** The whole of a stock is weighed. */
  weighsWhole(id: string, looks: Looks, share?: number): void {
    const stock = this.#stock(id)
    stock.trueShare = share ?? stock.trueShare
    const { trueDry: dryGrams, trueShare, bookShare } = stock
    const read = this.#reads({ dryGrams, share: trueShare, bookShare, looks, holdingId: id })
    this.#line(id, read - stock.bookDry, this.#lastDoubt)
    stock.bookShare = this.#shareRead(looks) ?? bookShare
  }

  /** The fire takes what it takes; the fired pots are weighed. */
  fires(from: string, to: string, lossOnIgnition: number): void {
    const { trueDry, bookDry } = this.#stock(from)
    const fired = trueDry * (1 - lossOnIgnition)
    const looks = { of: 'fired', waterUncertainty: 0, method: 'fired_weighing' } as const
    this.#reads({ dryGrams: fired, share: 1, bookShare: 1, looks, holdingId: to })
    this.#line(from, -bookDry)
    this.#line(to, fired)
    this.#stock(from).trueDry = 0
    this.trueDryGrams.set(this.#lastId(), trueDry)
  }

  /** What happened so far since the last entry is one entry. */
  writes(kind: ActKind, more: Partial<BookedEntry> = {}): void {
    this.entries.push({
      ...{ entryId: this.#entryId(), kind, said: {}, day: this.day },
      ...{ time: this.#time(), state: null, stage: null },
      ...{ fromLotIds: [], counts: [], batIds: [] },
      lines: this.#lines.map((one) => ({
        holdingId: one.holdingId,
        dryGrams: grams(one.dryGrams),
        dryDoubt: one.dryDoubt,
        pieces: decimal(one.pieces),
      })),
      ...{ estimates: this.#estimates, weighings: this.#weighings, ...more },
    })
    this.#lines = []
    this.#estimates = []
    this.#weighings = []
  }

  book(): BalanceBook {
    return {
      ...{ bodyId: 'buff', lossOnIgnitionFraction: decimal(String(LOSS_ON_IGNITION)) },
      holdings: [...this.#stocks.values()].map(({ ref, opening }) => ({
        ...ref,
        openingDryGrams: grams(opening.dryGrams),
        openingDryDoubt: openingDoubt(ref.holdingId, opening),
        nowDryGrams: decimal(0),
      })),
      ...{ entries: this.entries, vessels: [], bats: [], openFrom: null, isClosed: false },
    }
  }

  #entryId(): string {
    return `entry-${String(this.entries.length + 1).padStart(3, '0')}`
  }

  /** Every five minutes something is written down. */
  #time(): string {
    const minutes = 5 * this.entries.length
    const two = (count: number) => String(count).padStart(2, '0')
    return `${two(8 + (Math.floor(minutes / 60) % 12))}:${two(minutes % 60)}`
  }

  #lastId(): string {
    return `${this.#entryId()}/${String(this.#estimates.length)}`
  }

  #reads(read: {
    dryGrams: number
    share: number
    bookShare: number
    looks: Looks
    holdingId: string
  }): number {
    const { dryGrams, share, looks, holdingId } = read
    const net = dryGrams / share
    const times = Math.ceil(net / CAPACITY_GRAMS)
    const scale = DIVISION_GRAMS * Math.sqrt((2 * times) / 12)
    const netRead = net + scale * this.chance.normal()
    const { waterUncertainty } = looks
    const uneven = share < 1 ? UNEVEN_WATER * this.chance.normal() : 0
    const shareRead = waterUncertainty === undefined ? read.bookShare : this.#sampled(share, looks)
    const dry = netRead * shareRead + uneven * net
    const weighingNo = this.#weighings.length + 1
    this.#weighings.push({
      ...{ weighingNo, purpose: looks.purpose ?? 'reading', kind: 'clay', vesselId: null },
      ...{ netGrams: grams(netRead), tareGrams: grams(0), standardUncertaintyGrams: grams(scale) },
      read: { value: grams(netRead).toFixed(), unit: 'g' },
    })
    this.#estimates.push({
      ...{ estimateNo: this.#estimates.length + 1, holdingId, of: looks.of, weighingNo },
      // What is said of the water is the sample's figure; that this handful differs nobody sees.
      ...{ dryGrams: grams(dry), waterGrams: grams((dry * (1 - shareRead)) / shareRead) },
      method: looks.method ?? methodOf(waterUncertainty),
      standing: waterUncertainty === undefined ? 'estimated' : 'measured',
      standardUncertaintyGrams: grams(
        Math.hypot(shareRead * scale, netRead * (waterUncertainty ?? 0)),
      ),
    })
    this.trueDryGrams.set(this.#lastId(), dryGrams)
    this.#lastDoubt = doubtOfWater(looks, { netRead, entryId: this.#entryId(), weighingNo })
    return grams(dry).toNumber()
  }

  /** The dry share as a sample tells it. */
  #sampled(share: number, { sample, waterUncertainty = 0 }: Looks): number {
    const known = sample === undefined ? undefined : this.#samples.get(sample)
    const read = known ?? Number((share + waterUncertainty * this.chance.normal()).toFixed(6))
    if (sample !== undefined) this.#samples.set(sample, read)
    return read
  }

  /** The dry share that the last reading told, where it measured one. */
  #shareRead(looks: Looks | undefined): number | undefined {
    if (looks?.waterUncertainty === undefined) return undefined
    const last = this.#estimates.at(-1)
    if (last === undefined) return undefined
    return last.dryGrams.dividedBy(last.dryGrams.plus(last.waterGrams)).toNumber()
  }

  #line(holdingId: string, dryGrams: number, dryDoubt: Doubt = NO_DOUBT): void {
    const stock = this.#stock(holdingId)
    stock.bookDry = grams(stock.bookDry + dryGrams).toNumber()
    this.#lines.push({ holdingId, dryGrams, dryDoubt, pieces: 0 })
  }

  #stock(id: string): Stock {
    const found = this.#stocks.get(id)
    if (found === undefined) throw new TypeError(`there is no ${id}`)
    return found
  }
}

const NOWHERE = { trueDry: 0, bookDry: 0, trueShare: 1, bookShare: 1 }

function methodOf(waterUncertainty: number | undefined): DryMassMethod {
  return waterUncertainty === undefined ? 'lot_water_content' : 'stated_water_content'
}

function grams(value: number): Decimal {
  return toLedgerScale(decimal(value.toFixed(9)))
}
