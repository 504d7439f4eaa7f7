import { sql } from 'drizzle-orm'
import type { Database } from '../../db/connection.ts'
import type { LineView } from '../../db/entry-view.ts'
import { PLACES_INSIDE } from '../../shared/place.ts'
import type { Foretold } from './deed.ts'

const COLUMNS = ['dryGrams', 'waterGrams', 'pieces', 'cost'] as const
const COST = 3

type Totals = Map<string, readonly bigint[]>

const WET = ['scrap', 'basin', 'tap', 'air']
const POTS = ['greenware', 'bisque', 'glazed', 'finished']

/** Between which places each kind of entry may move anything at all. */
const MAY_TOUCH: Readonly<Record<string, readonly string[]>> = {
  open_books: ['before', ...PLACES_INSIDE],
  receive_delivery: ['supplier', 'store'],
  open_bag: ['store', 'bench', 'hands', 'supplier'],
  throw: ['bench', 'greenware', 'hands'],
  join: ['bench', 'greenware', ...WET],
  collect_slops: ['greenware', ...WET],
  turn: ['greenware', ...WET],
  lose: [...POTS, ...WET, 'hands', 'waste', 'unexplained'],
  weigh_scrap: ['greenware', ...WET, 'unexplained'],
  weigh_run: [...POTS, 'tap', 'air', 'unexplained'],
  slake: ['scrap', 'basin', 'tap'],
  decant: ['basin', 'scrap', 'waste'],
  read_slurry: ['basin', 'tap', 'air', 'unexplained'],
  pour: ['basin', 'plaster', 'tap', 'air'],
  weigh_on_plaster: ['plaster', 'tap', 'air'],
  move_load: ['plaster', 'tap', 'air'],
  lift: ['plaster', 'bench', 'tap', 'air', 'waste'],
  wedge: ['bench', 'scrap', 'supplier', 'tap', 'air'],
  rewet: ['store', 'bench', 'tap'],
  bisque: ['greenware', 'bisque', 'fire', 'air'],
  glaze_fire: ['bisque', 'glazed', 'fire', 'air'],
  grade: ['bisque', 'glazed', 'finished', 'waste'],
  sell: ['finished', 'customer'],
  give_away: ['finished', 'customer'],
  keep: ['finished', 'customer'],
  break_in_shop: ['finished', 'waste'],
  discard: [...PLACES_INSIDE, 'waste'],
  dry_test: [...PLACES_INSIDE, 'supplier', 'before', 'unexplained'],
  count: [...PLACES_INSIDE, 'tap', 'air', 'unexplained'],
  close_month: [],
}

interface Recorded {
  readonly lines: readonly LineView[]
  readonly bought: bigint
}

/**
 * The much simpler model of a studio: what each place has of each column, in whole millionths, told
 * by adding up what the answers say moved; and the money that was spent, told by what was asked.
 */
export class Reckoning {
  readonly #totals: Totals = new Map()
  readonly #recorded = new Map<string, Recorded>()
  #bought = 0n

  /** Takes in an entry of an act and says what about it cannot be. */
  post(entry: { entryId: string; kind: string; lines: readonly LineView[] }, told: Foretold) {
    const { entryId, kind, lines } = entry
    const bought = (told.bought ?? []).reduce((sum, price) => sum + millionths(price), 0n)
    this.#recorded.set(entryId, { lines, bought })
    this.#bought += bought
    this.#add(lines, 1n)
    return [
      ...faultsOfEntry(kind, lines),
      ...faultsOfPieces(told, lines),
      ...faultsOfMoney(told, lines),
      ...(told.isImpossible === true ? [`${kind} was done to nothing`] : []),
    ]
  }

  /** Takes in the mirror of an entry that was posted before. */
  takeBack(entryId: string): string[] {
    const recorded = this.#recorded.get(entryId)
    if (recorded === undefined) return [`entry ${entryId} was taken back but never posted`]
    this.#recorded.delete(entryId)
    this.#bought -= recorded.bought
    this.#add(recorded.lines, -1n)
    return []
  }

  /** What the database holds otherwise than this model. */
  async differencesTo(db: Database, studioId: string): Promise<string[]> {
    const kept = await totalsKept(db, studioId)
    const places = [...new Set([...kept.keys(), ...this.#totals.keys()])]
    const differences = places.flatMap((place) =>
      COLUMNS.flatMap((column, at) => {
        const [ours, theirs] = [this.#totals.get(place)?.[at] ?? 0n, kept.get(place)?.[at] ?? 0n]
        return ours === theirs ? [] : [`${place} has ${theirs} of ${column}, not ${ours}`]
      }),
    )
    const spent = ['supplier', 'before'].reduce(
      (sum, from) => sum - (kept.get(from)?.[COST] ?? 0n),
      0n,
    )
    const found = [...kept].reduce(
      (sum, [place, has]) => (isSource(place) ? sum : sum + (has[COST] ?? 0n)),
      0n,
    )
    if (spent !== this.#bought) differences.push(`${spent} was paid, but ${this.#bought} was asked`)
    if (found !== this.#bought) differences.push(`${found} of money is left of ${this.#bought}`)
    return differences
  }

  #add(lines: readonly LineView[], times: 1n | -1n): void {
    for (const line of lines) {
      const before = this.#totals.get(line.place) ?? COLUMNS.map(() => 0n)
      const moved = COLUMNS.map((column) => times * millionths(line[column]))
      this.#totals.set(line.place, sumOf(before, moved))
    }
  }
}

function isSource(place: string): boolean {
  return place === 'supplier' || place === 'before'
}

function faultsOfEntry(kind: string, lines: readonly LineView[]): string[] {
  const strange = lines.filter((line) => !(MAY_TOUCH[kind] ?? []).includes(line.place))
  const sums = lines.reduce(
    (sum, line) =>
      sumOf(
        sum,
        COLUMNS.map((column) => millionths(line[column])),
      ),
    COLUMNS.map(() => 0n),
  )
  return [
    ...strange.map((line) => `${kind} has moved something of ${line.place}`),
    ...(kind === 'dry_test' ? lines : [])
      .filter((line) => Number(line.pieces) !== 0 || Number(line.cost) !== 0)
      .map((line) => `a dry test has moved pieces or cost of ${line.place}`),
    ...(sums.some((sum) => sum !== 0n) ? [`${kind} sums to ${sums.join(', ')}`] : []),
  ]
}

function faultsOfPieces({ pieces }: Foretold, lines: readonly LineView[]): string[] {
  const places = [...new Set([...Object.keys(pieces), ...lines.map((line) => line.place)])]
  return places.flatMap((place) => {
    const moved = lines
      .filter((line) => line.place === place)
      .reduce((sum, line) => sum + millionths(line.pieces), 0n)
    const foretold = millionths(String(pieces[place as keyof typeof pieces] ?? 0))
    return moved === foretold ? [] : [`${place} gained ${moved} pieces, not ${foretold}`]
  })
}

function faultsOfMoney({ keepsMoney }: Foretold, lines: readonly LineView[]): string[] {
  if (keepsMoney !== true) return []
  return lines
    .filter((line) => line.place === 'waste' && millionths(line.cost) !== 0n)
    .map((line) => `${line.cost} of money went to waste although pots of the run are left`)
}

async function totalsKept(db: Database, studioId: string): Promise<Totals> {
  const rows = await db.execute<Record<string, string>>(sql`
    select h.place, sum(case when is_inside then h.dry_grams else coalesce(l.dry_grams, 0) end)::text as d,
           sum(case when is_inside then h.water_grams else coalesce(l.water_grams, 0) end)::text as w,
           sum(case when is_inside then h.pieces else coalesce(l.pieces, 0) end)::text as p,
           sum(case when is_inside then h.cost else coalesce(l.cost, 0) end)::text as c
      from holding h left join lateral (
             select sum(dry_grams) as dry_grams, sum(water_grams) as water_grams,
                    sum(pieces) as pieces, sum(cost) as cost
               from line where studio_id = h.studio_id and holding_id = h.holding_id) l on true
     where h.studio_id = ${studioId} group by h.place`)
  const read = (row: Record<string, string>) =>
    ['d', 'w', 'p', 'c'].map((column) => millionths(row[column] ?? '0'))
  return new Map(rows.map((row) => [row.place ?? '', read(row)]))
}

function sumOf(one: readonly bigint[], other: readonly bigint[]): bigint[] {
  return one.map((amount, at) => amount + (other[at] ?? 0n))
}

/** The digits of a decimal as a whole number of millionths; more than six of them are a fault. */
export function millionths(decimals: string): bigint {
  const parts = /^(-?)(\d+)(?:\.(\d{1,6})0*)?$/.exec(decimals)
  if (parts === null) throw new Error(`${decimals} is finer than a millionth, or no number`)
  const [, sign, whole = '0', after = ''] = parts
  const size = BigInt(whole + after.padEnd(6, '0'))
  return sign === '-' ? -size : size
}
