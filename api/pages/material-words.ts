import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { isInside, type Place } from '../../shared/place.ts'
import type { Voice } from './voice.ts'

/** What an entry that moves materials is told by. */
interface MaterialsTold {
  readonly kind: string
  readonly countsAs?: string | undefined
  readonly lines: readonly MaterialLine[]
  readonly estimates?: readonly { readonly holdingId: string }[]
  readonly glazings?: readonly { readonly pieces: number }[]
}

interface MaterialLine {
  readonly holdingId: string
  readonly place: string
  readonly materialId: string | null
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
}

interface Telling {
  readonly told: MaterialsTold
  /** What moved inside the studio; of what is taken back, as it was before. */
  readonly inside: readonly MaterialLine[]
  readonly voice: Voice
  readonly names: ReadonlyMap<string, string>
}

const NAMED_MAX = 3

/** What each kind of entry about materials says after its name. */
const WORDS: Readonly<Record<string, (telling: Telling) => string>> = {
  receive_materials: amountsOf,
  open_books: amountsOf,
  use_material: amountsOf,
  mix_glaze: mixedWords,
  water_glaze: waterWords,
  read_glaze: foundWords,
  count_material: foundWords,
  lose_glaze: amountsOf,
  glaze: glazedWords,
}

/** Kinds of entries whose estimates are of glaze, or of powder, and never of clay. */
const DRY_WORDS: Readonly<Record<string, string>> = {
  read_glaze: 'Dry glaze',
  glaze: 'Dry glaze',
  water_glaze: 'Dry glaze',
  lose_glaze: 'Dry glaze',
  mix_glaze: 'Dry glaze',
  receive_materials: 'Dry powder',
  count_material: 'Dry powder',
  use_material: 'Dry powder',
}

/** What the dry part of an estimate is of. */
export function dryNameOf(
  { kind, lines }: Pick<MaterialsTold, 'kind' | 'lines'>,
  holdingId: string,
): string {
  const line = lines.find((one) => one.holdingId === holdingId)
  const isMaterial = line !== undefined && line.materialId !== null
  return DRY_WORDS[kind] ?? (isMaterial ? 'Dry powder' : 'Dry clay')
}

/** The rest of the sentence about an entry that moves materials alone; nothing of any other. */
export function materialWords(
  told: MaterialsTold,
  voice: Voice,
  names: ReadonlyMap<string, string>,
): string | undefined {
  const kind = told.kind === 'reverse' ? told.countsAs : told.kind
  const words = WORDS[kind ?? '']
  const inside = told.lines.filter(({ place }) => isInside(place as Place))
  if (words === undefined) return undefined
  if (kind === 'open_books' && inside.some(({ materialId }) => materialId === null)) {
    return undefined
  }
  const isBack = told.kind === 'reverse'
  return words({ told, voice, names, inside: isBack ? inside.map(turned) : inside })
}

function turned(line: MaterialLine): MaterialLine {
  const { materialGrams, waterGrams, pieces } = line
  const back = (amount: string) => decimal(amount).negated().toFixed()
  return {
    ...line,
    materialGrams: back(materialGrams),
    waterGrams: back(waterGrams),
    pieces: back(pieces),
  }
}

/** `20.00 kg of Flint, 60 of Mug box` */
function amountsOf({ inside, voice, names }: Telling): string {
  return listed(inside.map((line) => `${amountOf(line, voice)} of ${nameOf(line, names)}`))
}

function amountOf({ materialGrams, pieces }: MaterialLine, voice: Voice): string {
  const grams = decimal(materialGrams)
  return grams.isZero() ? decimal(pieces).abs().toFixed() : voice.mass(grams.abs())
}

function mixedWords({ inside, voice, names }: Telling): string {
  const bucket = inside.find(({ place }) => place === 'glaze_bucket')
  if (bucket === undefined) return ''
  const water = decimal(bucket.waterGrams)
  const wet = water.isZero() ? '' : ` with ${voice.mass(water)} of water`
  return `${voice.mass(bucket.materialGrams)} dry${wet}, now in ${nameOf(bucket, names)}`
}

function waterWords({ inside, voice, names }: Telling): string {
  const [bucket] = inside
  if (bucket === undefined) return ''
  const water = decimal(bucket.waterGrams)
  const more = water.greaterThan(0) ? 'more' : 'less'
  return `${voice.mass(water.abs())} of water ${more} in ${nameOf(bucket, names)}`
}

/** What was read or counted, and how it differs from the books. */
function foundWords({ inside, told, voice, names }: Telling): string {
  const [line] = inside
  if (line === undefined) {
    return listed((told.estimates ?? []).flatMap(({ holdingId }) => names.get(holdingId) ?? []))
  }
  const found = decimal(line.materialGrams).plus(line.pieces)
  if (found.isZero()) return `${nameOf(line, names)}, as the books have it`
  const more = found.greaterThan(0) ? 'more' : 'less'
  return `${nameOf(line, names)}, ${amountOf(line, voice)} ${more} than by the books`
}

/** `16 Jug, week 3, 1.28 kg of Ash white (White 20 litre)` */
function glazedWords({ inside, told, voice, names }: Telling): string {
  const pots = inside.filter(({ place }) => place !== 'glaze_bucket')
  const bucket = inside.find(({ place }) => place === 'glaze_bucket')
  const pieces = (told.glazings ?? []).reduce((sum, one) => sum + one.pieces, 0)
  const dryGrams = pots.reduce((sum: Decimal, one) => sum.plus(one.materialGrams), ZERO)
  const many = pieces === 0 ? '' : `${String(pieces)} `
  const of = bucket === undefined ? '' : ` of ${nameOf(bucket, names)}`
  return `${many}${listed(pots.map((one) => nameOf(one, names)))}, ${voice.mass(dryGrams)}${of}`
}

function nameOf({ holdingId, materialId }: MaterialLine, names: ReadonlyMap<string, string>) {
  return names.get(holdingId) ?? materialId ?? ''
}

function listed(words: readonly string[]): string {
  if (words.length <= NAMED_MAX) return words.join(', ')
  const more = String(words.length - NAMED_MAX + 1)
  return `${words.slice(0, NAMED_MAX - 1).join(', ')} and ${more} more`
}
