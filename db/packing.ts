import { decimal, toLedgerScale, type Decimal } from '../shared/decimal.ts'
import type { Doubt } from '../shared/doubt.ts'
import { count } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Mass } from '../shared/units.ts'
import type { Book } from './book.ts'
import type { Transaction } from './connection.ts'
import { dryGramsOnShelf, refuseOtherMeasure } from './material-amounts.ts'
import {
  findMaterial,
  moveCounted,
  moveMaterial,
  onShelf,
  refuseOtherKinds,
  type MaterialFacts,
} from './materials.ts'
import { pointingAt, takeLabel } from './readings.ts'

/** What goes with each sold piece of a form: pieces of what is counted, grams as supplied of what is weighed. */
export interface PackingPart {
  readonly materialId: string
  readonly perPiece: string
}

/**
 * Asks that what a form is packed in is there and is packaging.
 *
 * Refuses: `material_not_found`, `material_must_be_of_the_kind`, each at the line that names it.
 */
export async function refuseWrongPacking(
  ledger: Transaction,
  studioId: string,
  packing: readonly PackingPart[],
): Promise<void> {
  for (const [index, { materialId }] of packing.entries()) {
    const pointer = `/packing/${String(index)}/materialId`
    const found = await pointingAt(pointer, () => findMaterial(ledger, studioId, materialId))
    refuseOtherKinds(found, ['packaging'], pointer)
  }
}

/** What a sale was packed in: as the form usually is, or as is said. */
export type PackingSaid = 'as_usual' | readonly PackedIn[]

export interface PackedIn {
  readonly materialId: string
  readonly pieces?: number | undefined
  readonly mass?: Mass | undefined
}

interface Packed {
  readonly material: MaterialFacts
  readonly pointer: string
  /** Pieces, or grams as supplied. */
  readonly amount: Decimal
  readonly readingDoubt?: Doubt
}

/**
 * Packaging goes out of the door with what was sold; gives what of.
 *
 * As usual: the form's packing times the pieces; of what is counted, a box that is begun is a box.
 *
 * Refuses: `material_not_found`, `material_must_be_of_the_kind`, `material_must_be_told_as_it_is_kept`,
 * `pieces_must_be_enough`, `material_must_be_enough`.
 */
export async function packSold(
  book: Book,
  sold: { packing: PackingSaid; usual: readonly PackingPart[]; pieces: number },
): Promise<string[]> {
  const packed =
    sold.packing === 'as_usual' ? await asUsual(book, sold) : await asSaid(book, sold.packing)
  await book.hold(packed.map(({ material }) => onShelf(material.materialId)))
  for (const one of packed) await takeOff(book, one)
  return packed.map(({ material }) => material.materialId)
}

async function asUsual(
  book: Book,
  { usual, pieces }: { usual: readonly PackingPart[]; pieces: number },
): Promise<Packed[]> {
  if (usual.length === 0) {
    throw new Refusal(
      'material_must_be_told_as_it_is_kept',
      'Nothing says what this form is usually packed in. Give the form its packing, or name the boxes that it went in.',
      { pointer: '/packing' },
    )
  }
  const packed: Packed[] = []
  for (const { materialId, perPiece } of usual) {
    const material = await findMaterial(book.ledger, book.studioId, materialId)
    const exact = decimal(perPiece).times(pieces)
    const amount = material.keptBy === 'count' ? exact.ceil() : toLedgerScale(exact)
    packed.push({ material, pointer: '/packing', amount })
  }
  return packed
}

async function asSaid(book: Book, packing: readonly PackedIn[]): Promise<Packed[]> {
  const packed: Packed[] = []
  for (const [index, said] of packing.entries()) {
    const at = `/packing/${String(index)}`
    const material = await pointingAt(`${at}/materialId`, () =>
      findMaterial(book.ledger, book.studioId, said.materialId),
    )
    refuseOtherKinds(material, ['packaging'], `${at}/materialId`)
    refuseOtherMeasure(material, said, at)
    if (said.mass === undefined) {
      packed.push({ material, pointer: `${at}/pieces`, amount: count(said.pieces ?? 0) })
      continue
    }
    const { netGrams, netDoubt } = await takeLabel(book, said.mass, `${at}/mass`)
    packed.push({ material, pointer: `${at}/mass`, amount: netGrams, readingDoubt: netDoubt })
  }
  return packed
}

async function takeOff(book: Book, packed: Packed): Promise<void> {
  const { material, pointer, amount, readingDoubt } = packed
  const { materialId, keptBy } = material
  const [from] = await book.hold([onShelf(materialId)])
  const to = await book.outsideOfMaterial('customer', materialId)
  await pointingAt(pointer, () => {
    if (keptBy === 'count') return moveCounted(book, { from, to, pieces: amount })
    const dryGrams = dryGramsOnShelf(book.now(from), amount)
    return moveMaterial(book, { from, to, dryGrams, readingDoubt })
  })
}
