import { closeMonth } from '../../db/acts/close-month.ts'
import { countHolding } from '../../db/acts/count.ts'
import { discard } from '../../db/acts/discard.ts'
import { testDry } from '../../db/acts/dry-test.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { openBooks, type OpeningItem } from '../../db/acts/open-books.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { rewet } from '../../db/acts/rewet.ts'
import { wedge } from '../../db/acts/wedge.ts'
import type { ClaySourceSaid } from '../../db/clay-sources.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import type { Place } from '../../shared/place.ts'
import type { Dice } from '../support/arbitraries.ts'
import { deedOf, type DeedMaker } from './deed.ts'
import { gramsOf, partOf, priceOf, readingOf, someGrams, waterOf } from './said.ts'
import { clayAt, piecesAt, type View } from './view.ts'

export const BODIES = ['buff', 'buff', 'white', 'buff', 'pepper'] as const
const BUCKETS = ['bucket-1', 'bucket-2', 'bucket-3'] as const

/** A body, now and then one that the studio does not have. */
export function bodyIn(dice: Dice): string {
  return dice.isOnceIn(25) ? 'no-body' : dice.pick(BODIES)
}

/** A bucket, now and then a basin or one that the studio does not have. */
export function bucketIn(dice: Dice): string {
  if (dice.isOnceIn(15)) return dice.pick(['no-vessel', 'basin-1'])
  return dice.pick(BUCKETS)
}

/** The bucket that holds the same clay, or none, so that most of what is done may be. */
export function bucketFor(view: View, bodyId: string, dice: Dice): string {
  if (dice.isOnceIn(8)) return bucketIn(dice)
  const others = view.holdings.filter((held) => held.bodyId !== bodyId && !held.dryGrams.isZero())
  const fit = BUCKETS.filter((bucket) => !others.some((held) => held.vesselId === bucket))
  return dice.pickOr(fit, 'bucket-1')
}

/** A declared blend, rarely one that is none. */
export function blendIn(dice: Dice, oneIn: number): string | undefined {
  if (!dice.isOnceIn(oneIn)) return undefined
  return dice.pick(['pepper', 'pepper', 'white'])
}

/** Clay on the bench: balls, a weigh-in, or what is left. */
export function sourceOf(view: View, dice: Dice): ClaySourceSaid {
  const clay = dice.isOnceIn(20) ? undefined : dice.pickOr(clayAt(view, 'bench'), undefined)
  const lotId = clay?.lotId ?? dice.pickOr(view.lots, { lotId: 'no-lot' }).lotId
  const wetGrams = clay?.wetGrams ?? someGrams(dice, 5000)
  if (dice.isOnceIn(5)) return { lotId, whatIsLeft: true }
  if (dice.isOnceIn(3)) return { lotId, reading: readingOf(partOf(wetGrams, dice), dice) }
  const balls = 1 + dice.roll(8)
  const oneGrams = partOf(wetGrams, dice).dividedBy(balls)
  return { lotId, balls, ballMass: gramsOf(oneGrams, dice.pick([0, 1, 6])) }
}

/** A new lot's id is mostly made; rarely somebody names one that there is. */
export function newLotIn(view: View, dice: Dice): { newLotId?: string; intoLotId?: string } {
  const lot = dice.pickOr(view.lots, undefined)
  if (lot === undefined) return {}
  if (dice.isOnceIn(4)) return { intoLotId: lot.lotId }
  return dice.isOnceIn(20) ? { newLotId: lot.lotId } : {}
}

const open: DeedMaker = (view, dice) => {
  const items: OpeningItem[] = []
  const pieces: Partial<Record<Place, number>> = {}
  for (let left = 1 + dice.roll(3); left > 0; left -= 1) {
    const { item, at, count } = openingItem(view, dice)
    items.push(item)
    if (at === undefined) continue
    pieces[at] = (pieces[at] ?? 0) + count
    pieces.before = (pieces.before ?? 0) - count
  }
  const bought = items.map((item) => item.cost ?? '0')
  return deedOf(dice, { act: openBooks, said: { items } }, { pieces, bought })
}

function openingItem(
  view: View,
  dice: Dice,
): { item: OpeningItem; at: Place | undefined; count: number } {
  const bodyId = bodyIn(dice)
  const reading = readingOf(someGrams(dice, 9000), dice)
  const cost = dice.isOnceIn(3) ? undefined : priceOf(dice)
  const known = { bodyId, reading, water: waterOf(dice), cost }
  const count = 1 + dice.roll(6)
  const pots = {
    ...known,
    what: 'pots' as const,
    formId: dice.pick(['mug', 'plate']),
    pieces: count,
  }
  const finished = {
    ...pots,
    at: 'finished' as const,
    grade: dice.pick(['first', 'second'] as const),
  }
  const { at } = { at: dice.pick(['bisque', 'greenware', 'glazed'] as const) }
  const ways: readonly [OpeningItem, ...OpeningItem[]] = [
    { ...known, what: 'clay' },
    { ...known, what: 'bags', bags: count },
    {
      ...known,
      what: 'bags',
      bags: count,
      reading: undefined,
      bagMass: { value: '25', unit: 'lb' },
    },
    { ...known, what: 'scrap', vesselId: bucketFor(view, bodyId, dice) },
    { ...known, what: 'basin', vesselId: dice.pick(['basin-1', 'basin-2']) },
    { ...known, what: 'load', batId: dice.pick(['bat-a', 'bat-b', 'no-bat']) },
    finished,
    { ...pots, at },
    { ...finished, reading: undefined },
  ]
  const item = dice.pick(ways)
  if (item.what === 'bags') return { item, at: 'store', count }
  return { item, at: item.what === 'pots' ? item.at : undefined, count }
}

const receive: DeedMaker = (_view, dice) => {
  const clays = Array.from({ length: 1 + dice.roll(2) }, () => {
    const bags = 1 + dice.roll(10)
    const price = priceOf(dice)
    const water = waterOf(dice)
    return dice.isOnceIn(3)
      ? {
          bodyId: bodyIn(dice),
          bags,
          price,
          water,
          reading: readingOf(someGrams(dice, 9999), dice),
        }
      : { bodyId: bodyIn(dice), bags, price, bagMass: { value: '12.5', unit: 'kg' as const } }
  })
  const freight = dice.isOnceIn(2) ? undefined : priceOf(dice)
  const bags = clays.reduce((sum, clay) => sum + clay.bags, 0)
  return deedOf(
    dice,
    { act: receiveDelivery, said: { clays, freight } },
    {
      pieces: { store: bags, supplier: -bags },
      bought: [...clays.map((clay) => clay.price), freight ?? '0'],
    },
  )
}

const openSome: DeedMaker = (view, dice) => {
  const store = dice.pickOr(piecesAt(view, 'store'), undefined)
  const lotId = store?.lotId ?? dice.pickOr(view.lots, { lotId: 'no-lot' }).lotId
  const there = store?.pieces ?? 1
  const bags = dice.pick([1, there, 1 + dice.roll(there + 1)])
  const bagGrams = store?.wetGrams.times(bags).dividedBy(there) ?? someGrams(dice, 9000)
  const reading = dice.isOnceIn(2) ? readingOf(bagGrams, dice) : undefined
  const said = { lotId, bags, reading, ...newLotIn(view, dice) }
  return deedOf(dice, { act: openBag, said }, { pieces: { store: -bags, hands: bags } })
}

const wedgeSome: DeedMaker = (view, dice) => {
  const from = Array.from({ length: 1 + dice.roll(2) }, () => sourceOf(view, dice))
  const scrap = dice.isOnceIn(3) ? dice.pickOr(clayAt(view, 'scrap'), undefined) : undefined
  const powder = { name: 'grog', reading: readingOf(someGrams(dice, 500), dice) }
  const additions = dice.isOnceIn(3) ? [{ ...powder, price: priceOf(dice) }] : undefined
  const said = {
    from: scrap !== undefined && dice.isOnceIn(2) ? [] : from,
    fromVesselIds: scrap === undefined ? undefined : [scrap.vesselId ?? ''],
    additions,
    water: dice.isOnceIn(4) ? gramsOf(someGrams(dice, 500), 0) : undefined,
    reading: dice.isOnceIn(4) ? readingOf(someGrams(dice, 9000), dice) : undefined,
    blendBodyId: blendIn(dice, 3),
  }
  const bought = (additions ?? []).map(({ price }) => price)
  return deedOf(dice, { act: wedge, said }, { pieces: {}, bought })
}

const rewetSome: DeedMaker = (view, dice) => {
  const clay = dice.pickOr(clayAt(view, 'bench', 'store'), undefined)
  const lotId = clay?.lotId ?? 'no-lot'
  const place = clay?.place === 'store' ? ('store' as const) : ('bench' as const)
  const drop = { value: '0.0000001', unit: 'g' as const }
  const water = dice.isOnceIn(15) ? drop : gramsOf(someGrams(dice, 900), 0)
  return deedOf(dice, { act: rewet, said: { lotId, place, water } })
}

const dryTest: DeedMaker = (view, dice) => {
  const lot = dice.isOnceIn(3) ? undefined : dice.pickOr(view.lots, undefined)
  const isOfLot = lot !== undefined && !dice.isOnceIn(6)
  const tens = (tenths: number) => ({ value: (tenths / 10).toFixed(1), unit: 'g' as const })
  const sample = { tin: tens(200), wetWithTin: tens(1200), dryWithTin: tens(960 + dice.roll(50)) }
  const driedOut = {
    tin: tens(200),
    wetWithTin: tens(1200),
    dryWithTin: tens(dice.pick([200, 1201])),
  }
  const said = {
    bodyId: lot?.bodyId ?? bodyIn(dice),
    lotId: lot?.lotId,
    state: isOfLot ? dice.pick(['wedged', 'as_delivered'] as const) : dice.pick(CLAY_STATES),
    sample: dice.isOnceIn(15) ? driedOut : sample,
  }
  return deedOf(dice, { act: testDry, said })
}

const INSIDE_WITH_CLAY: readonly Place[] = [
  ...(['bench', 'scrap', 'basin', 'plaster', 'store', 'greenware', 'bisque', 'finished'] as const),
]

const throwAway: DeedMaker = (view, dice) => {
  const loose = clayAt(view, ...INSIDE_WITH_CLAY).filter((held) => held.pieces === 0)
  const held = dice.isOnceIn(10) ? undefined : dice.pickOr(loose, undefined)
  const holdingId = held?.holdingId ?? dice.pickOr(view.holdings, { holdingId: 'none' }).holdingId
  const grams = partOf(held?.wetGrams ?? someGrams(dice, 100), dice)
  const reading = dice.isOnceIn(3) ? undefined : readingOf(grams, dice)
  return deedOf(dice, { act: discard, said: { holdingId, reading, reason: 'plaster in it' } })
}

const count: DeedMaker = (view, dice) => {
  const some = view.holdings.filter((held) => held.isInside || dice.isOnceIn(60))
  const held = dice.pickOr(some, undefined)
  if (held === undefined) {
    return deedOf(dice, { act: countHolding, said: { holdingId: 'none', pieces: 1 } })
  }
  const { holdingId, place, pieces: there } = held
  const pieces = there === 0 || dice.isOnceIn(3) ? undefined : dice.roll(there + 3)
  const grams = held.wetGrams.isZero() ? someGrams(dice, 99) : partOf(held.wetGrams, dice)
  const isWeighed = pieces === undefined || (pieces > 0 && dice.isOnceIn(3))
  const reading = isWeighed ? readingOf(grams, dice) : undefined
  const more = pieces === undefined ? 0 : pieces - there
  return deedOf(
    dice,
    { act: countHolding, said: { holdingId, pieces, reading, water: waterOf(dice) } },
    { pieces: { [place]: more, unexplained: -more }, isImpossible: !held.isInside },
  )
}

const close: DeedMaker = (_view, dice) => {
  const month = dice.pick(['2026-03', '2026-04', '2026-06', '2026-05'])
  return deedOf(dice, { act: closeMonth, said: { month } })
}

export const DEEDS_OF_CLAY = {
  open_books: open,
  receive_delivery: receive,
  open_bag: openSome,
  wedge: wedgeSome,
  rewet: rewetSome,
  dry_test: dryTest,
  discard: throwAway,
  count,
  close_month: close,
} as const satisfies Record<string, DeedMaker>
