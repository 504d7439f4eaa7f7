import { and, eq } from 'drizzle-orm'
import { closeMonth } from '../acts/close-month.ts'
import { countHolding } from '../acts/count.ts'
import { discard } from '../acts/discard.ts'
import { testDry } from '../acts/dry-test.ts'
import { bisqueFire, glazeFire } from '../acts/fire.ts'
import { gradeRun } from '../acts/grade.ts'
import { breakInShop, giveAway, keepPieces } from '../acts/part-with.ts'
import { rewet } from '../acts/rewet.ts'
import { sell } from '../acts/sell.ts'
import { throwRun } from '../acts/throw.ts'
import { turnRun } from '../acts/turn.ts'
import { wedge } from '../acts/wedge.ts'
import { correctEntry } from '../correct.ts'
import type { Database } from '../connection.ts'
import { performAct } from '../perform.ts'
import { request } from '../schema.ts'
import { dipDay } from './glazing.ts'
import { JAR_BISQUE, JAR_GLAZE } from './kilns.ts'
import type { Hand } from './hand.ts'

/** Two clays are wedged into a blend on purpose, and one large jar is thrown of it. */
export async function throwMoonJar(hand: Hand): Promise<void> {
  const three = { net: { value: '3.00', unit: 'kg' as const }, scaleId: 'platform' }
  await hand.does(['14:00', 'Ines'], wedge, {
    from: [
      { lotId: 'buff-bench', reading: three },
      { lotId: 'white-bench', reading: three },
    ],
    blendBodyId: 'magpie-blend',
    newLotId: 'magpie-lot',
    label: 'Magpie for the moon jar',
  })
  await hand.does(['15:00', 'Ines'], throwRun, {
    formId: 'moon-jar',
    runId: 'moon-jar',
    label: 'Moon jar',
    pieces: 1,
    from: [{ lotId: 'magpie-lot', whatIsLeft: true }],
  })
}

/** The jar is turned; its turnings are of two clays and keep to their own pail. */
export async function turnMoonJar(hand: Hand): Promise<void> {
  await hand.does(['10:00', 'Ines'], turnRun, {
    runId: 'moon-jar',
    vesselId: 'magpie-pail',
    turnings: { net: { value: '0.640', unit: 'kg' }, scaleId: 'bench' },
  })
}

export async function fireMoonJar(hand: Hand): Promise<void> {
  const runs = [{ runId: 'moon-jar' }]
  await hand.does(['12:00', 'Tobin'], bisqueFire, { runs, firing: JAR_BISQUE })
}

export async function glazeMoonJar(hand: Hand): Promise<void> {
  await dipDay(hand, [{ runId: 'moon-jar', formId: 'moon-jar', lotId: 'magpie-lot' }], 'pots')
}

export async function finishMoonJar(hand: Hand): Promise<void> {
  const runs = [{ runId: 'moon-jar' }]
  await hand.does(['12:00', 'Ines'], glazeFire, { runs, firing: JAR_GLAZE })
  await hand.does(['12:10', 'Ines'], gradeRun, {
    runId: 'moon-jar',
    firsts: 1,
    seconds: 0,
    wasters: 0,
  })
  await hand.does(['15:30', 'Ines'], sell, {
    formId: 'moon-jar',
    grade: 'first',
    pieces: 1,
    priceEach: '180.00',
    channel: 'gallery',
  })
}

/** A bag that went hard is stood in water over the week-end. */
export async function softenHardBag(hand: Hand): Promise<void> {
  await hand.does(['16:00', 'Tobin'], rewet, {
    lotId: 'old-white-bags',
    place: 'store',
    water: { value: '900', unit: 'g' },
  })
}

/** A mug is given, one is kept for the kitchen, one falls off the shelf; slops are swept up dirty. */
export async function oddsAndEnds(hand: Hand): Promise<void> {
  const mug = { formId: 'mug', grade: 'first' as const }
  await hand.does(['11:00', 'Ines'], giveAway, {
    ...mug,
    pieces: 2,
    reason: 'raffle for the village hall',
  })
  await hand.does(['11:05', 'Ines'], keepPieces, { ...mug, pieces: 1, reason: 'kitchen' })
  await hand.does(['17:00', 'Tobin'], breakInShop, {
    ...mug,
    pieces: 1,
    reason: 'knocked off the shelf',
  })
  const slops = await hand.holds({ place: 'scrap', vesselId: 'blue-pail' })
  await hand.does(['17:10', 'Tobin'], discard, {
    holdingId: slops.holdingId,
    reading: { net: { value: '0.40', unit: 'kg' }, scaleId: 'bench' },
    reason: 'swept from under the wheel, dirty',
    dryAct: 'sweeping',
  })
}

/** A sale is written down with the wrong price, noticed, taken back and told again. */
export async function mistakenSale(hand: Hand): Promise<void> {
  const sale = { formId: 'mug', grade: 'second' as const, pieces: 1, channel: 'yard door' }
  const wrong = await hand.does(['16:00', 'Tobin'], sell, { ...sale, priceEach: '95.00' })
  const { happenedAt } = wrong.entry
  await correctEntry(
    hand.services,
    { studioId: hand.studioId },
    {
      said: { entryId: wrong.entry.entryId, by: 'Ines', note: 'The price was 9.50.', happenedAt },
      again: { act: sell, said: { ...sale, priceEach: '9.50', by: 'Tobin', happenedAt } },
    },
  )
}

/** The store is counted: a bag more was used than anybody wrote down. */
export async function countStore(hand: Hand, lotId: string): Promise<void> {
  const store = await hand.holds({ place: 'store', lotId })
  await hand.does(['18:00', 'Ines'], countHolding, {
    holdingId: store.holdingId,
    pieces: store.held.pieces.minus(1).toNumber(),
    note: 'One bag fewer than the books say.',
  })
}

export async function closeBooks(hand: Hand, month: string): Promise<void> {
  await hand.does(['19:00', 'Ines'], closeMonth, { month })
}

const LAST_KEY = 'the-demo-is-told-to-its-end'

/** The last act of the story, under a key of its own: where that was used, the story is whole. */
export async function tellTheEnd(hand: Hand, now: Date): Promise<void> {
  const said = {
    bodyId: 'chalk-white',
    state: 'air_dry' as const,
    sample: {
      tin: { value: '16.07', unit: 'g' as const },
      wetWithTin: { value: '66.43', unit: 'g' as const },
      dryWithTin: { value: '65.50', unit: 'g' as const },
    },
    by: 'Ines',
    happenedAt: now.toISOString(),
    note: 'Turnings from the white bucket, overnight by the kiln.',
  }
  const occasion = { studioId: hand.studioId, idempotencyKey: LAST_KEY }
  await performAct(hand.services, occasion, { act: testDry, said })
}

/** True where the demo of that studio was told to its end. */
export async function isToldToItsEnd(db: Database, studioId: string): Promise<boolean> {
  const told = await db
    .select({ key: request.idempotencyKey })
    .from(request)
    .where(and(eq(request.studioId, studioId), eq(request.idempotencyKey, LAST_KEY)))
  return told.length === 1
}
