import { toLedgerScale, ZERO, type Decimal } from '../../shared/decimal.ts'
import { doubtBy, doubtOfPart, standardUncertaintyOfDoubt, type Doubt } from '../../shared/doubt.ts'
import { glazeShares } from '../../shared/glaze-shares.ts'
import { materialByMeasure } from '../../shared/parting.ts'
import { count } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { bucketIn, handlesGlaze, type GlazeBucket } from '../glaze-bucket.ts'
import { findBucketDrop, type BucketDropSaid } from '../glaze-drop.ts'
import {
  findOnPots,
  glazeOnPots,
  type PotsToGlaze,
  type PotsWeighedSaid,
} from '../glaze-on-pots.ts'
import { glazeOfForm, knownGlazeOfForm } from '../glaze-learned.ts'
import { settleMaterial } from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf, refuseMoreThanThere } from '../pots.ts'
import { pointingAt } from '../readings.ts'
import { glazing } from '../schema.ts'
import { findRun } from '../studio.ts'

export interface GlazeSaid extends Circumstances {
  readonly glazeId: string
  readonly vesselId: string
  readonly runs: readonly { readonly runId: string; readonly pieces?: number | undefined }[]
  /** The bucket, before and after. */
  readonly bucket?: BucketDropSaid | undefined
  /** The pots, before and after. With the bucket too, both tell what was carried off. */
  readonly pots?: PotsWeighedSaid | undefined
  /** Nothing was weighed: as much as a piece of the form usually takes. */
  readonly usual?: true | undefined
}

/** Glaze as it lands on one run. */
interface Coat {
  readonly pots: PotsToGlaze
  readonly dryGrams: Decimal
  readonly dryDoubt: Doubt
}

/** What was found: what landed where, what was carried off, and the bucket as it was read afterwards. */
interface Found {
  readonly how: 'bucket' | 'pieces' | 'usual'
  readonly coats: readonly Coat[]
  readonly pointer: string
  readonly words: readonly string[]
  readonly carriedOff?: { readonly dryGrams: Decimal; readonly dryDoubt: Doubt }
  readonly after?: { dryGrams: Decimal; dryDoubt: Doubt; waterGrams: Decimal }
}

/**
 * Bisque pots are glazed: dry glaze leaves its bucket and is on the pots, with its cost and its doubt; its
 * water goes into the air. What was carried off goes to waste.
 *
 * The coat is on the pots of a run together: where only some of them got it, the run's holding carries it
 * all the same, and each of its pots bears its share. Runs that are glazed twice carry both coats.
 */
export const glazePots: Act<GlazeSaid> = {
  kind: 'glaze',
  async write(book, said) {
    const { glazeId, vesselId } = said
    const bucket = await bucketIn(book, vesselId, glazeId)
    const pots = await potsToGlaze(book, said)
    const found = await find(book, said, { bucket, pots })
    await coat(book, bucket, found)
    await keepGlazings(book, said, { bucket, found })
    await handlesGlaze(book, bucket)
    const total = found.coats.reduce((sum, { dryGrams }) => sum.plus(dryGrams), ZERO)
    return {
      ...{ glazeId, vesselId, how: found.how, dryGrams: total.toFixed() },
      runIds: said.runs.map(({ runId }) => runId),
      dryGramsByRun: found.coats.map(({ dryGrams }) => dryGrams.toFixed()),
      carriedOffDryGrams: (found.carriedOff?.dryGrams ?? ZERO).toFixed(),
      words: [...found.words],
    }
  },
}

async function potsToGlaze(book: Book, said: GlazeSaid): Promise<PotsToGlaze[]> {
  const refs = []
  for (const [index, { runId }] of said.runs.entries()) {
    const pointer = `/runs/${String(index)}/runId`
    refs.push(await pointingAt(pointer, () => potsOf(book, { runId, place: 'bisque' })))
  }
  const slots = await book.hold(refs)
  const pots: PotsToGlaze[] = []
  for (const [index, { runId, pieces }] of said.runs.entries()) {
    const slot = slots[index] as Slot
    const there = book.now(slot).pieces
    const wanted = pieces === undefined ? there : count(pieces)
    const field = pieces === undefined ? 'runId' : 'pieces'
    refuseMoreThanThere(book, slot, {
      pieces: wanted.isZero() ? count(1) : wanted,
      doing: 'glazed: they must be bisque',
      pointer: `/runs/${String(index)}/${field}`,
    })
    const { formId } = await findRun(book.ledger, book.studioId, runId)
    pots.push({ runId, formId, slot, pieces: wanted })
  }
  return pots
}

interface Work {
  readonly bucket: GlazeBucket
  readonly pots: readonly PotsToGlaze[]
}

async function find(book: Book, said: GlazeSaid, work: Work): Promise<Found> {
  const { bucket, pots } = work
  if (said.bucket !== undefined) {
    const drop = await findBucketDrop(book, said.bucket, bucket)
    const weighed = said.pots === undefined ? undefined : await findOnPots(book, said.pots, pots)
    const landed = glazeOnPots(drop, { weighed, washedOff: said.bucket.washedOffDryGrams })
    const shared = await shareOut(book, said, { pots, onPots: landed.onPots })
    return {
      ...{ how: weighed === undefined ? 'bucket' : 'pieces', coats: shared.coats },
      pointer: weighed === undefined ? '/bucket/after' : '/pots/after',
      words: [...landed.words, ...shared.words],
      ...(landed.carriedOff === undefined ? {} : { carriedOff: landed.carriedOff }),
      after: drop.after,
    }
  }
  if (said.pots === undefined) return asUsual(book, said, pots)
  const weighed = await findOnPots(book, said.pots, pots)
  const shared = await shareOut(book, said, { pots, onPots: weighed.onPots })
  const words = [...weighed.words, ...shared.words]
  return { how: 'pieces', coats: shared.coats, pointer: '/pots/after', words }
}

/** Nothing was weighed: what a piece of each form usually takes. */
async function asUsual(book: Book, said: GlazeSaid, pots: readonly PotsToGlaze[]): Promise<Found> {
  const coats: Coat[] = []
  const words: string[] = []
  for (const [index, one] of pots.entries()) {
    const each = await knownGlazeOfForm(book.ledger, book.studioId, {
      ...{ formId: one.formId, glazeId: said.glazeId, pointer: `/runs/${String(index)}/runId` },
    })
    const unsure = each.nextUncertaintyGrams.times(one.pieces)
    coats.push({
      pots: one,
      dryGrams: toLedgerScale(each.dryGramsPerPiece.times(one.pieces)),
      dryDoubt: doubtBy(book.ownSource('guess'), unsure),
    })
    words.push(each.words)
  }
  return { how: 'usual', coats, pointer: '/usual', words: [...new Set(words)] }
}

/** The glaze of runs that were glazed together, on each of them. */
async function shareOut(
  book: Book,
  said: GlazeSaid,
  of: {
    pots: readonly PotsToGlaze[]
    onPots: { dryGrams: Decimal; dryDoubt: Doubt }
  },
): Promise<{ coats: Coat[]; words: readonly string[] }> {
  const { pots, onPots } = of
  const runs = []
  for (const { runId, formId, slot, pieces } of pots) {
    const { glazeId } = said
    const usual = await glazeOfForm(book.ledger, book.studioId, { formId, glazeId })
    const held = book.now(slot)
    const potsDryGrams = held.dryGrams.times(pieces).dividedBy(held.pieces)
    runs.push({ runId, pieces, usualDryGramsPerPiece: usual?.dryGramsPerPiece, potsDryGrams })
  }
  const { shares, words } = glazeShares(onPots.dryGrams, runs)
  const coats = pots.map((one, index) => {
    const dryGrams = shares[index]?.dryGrams ?? ZERO
    const share = { part: dryGrams, whole: onPots.dryGrams }
    return { pots: one, dryGrams, dryDoubt: doubtOfPart(onPots.dryDoubt, share) }
  })
  return { coats, words: pots.length > 1 ? [words] : [] }
}

/** Moves what was found. */
async function coat(book: Book, bucket: GlazeBucket, found: Found): Promise<void> {
  const { slot } = bucket
  const air = await book.outsideLike('air', slot.ref)
  const carried = found.carriedOff
  const waste = await book.outsideLike('waste', slot.ref)
  const parts = [
    ...found.coats.map(({ pots, dryGrams, dryDoubt }) => ({ to: pots.slot, dryGrams, dryDoubt })),
    ...(carried === undefined ? [] : [{ to: waste, ...carried }]),
  ]
  const wanted = parts.reduce((sum, { dryGrams }) => sum.plus(dryGrams), ZERO)
  refuseMoreThanInBucket(book, slot, { wanted, pointer: found.pointer })
  for (const { to, dryGrams, dryDoubt } of parts) {
    if (dryGrams.isZero()) continue
    const what = materialByMeasure(book.now(slot), { dryGrams, dryDoubt })
    book.shift({ from: slot, to, what: { ...what, waterGrams: ZERO } })
    // A bucket that was read afterwards tells its own water.
    if (found.after !== undefined) continue
    book.shiftExactly(slot, air, { waterGrams: what.waterGrams })
  }
  if (found.after !== undefined) await settleMaterial(book, slot, found.after)
}

function refuseMoreThanInBucket(
  book: Book,
  slot: Slot,
  asked: { wanted: Decimal; pointer: string },
): void {
  const { wanted, pointer } = asked
  const held = book.now(slot).materialGrams
  if (wanted.lessThanOrEqualTo(held)) return
  throw new Refusal(
    'material_must_be_enough',
    `By the books the bucket holds ${held.toDecimalPlaces(1).toFixed()} g of dry glaze; ${wanted.toDecimalPlaces(1).toFixed()} g were to go on these pots. Read the bucket, or tell what was mixed into it.`,
    {
      pointer,
      facts: { heldDryGrams: held.toFixed(), wantedDryGrams: wanted.toFixed() },
    },
  )
}

async function keepGlazings(
  book: Book,
  said: GlazeSaid,
  of: { bucket: GlazeBucket; found: Found },
): Promise<void> {
  const { bucket, found } = of
  const rows = found.coats
    .filter(({ dryGrams }) => dryGrams.greaterThan(0))
    .map(({ pots, dryGrams, dryDoubt }) => ({
      studioId: book.studioId,
      entryId: book.facts.entryId,
      runId: pots.runId,
      materialId: said.glazeId,
      pieces: pots.pieces.toNumber(),
      dryGrams: dryGrams.toFixed(),
      standardUncertaintyGrams: standardUncertaintyOfDoubt(dryDoubt).toFixed(),
      lossOnIgnitionFraction: toLedgerScale(bucket.nature.lossOnIgnitionFraction).toFixed(),
      how: found.how,
    }))
  if (rows.length > 0) await book.ledger.insert(glazing).values(rows)
}
