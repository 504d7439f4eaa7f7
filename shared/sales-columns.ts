import { amountTold, countTold, DECIMAL_MARKS } from './amount-told.ts'
import { DAY_ORDERS, dayTold } from './day-told.ts'

export const SALES_ROLES = [
  ...(['day', 'piece', 'variant', 'pieces', 'price', 'order', 'channel', 'grade'] as const),
  ...(['currency', 'nth'] as const),
] as const

/** What a column of a file of sales can say. */
export type SalesRole = (typeof SALES_ROLES)[number]

/** Which column says what: their places from the left, from 0. */
export type SalesColumns = Partial<Readonly<Record<SalesRole, number>>>

/** The heading under which refused rows come back, so that equal rows are told apart once more. */
export const NTH_HEADING = 'which of equal rows'

interface RoleWords {
  /** Headings that say it outright, headings that may mean it, and words that rule it out. */
  readonly surely: RegExp
  readonly perhaps: RegExp
  readonly never: RegExp
}

const NOTHING = /(?!)/
const OTHER_PEOPLE =
  /customer|client|buyer|billing|shipping|ship|recipient|e-?mail|phone|address|kunde|cliente/
const OTHER_MONEY =
  /tax|vat|discount|postage|delivery|fee|refund|tip|balance|cost|steuer|rabatt|mwst/

/** Words that headings are made of, without accents. Source: common usage in English and some others. */
const WORDS: Readonly<Record<SalesRole, RoleWords>> = {
  day: {
    surely:
      /^(date|day|sold on|datum|tag|fecha|jour|data|dato)$|(order|sale|transaction|sold) date/,
    perhaps: /date|day|datum|fecha|created|paid at|sold at|time/,
    never: /update|due|dispatch|shipped|birth|fulfil/,
  },
  piece: {
    surely:
      /^(item|piece|product|article|artikel|produkt|producto|produit|article|articulo|prodotto)s?( name| title)?$|line ?item name/,
    perhaps: /item|product|piece|name|title|description|what|artikel|bezeichnung|libelle/,
    never: new RegExp(`${OTHER_PEOPLE.source}|price|qty|quantity|number|\\bid\\b|sku|count|total`),
  },
  variant: {
    surely: /^(variant|variation|option|variante)s?( name| title)?$/,
    perhaps: /variant|variation|colour|color|glaze|size|farbe/,
    never: /price|\bid\b/,
  },
  pieces: {
    surely:
      /^(qty|quantity|pieces|pcs|units|count|how many|menge|anzahl|cantidad|quantite|quantita)$/,
    perhaps: /qty|quantity|pieces|units|number sold|menge|anzahl|cantidad|quantit/,
    never: /price|refund|returned|stock/,
  },
  price: {
    surely:
      /^(price|unit price|item price|price each|preis|einzelpreis|prix|precio|prezzo)$|line ?item price/,
    perhaps: /price|amount|total|gross|paid|takings|preis|betrag|summe|prix|precio|importe|montant/,
    never: new RegExp(
      `${OTHER_MONEY.source}|${OTHER_PEOPLE.source}|order total|currency|method|at$`,
    ),
  },
  order: {
    surely:
      /^(order|receipt|sale|invoice|transaction|bon|beleg|bestellung)( ?(no|number|nr|id|#|nummer))*\.?$/,
    perhaps: /order|receipt|invoice|transaction|bestell|beleg|pedido|commande/,
    never: /date|total|status|type|item|discount|time|amount/,
  },
  channel: {
    surely: /^(channel|shop|sold at|outlet|market|fair|venue|stall|kanal|filiale)$/,
    perhaps: /channel|shop|location|source|till|outlet|where|market|fair|store/,
    never: /\bid\b|currency|price|date|shopper/,
  },
  grade: { surely: /^(grade|quality|wahl|sorte)$/, perhaps: /grade|quality/, never: NOTHING },
  currency: {
    surely: /^(currency|wahrung|devise|moneda)( code)?$/,
    perhaps: /currency/,
    never: NOTHING,
  },
  nth: { surely: new RegExp(`^${NTH_HEADING}$`), perhaps: NOTHING, never: NOTHING },
}

const SURE = 4
const PERHAPS = 2
/** A column must be told by its heading, or by cells that look like nothing else. */
const ENOUGH = 2
const MOST_CELLS = 0.7

/**
 * Which column most likely says what, by its heading and by what its cells look like.
 *
 * Shape: a column has one role at most, and a role one column. Source: our choice.
 */
export function columnsGuessed(
  headings: readonly string[],
  rows: readonly (readonly string[])[],
): SalesColumns {
  const scores = headings.flatMap((heading, column) => {
    const cells = rows.map((row) => row[column] ?? '').filter((cell) => cell.trim() !== '')
    return SALES_ROLES.map((role) => ({
      role,
      column,
      score: scoreOfHeading(role, heading) + scoreOfCells(role, cells),
    }))
  })
  const chosen = new Map<SalesRole, number>()
  for (const { role, column, score } of scores.sort((one, other) => other.score - one.score)) {
    if (score < ENOUGH || chosen.has(role) || [...chosen.values()].includes(column)) continue
    chosen.set(role, column)
  }
  return Object.fromEntries(chosen)
}

/**
 * Whether a price under that heading is most likely for the whole line.
 *
 * Source: our choice.
 */
export function isForLine(heading: string): boolean {
  const words = plainWords(heading)
  return /total|amount|gross|paid|takings|betrag|summe|montant|importe/.test(words)
    ? !/unit|each|per /.test(words)
    : false
}

/**
 * The row of headings among the first of a file: the first that is as wide as most and has no day and no
 * amount in it; undefined where there is none.
 *
 * Units: a place from the top, from 0. Source: our choice.
 */
export function headingsGuessed(rows: readonly (readonly string[])[]): number | undefined {
  const widths = rows.map((row) => row.filter((cell) => cell.trim() !== '').length)
  const usual = [...widths].sort((one, other) => other - one)[Math.floor(widths.length / 2)] ?? 0
  const place = rows.findIndex((row, index) => (widths[index] ?? 0) * 2 > usual && !hasValues(row))
  const firstValues = rows.findIndex(hasValues)
  return place === -1 || (firstValues !== -1 && firstValues < place) ? undefined : place
}

function hasValues(row: readonly string[]): boolean {
  return row.some((cell) => isDay(cell) || isAmount(cell))
}

function scoreOfHeading(role: SalesRole, heading: string): number {
  const words = plainWords(heading)
  if (words === '' || WORDS[role].never.test(words)) return words === '' ? 0 : -SURE
  if (WORDS[role].surely.test(words)) return SURE
  return WORDS[role].perhaps.test(words) ? PERHAPS : 0
}

type CellTest = (cell: string) => boolean

/** What cells of a role look like, and how much that tells. */
const LOOKS: Partial<Readonly<Record<SalesRole, { test: CellTest; points: number }>>> = {
  day: { test: isDay, points: ENOUGH },
  pieces: { test: (cell) => countTold(cell) !== undefined, points: 1 },
  price: { test: isAmount, points: 1 },
  piece: { test: (cell) => /\p{L}{2}/u.test(cell) && !isDay(cell), points: 1 },
  currency: { test: (cell) => /^[A-Z]{3}$/.test(cell.trim()), points: 1 },
}

function scoreOfCells(role: SalesRole, cells: readonly string[]): number {
  if (cells.length === 0) return role === 'variant' || role === 'grade' ? 0 : -1
  const looks = LOOKS[role]
  if (looks === undefined) return 0
  const share = (test: CellTest) => cells.filter(test).length / cells.length
  const hasCoins = role === 'price' && share((cell) => /\D\d\d$/.test(cell.trim())) > 0.5
  return (share(looks.test) >= MOST_CELLS ? looks.points : -looks.points) + (hasCoins ? 1 : 0)
}

function isDay(cell: string): boolean {
  return DAY_ORDERS.some((order) => dayTold(cell, { order, timeZone: 'UTC' }) !== undefined)
}

function isAmount(cell: string): boolean {
  return DECIMAL_MARKS.some((mark) => amountTold(cell, mark) !== undefined)
}

/** Small letters without accents, words parted by one blank. */
function plainWords(text: string): string {
  return text
    .slice(0, 80)
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, ' ')
    .trim()
}
