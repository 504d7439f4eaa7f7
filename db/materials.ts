import { and, eq } from 'drizzle-orm'
import { eachLayer, type CostLayer } from '../shared/cost-layer.ts'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { doubtOfDifference, type Doubt } from '../shared/doubt.ts'
import { foundDifference, MATERIAL_FOUND, piecesFound } from '../shared/found-difference.ts'
import { hazardCautions } from '../shared/hazard-cautions.ts'
import { withSilicaOf, type StatedHazard } from '../shared/material-hazards.ts'
import {
  LAYER_OF_KIND,
  MATERIAL_KIND_WORDS,
  type KeptBy,
  type MaterialKind,
} from '../shared/material.ts'
import {
  countedPart,
  materialByMeasure,
  materialByShare,
  materialFound,
} from '../shared/parting.ts'
import { PLACE_WORDS, type PlaceOutside } from '../shared/place.ts'
import { proportionalPart, type Quantities } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import type { Transaction } from './connection.ts'
import type { HoldingRef } from './holdings.ts'
import { kiln, material } from './schema.ts'

export interface MaterialFacts {
  readonly materialId: string
  readonly name: string
  readonly kind: MaterialKind
  readonly keptBy: KeptBy
  readonly layer: CostLayer
  readonly waterContentWetBasis: Decimal
  readonly lossOnIgnitionFraction: Decimal
  readonly grainGramsPerMillilitre: Decimal
  /** What one bag or carton holds: grams as supplied, or pieces. */
  readonly packSize: Decimal | undefined
  readonly hazards: readonly StatedHazard[]
}

/** The material of that id, of this studio. Refuses: `material_not_found`. */
export async function findMaterial(
  ledger: Transaction,
  studioId: string,
  materialId: string,
): Promise<MaterialFacts> {
  const [row] = await ledger
    .select()
    .from(material)
    .where(and(eq(material.studioId, studioId), eq(material.materialId, materialId)))
  if (row === undefined) {
    throw new Refusal(
      'material_not_found',
      `There is no material '${materialId}' in this studio.`,
      {
        facts: { id: materialId },
      },
    )
  }
  const kind = row.kind as MaterialKind
  return {
    ...{ materialId, name: row.name, kind, keptBy: row.keptBy as KeptBy },
    layer: LAYER_OF_KIND[kind],
    waterContentWetBasis: decimal(row.waterContentWetBasis),
    lossOnIgnitionFraction: decimal(row.lossOnIgnitionFraction),
    grainGramsPerMillilitre: decimal(row.grainGramsPerMillilitre),
    packSize: row.packSize === null ? undefined : decimal(row.packSize),
    hazards: withSilicaOf(row.hazards as readonly StatedHazard[], row.crystallineSilicaFraction),
  }
}

/** Refuses a material that is not of one of the kinds that an act works on: `material_must_be_of_the_kind`. */
export function refuseOtherKinds(
  found: MaterialFacts,
  kinds: readonly MaterialKind[],
  pointer: string,
): void {
  if (kinds.includes(found.kind)) return
  const wanted = kinds.map((kind) => MATERIAL_KIND_WORDS[kind]).join(' or ')
  throw new Refusal(
    'material_must_be_of_the_kind',
    `'${found.materialId}' is ${MATERIAL_KIND_WORDS[found.kind]}; this asks for ${wanted}.`,
    { pointer, facts: { materialId: found.materialId, kind: found.kind } },
  )
}

/** The kiln of that id, of this studio. Refuses: `kiln_not_found`. */
export async function findKiln(ledger: Transaction, studioId: string, kilnId: string) {
  const [row] = await ledger
    .select()
    .from(kiln)
    .where(and(eq(kiln.studioId, studioId), eq(kiln.kilnId, kilnId)))
  if (row !== undefined) return row
  throw new Refusal('kiln_not_found', `There is no kiln '${kilnId}' in this studio.`, {
    facts: { id: kilnId },
  })
}

/** The name of the holding of a material on the shelf. */
export function onShelf(materialId: string): HoldingRef {
  return { place: 'materials', bodyId: '', materialId }
}

/** The name of the holding of a glaze in a bucket. */
export function inBucket(materialId: string, vesselId: string): HoldingRef {
  return { place: 'glaze_bucket', bodyId: '', materialId, vesselId }
}

/** Refuses a holding of materials where clay is meant: `material_must_be_of_the_kind`. */
export function refuseMaterials({ ref }: Slot): void {
  if (ref.materialId === undefined) return
  const act = ref.place === 'glaze_bucket' ? 'read-glaze' : 'count-material or use-material'
  throw new Refusal(
    'material_must_be_of_the_kind',
    `That is '${ref.materialId}' (${PLACE_WORDS[ref.place]}) and no clay. Tell it by ${act}.`,
    { pointer: '/holdingId', facts: { materialId: ref.materialId } },
  )
}

/**
 * Moves dry material out of a holding as a share of it, with its water, cost and doubt; as unsure as the
 * reading of how much left, where one says.
 *
 * Units: grams dry. Refuses: `material_must_be_enough`.
 */
export function moveMaterial(
  book: Book,
  move: { from: Slot; to: Slot; dryGrams: Decimal; readingDoubt?: Doubt | undefined },
): Quantities {
  const { from, to, readingDoubt } = move
  const dryGrams = enough(book, from, move.dryGrams)
  const what = materialByShare(book.now(from), { dryGrams, readingDoubt })
  book.shift({ from, to, what })
  return what
}

/** Moves a measured amount of dry material: it is as unsure as its measurement. Refuses: as above. */
export function moveMeasuredMaterial(
  book: Book,
  move: { from: Slot; to: Slot; dryGrams: Decimal; dryDoubt: Doubt },
): Quantities {
  const { from, to, dryDoubt } = move
  const dryGrams = enough(book, from, move.dryGrams)
  const what = materialByMeasure(book.now(from), { dryGrams, dryDoubt })
  book.shift({ from, to, what })
  return what
}

/** Moves things that are counted. Refuses: `pieces_must_be_enough`. */
export function moveCounted(
  book: Book,
  move: { from: Slot; to: Slot; pieces: Decimal },
): Quantities {
  const { from, to, pieces } = move
  const held = book.now(from)
  if (pieces.greaterThan(held.pieces)) {
    throw new Refusal(
      'pieces_must_be_enough',
      `There are ${held.pieces.toFixed()} of '${from.ref.materialId ?? ''}' here; ${pieces.toFixed()} were to leave. If there are more, enter their delivery or count them.`,
      { facts: { holdingId: from.holdingId, held: held.pieces.toFixed() } },
    )
  }
  const what = countedPart(held, pieces)
  book.shift({ from, to, what })
  return what
}

/** Asked before a share is worked out, so that the refusal speaks of the material. */
function enough(book: Book, from: Slot, dryGrams: Decimal): Decimal {
  const held = book.now(from)
  if (dryGrams.lessThanOrEqualTo(held.materialGrams)) return dryGrams
  throw new Refusal(
    'material_must_be_enough',
    `There are ${held.materialGrams.toDecimalPlaces(1).toFixed()} g of '${from.ref.materialId ?? 'glaze'}', dry, here; ${dryGrams.toDecimalPlaces(1).toFixed()} g were to leave. If there is more, enter its delivery or count it.`,
    {
      facts: {
        holdingId: from.holdingId,
        heldDryGrams: held.materialGrams.toFixed(),
        wantedDryGrams: dryGrams.toFixed(),
      },
    },
  )
}

/**
 * Brings a holding of a material to what was measured of the whole of it; the difference goes to, or comes
 * from, `counterpart`, at the holding's own cost a gram, and its water to or from the air and the tap.
 *
 * Gives what was found beyond the books. Units: grams dry.
 */
export async function settleMaterial(
  book: Book,
  slot: Slot,
  measured: {
    dryGrams: Decimal
    dryDoubt: Doubt
    waterGrams: Decimal
    counterpart?: PlaceOutside
  },
): Promise<Decimal> {
  const held = book.now(slot)
  const { dryGrams, dryDoubt, waterGrams, counterpart = 'unexplained' } = measured
  const surplus = dryGrams.minus(held.materialGrams)
  const other = await book.outsideLike(counterpart, slot.ref)
  if (surplus.lessThan(0)) {
    const doubt = doubtOfDifference(held.materialDoubt, dryDoubt)
    const what = materialByMeasure(held, { dryGrams: surplus.negated(), dryDoubt: doubt })
    book.shift({ from: slot, to: other, what })
  } else {
    book.shift({ from: other, to: slot, what: materialFound(held, { dryGrams, dryDoubt }) })
  }
  if (!surplus.isZero()) {
    const doubt = doubtOfDifference(dryDoubt, held.materialDoubt)
    book.differences.push(
      foundDifference(slot.holdingId, { amount: surplus, doubt }, MATERIAL_FOUND),
    )
  }
  await book.wetTo(slot, waterGrams)
  return surplus
}

/**
 * Brings a holding of things that are counted to what was counted; the difference goes to, or comes from,
 * `unexplained`, each at the holding's own cost.
 *
 * Gives what differs from the books, in words; nothing where nothing does. Units: pieces.
 */
export async function settleCounted(
  book: Book,
  slot: Slot,
  pieces: Decimal,
): Promise<readonly string[]> {
  const held = book.now(slot)
  const surplus = pieces.minus(held.pieces)
  const other = await book.outsideLike('unexplained', slot.ref)
  if (surplus.lessThan(0)) moveCounted(book, { from: slot, to: other, pieces: surplus.negated() })
  else if (surplus.greaterThan(0)) {
    const share = { part: surplus, whole: held.pieces }
    // Where the books have none there is no cost to go by, and what was found has none.
    const cost = eachLayer(held, (amount) => proportionalPart({ amount, ...share }))
    book.shiftExactly(other, slot, { pieces: surplus, ...cost })
  }
  return piecesFound(surplus, held.pieces)
}

/** Notes what the data sheets of materials that are handled state: cautions follow, before the press. */
export function handlesMaterials(
  book: Book,
  handled: { materials: readonly MaterialFacts[]; isDry: boolean },
): void {
  const cautions = hazardCautions({
    materials: handled.materials.map(({ name, hazards }) => ({ name, statedHazards: hazards })),
    isDry: handled.isDry,
    jurisdiction: book.facts.studio.jurisdiction,
  })
  for (const caution of cautions) {
    if (!book.cautions.some((said) => said.why === caution.why)) book.cautions.push(caution)
  }
}
