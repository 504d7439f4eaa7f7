import { inArray, and, eq, gt } from 'drizzle-orm'
import { present } from '../shared/assert.ts'
import type { Decimal } from '../shared/decimal.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import type { HoldingRef } from './holdings.ts'
import { holding, lot, run } from './schema.ts'
import { pointingAt } from './readings.ts'
import { findBody, findLot, findVessel } from './studio.ts'

export interface NewLot {
  readonly lotId?: string | undefined
  readonly kind: 'delivery' | 'opened' | 'load' | 'reclaimed' | 'wedged' | 'earlier'
  readonly bodyId: string
  readonly label: string
  readonly batId?: string
  readonly bags?: number
  readonly goodsPrice?: Decimal
  readonly freight?: Decimal
  readonly dryGramsAtFirst?: Decimal
  readonly thicknessMillimetres?: Decimal | undefined
}

/** Enters a lot of clay that this act made; gives its id. Refuses: `name_must_be_new`. */
export async function makeLot(book: Book, made: NewLot): Promise<string> {
  const lotId = made.lotId ?? book.facts.newId()
  await book.ledger.insert(lot).values({
    studioId: book.studioId,
    lotId,
    kind: made.kind,
    bodyId: made.bodyId,
    label: made.label,
    madeByEntryId: book.facts.entryId,
    batId: made.batId ?? null,
    bags: made.bags ?? null,
    goodsPrice: made.goodsPrice?.toFixed() ?? null,
    freight: made.freight?.toFixed() ?? null,
    dryGramsAtFirst: made.dryGramsAtFirst?.toFixed() ?? null,
    thicknessMillimetres: made.thicknessMillimetres?.toFixed() ?? null,
  })
  return lotId
}

/**
 * The lot on the bench that clay of a body joins: one that lies there, of the same body.
 *
 * Refuses: `lot_not_found`, `bodies_must_not_mix_unless_declared`.
 */
export async function benchLotFor(book: Book, lotId: string, bodyId: string): Promise<string> {
  return pointingAt('/intoLotId', async () => {
    const goal = await findLot(book.ledger, book.studioId, lotId)
    if (goal.kind === 'load' || goal.kind === 'delivery') {
      throw new Refusal(
        'lot_not_found',
        `'${lotId}' is a ${goal.kind} and lies on no bench. Name a lot that was opened, reclaimed or wedged, or none.`,
      )
    }
    if (goal.bodyId !== bodyId) {
      throw new Refusal(
        'bodies_must_not_mix_unless_declared',
        `This clay is '${bodyId}' and that lot is '${goal.bodyId}'. Keep them apart, or wedge the two into a declared blend.`,
      )
    }
    return goal.lotId
  })
}

/** Enters a run of pieces that this act began; gives its id. Refuses: `name_must_be_new`. */
export async function makeRun(
  book: Book,
  made: { runId?: string | undefined; formId: string; bodyId: string; label: string },
): Promise<string> {
  const runId = made.runId ?? book.facts.newId()
  await book.ledger.insert(run).values({
    studioId: book.studioId,
    runId,
    formId: made.formId,
    bodyId: made.bodyId,
    label: made.label,
    thrownAt: book.facts.happenedAt,
    maker: book.facts.by ?? null,
    madeByEntryId: book.facts.entryId,
  })
  return runId
}

/** Where clay is put: a vessel at one of the two wet places, and the clay that it is to hold. */
export interface IntoVessel {
  readonly place: 'scrap' | 'basin'
  readonly vesselId: string
  readonly bodyIds: readonly string[]
  /** The blend that the vessel holds from now on, where two clays meet in it on purpose. */
  readonly blendBodyId?: string | undefined
  readonly pointer: string
}

/**
 * The name of the holding that a vessel's clay goes into, with the holdings of other clays that are
 * in the vessel now and become the declared blend.
 *
 * Refuses: `vessel_not_found`, `body_not_found`, `bodies_must_not_mix_unless_declared`.
 */
export async function vesselFor(
  book: Book,
  into: IntoVessel,
): Promise<{ ref: HoldingRef; blending: string[] }> {
  const { place, vesselId, pointer, blendBodyId } = into
  await findVessel(book.ledger, book.studioId, vesselId)
  const inside = await contentsOf(book, vesselId)
  const meeting = [...new Set([...into.bodyIds, ...inside.map((found) => found.bodyId)])]
  const bodyId = blendBodyId ?? present(into.bodyIds[0], 'clay that arrives is of a body')
  const body = await findBody(book.ledger, book.studioId, bodyId)
  const isMix = meeting.some((met) => met !== bodyId)
  if (isMix && (blendBodyId === undefined || !body.isBlend)) {
    throw new Refusal(
      'bodies_must_not_mix_unless_declared',
      `In that vessel ${meeting.map((met) => `'${met}'`).join(' and ')} would meet. Use another vessel, or name in blendBodyId a body that is declared as a blend.`,
      { pointer, facts: { vesselId, bodies: meeting.join(', ') } },
    )
  }
  const others = inside.filter((found) => found.bodyId !== bodyId)
  return { ref: { place, vesselId, bodyId }, blending: others.map((other) => other.holdingId) }
}

/** Puts what else is in the vessel into the blend that it becomes. */
export function blendInto(book: Book, slot: Slot, blending: readonly Slot[]): void {
  for (const other of blending) book.moveAll(other, slot)
}

/** The holding that a vessel holds at a place. Refuses: `vessel_not_found`, `clay_must_be_enough`. */
export async function contentOf(
  book: Book,
  asked: { vesselId: string; place: 'scrap' | 'basin'; pointer: string },
): Promise<Slot> {
  await pointingAt(asked.pointer, () => findVessel(book.ledger, book.studioId, asked.vesselId))
  const found = (await contentsOf(book, asked.vesselId)).find((one) => one.place === asked.place)
  if (found === undefined) {
    throw new Refusal(
      'clay_must_be_enough',
      `By the books there is no clay in that vessel (${asked.place}). If there is, weigh it in or count it first.`,
      { pointer: asked.pointer, facts: { vesselId: asked.vesselId } },
    )
  }
  return book.holdOneById(found.holdingId)
}

/** What a vessel holds, by the tables and by what this very act has put into it or taken out. */
async function contentsOf(book: Book, vesselId: string) {
  const rows = await book.ledger
    .select({ holdingId: holding.holdingId, bodyId: holding.bodyId, place: holding.place })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, book.studioId),
        eq(holding.vesselId, vesselId),
        gt(holding.dryGrams, '0'),
      ),
    )
    .orderBy(holding.holdingId)
  const touched = book.heldWhere((ref) => ref.vesselId === vesselId)
  const untouched = rows.filter((row) => !touched.some((slot) => slot.holdingId === row.holdingId))
  const filled = touched
    .filter((slot) => slot.held.dryGrams.greaterThan(0))
    .map(({ holdingId, ref }) => ({ holdingId, bodyId: ref.bodyId, place: ref.place }))
  return [...untouched.map((row) => ({ ...row, bodyId: row.bodyId ?? '' })), ...filled]
}

/** The ids of a run's holdings that hold pieces, in the order in which pots pass. */
export async function holdingsOfRuns(book: Book, runIds: readonly string[]): Promise<string[]> {
  const rows = await book.ledger
    .select({ holdingId: holding.holdingId })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, book.studioId),
        inArray(holding.runId, [...runIds]),
        gt(holding.pieces, '0'),
      ),
    )
    .orderBy(holding.holdingId)
  return rows.map((row) => row.holdingId)
}
