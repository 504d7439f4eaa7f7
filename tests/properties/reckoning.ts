import { sql } from 'drizzle-orm'
import type { Database } from '../../db/connection.ts'
import type { LineView } from '../../db/entry-shown.ts'
import { PLACES_INSIDE } from '../../shared/place.ts'
import type { Foretold } from './deed.ts'

const COLUMNS = ['dryGrams', 'materialGrams', 'waterGrams', 'pieces', 'cost'] as const
const COST = 4
const LAYERS = ['glaze', 'fire', 'wear', 'packaging'] as const
const ALL_COLUMNS = [...COLUMNS, ...LAYERS]

type Totals = Map<string, readonly bigint[]>

const WET = ['scrap', 'basin', 'tap', 'air']
const BILLED = ['materials', 'utility', 'wear', 'fire']
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
  lose: [...POTS, ...WET, 'hands', 'waste', 'abnormal', 'unexplained'],
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
  bisque: ['greenware', 'bisque', ...BILLED, 'air'],
  glaze_fire: ['bisque', 'glazed', ...BILLED, 'air'],
  grade: ['bisque', 'glazed', 'finished', 'waste', 'abnormal'],
  sell: ['finished', 'customer', 'materials'],
  give_away: ['finished', 'customer'],
  keep: ['finished', 'customer'],
  break_in_shop: ['finished', 'waste'],
  discard: [...PLACES_INSIDE, 'waste'],
  // Open clay that was found dried out or wetted has its water set.
  dry_test: [...PLACES_INSIDE, 'supplier', 'before', 'tap', 'air', 'unexplained'],
  count: [...PLACES_INSIDE, 'tap', 'air', 'unexplained'],
  close_month: [],
  receive_materials: ['supplier', 'materials'],
  count_material: ['materials', 'tap', 'air', 'unexplained'],
  use_material: ['materials', 'wear', 'waste', 'customer'],
  mix_glaze: ['materials', 'glaze_bucket', 'tap'],
  water_glaze: ['glaze_bucket', 'tap', 'waste'],
  read_glaze: ['glaze_bucket', 'tap', 'air', 'unexplained'],
  lose_glaze: ['glaze_bucket', 'waste'],
  glaze: ['glaze_bucket', 'bisque', 'tap', 'air', 'waste', 'unexplained'],
  fire_empty: [...BILLED, 'idle'],
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
      ...faultsOfBill(told, lines),
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
      ALL_COLUMNS.flatMap((column, at) => {
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
    const billed = ['utility', 'wear'].reduce((sum, by) => sum - (kept.get(by)?.[COST] ?? 0n), 0n)
    if (found !== this.#bought + billed) {
      differences.push(`${found} of money is left of ${this.#bought} and ${billed} for fires`)
    }
    return differences
  }

  #add(lines: readonly LineView[], times: 1n | -1n): void {
    for (const line of lines) {
      const before = this.#totals.get(line.place) ?? ALL_COLUMNS.map(() => 0n)
      const moved = columnsOf(line).map((amount) => times * amount)
      this.#totals.set(line.place, sumOf(before, moved))
    }
  }
}

function isSource(place: string): boolean {
  return ['supplier', 'before', 'utility', 'wear'].includes(place)
}

/** Each column of a line, and each layer of its cost. */
function columnsOf(line: LineView): bigint[] {
  const layers = line.costLayers as Readonly<Record<string, string>>
  return [
    ...COLUMNS.map((column) => millionths(line[column])),
    ...LAYERS.map((layer) => millionths(layers[layer] ?? '0')),
  ]
}

function faultsOfEntry(kind: string, lines: readonly LineView[]): string[] {
  const strange = lines.filter((line) => !(MAY_TOUCH[kind] ?? []).includes(line.place))
  const sums = lines.reduce(
    (sum, line) => sumOf(sum, columnsOf(line)),
    ALL_COLUMNS.map(() => 0n),
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

/** What the fire took is paid by the month's bill and by the wear, all of it and no more. */
function faultsOfBill({ bill }: Foretold, lines: readonly LineView[]): string[] {
  if (bill === undefined) return []
  return (['utility', 'wear'] as const).flatMap((place) => {
    const paid = lines
      .filter((line) => line.place === place)
      .reduce((sum, line) => sum - millionths(line.cost), 0n)
    return paid === millionths(bill[place])
      ? []
      : [`${place} paid ${paid} for a fire of ${bill[place]}`]
  })
}

async function totalsKept(db: Database, studioId: string): Promise<Totals> {
  const rows = await db.execute<Record<string, string>>(sql`
    with kept as (
      select place, dry_grams, material_grams, water_grams, pieces, cost, cost_layers from holding
       where studio_id = ${studioId} and is_inside
      union all
      select h.place, l.dry_grams, l.material_grams, l.water_grams, l.pieces, l.cost, l.cost_layers
        from line l join holding h using (studio_id, holding_id)
       where l.studio_id = ${studioId} and not h.is_inside)
    select place, sum(dry_grams)::text as "dryGrams", sum(material_grams)::text as "materialGrams",
           sum(water_grams)::text as "waterGrams", sum(pieces)::text as pieces, sum(cost)::text as cost,
           coalesce(sum((cost_layers ->> 'glaze')::numeric), 0)::text as glaze,
           coalesce(sum((cost_layers ->> 'fire')::numeric), 0)::text as fire,
           coalesce(sum((cost_layers ->> 'wear')::numeric), 0)::text as wear,
           coalesce(sum((cost_layers ->> 'packaging')::numeric), 0)::text as packaging
      from kept group by place`)
  const read = (row: Record<string, string>) =>
    ALL_COLUMNS.map((column) => millionths(row[column] ?? '0'))
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
