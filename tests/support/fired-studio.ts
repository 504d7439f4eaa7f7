import { bisqueFire, glazeFire } from '../../db/acts/fire.ts'
import { giveAway } from '../../db/acts/part-with.ts'
import { gradeRun } from '../../db/acts/grade.ts'
import { losePieces } from '../../db/acts/lose.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { sell } from '../../db/acts/sell.ts'
import { throwRun } from '../../db/acts/throw.ts'
import type { Book } from '../../db/book.ts'
import { connect } from '../../db/connection.ts'
import { inBucket, onShelf } from '../../db/materials.ts'
import type { Act, Circumstances } from '../../db/perform.ts'
import { potsOf } from '../../db/pots.ts'
import { firing, firingShare, glazing, kiln, material, materialDelivery } from '../../db/schema.ts'
import { costOfLayer, type CostLayer } from '../../shared/cost-layer.ts'
import { decimal } from '../../shared/decimal.ts'
import type { EntryKind } from '../../shared/entry-kind.ts'
import { TEST_NOW, g, kg, type TestStudio } from './studio.ts'

const wet = (content: string) => ({ content, basis: 'wet' as const, standing: 'measured' as const })
export const on = (day: string) => `2026-${day}T10:00:00+01:00`

/** Something that is posted by hand, as an act would, whichever acts there are. */
export function posting(kind: EntryKind, write: (book: Book) => Promise<void>): Act<Circumstances> {
  return {
    kind,
    async write(book) {
      await write(book)
      return {}
    },
  }
}

const money = (layer: CostLayer, amount: string) => costOfLayer(layer, decimal(amount))

/**
 * A studio whose pots carry clay, glaze, fire and wear, in figures that are easily worked out by hand.
 *
 * April: clay for 36 (16 kg dry), of which ten mugs take 3200 g and 7.20. Feldspar 10 kg for 20, ten boxes for 5, four
 * kiln shelves for 40. The bisque fire costs 5 and 1 of wear; two mugs are lost in it and leave 2.64 to eight. 2 kg of
 * feldspar make a glaze for 4, of which 400 g for 0.80 land on the eight. The glaze fire costs 8 and 1.60 of wear. A
 * mug has then cost 2.95: 0.90 clay, 0.10 glaze, 1.625 fire and 0.325 wear. An empty kiln burns 3, one shelf goes in.
 * May: four are sold at 24, each in a box; one is given away; one is lost beyond what is usual.
 */
export async function fillFiredStudio(studio: TestStudio): Promise<void> {
  await catalogueOf(studio)
  await clayAndMaterials(studio)
  await mugsInApril(studio)
  await shopInMay(studio)
}

async function catalogueOf({ url, studioId }: TestStudio): Promise<void> {
  const { db, close } = connect(url)
  const thing = { studioId, changedAt: TEST_NOW }
  const hazards = [
    {
      hazard: 'crystalline_silica',
      statement: 'Contains quartz.',
      percentage: { from: '6', to: '8' },
    },
  ]
  await db.insert(material).values([
    {
      ...{ ...thing, materialId: 'feldspar', name: 'Feldspar', kind: 'ingredient', keptBy: 'mass' },
      ...{ reorderPoint: '9000', packSize: '25000', hazards, supplier: 'Marl & Sons' },
      priceSteps: [
        { atLeast: '1', pricePerUnit: '2' },
        { atLeast: '25', pricePerUnit: '1.5' },
      ],
    },
    { ...thing, materialId: 'clear', name: 'Clear glaze', kind: 'glaze', keptBy: 'mass' },
    {
      ...{ ...thing, materialId: 'box', name: 'Mug box', kind: 'packaging', keptBy: 'count' },
      reorderPoint: '2',
    },
    { ...thing, materialId: 'shelf', name: 'Shelf', kind: 'kiln_furniture', keptBy: 'count' },
  ])
  await db.insert(kiln).values({
    ...{ ...thing, kilnId: 'big', name: 'Big kiln', volumeLitres: '200', shareBy: 'count' },
    pricePerKilowattHour: '0.25',
  })
  await close()
}

async function clayAndMaterials({ does }: TestStudio): Promise<void> {
  await does(receiveDelivery, {
    happenedAt: on('04-01'),
    clays: [
      { bodyId: 'buff', lotId: 'bags', bags: 2, bagMass: kg('10'), water: wet('0.2'), price: '32' },
    ],
    freight: '4',
  })
  await does(openBag, { happenedAt: on('04-01'), lotId: 'bags', bags: 2, newLotId: 'opened' })
  await does(bought('feldspar', { layer: 'glaze', cost: '20', grams: '10000' }), {
    happenedAt: on('04-02'),
  })
  await does(bought('box', { layer: 'packaging', cost: '5', pieces: '10' }), {
    happenedAt: on('04-02'),
  })
  await does(bought('shelf', { layer: 'wear', cost: '40', pieces: '4' }), {
    happenedAt: on('04-02'),
  })
}

interface Bought {
  readonly layer: CostLayer
  readonly cost: string
  readonly grams?: string
  readonly pieces?: string
}

function bought(materialId: string, { layer, cost, grams, pieces }: Bought) {
  return posting('receive_materials', async (book) => {
    const [shelf] = await book.hold([onShelf(materialId)])
    const supplier = await book.outsideOfMaterial('supplier', materialId)
    book.shiftExactly(supplier, shelf, {
      materialGrams: decimal(grams ?? '0'),
      pieces: decimal(pieces ?? '0'),
      ...money(layer, cost),
    })
    await book.ledger.insert(materialDelivery).values({
      ...{ studioId: book.studioId, entryId: book.facts.entryId, materialId },
      ...{ wetGrams: grams, dryGrams: grams, pieces, goodsPrice: cost, freight: '0' },
    })
  })
}

async function mugsInApril({ does }: TestStudio): Promise<void> {
  const runs = [{ runId: 'mugs' }]
  await does(throwRun, {
    ...{ happenedAt: on('04-03'), formId: 'mug', runId: 'mugs' },
    from: [{ lotId: 'opened', balls: 10, ballMass: g('400') }],
  })
  await does(charged('bisque', { pieces: 10, kWh: '20', fire: '5', wear: '1', full: '0.5' }), {
    happenedAt: on('04-10'),
    runs,
  })
  await does(losePieces, {
    ...{ happenedAt: on('04-10'), runId: 'mugs', pieces: 2, stage: 'bisque_firing' },
    cause: 'cracked',
  })
  await does(mixed, { happenedAt: on('04-11') })
  await does(coated, { happenedAt: on('04-12') })
  await does(charged('glaze', { pieces: 8, kWh: '32', fire: '8', wear: '1.6', full: '0.8' }), {
    happenedAt: on('04-20'),
    runs,
  })
  await does(idle, { happenedAt: on('04-21') })
  await does(shelfIntoKiln, { happenedAt: on('04-22') })
  await does(gradeRun, {
    ...{ happenedAt: on('04-23'), runId: 'mugs', firsts: 8, seconds: 0, wasters: 0 },
  })
}

interface Charge {
  readonly pieces: number
  readonly kWh: string
  readonly fire: string
  readonly wear: string
  readonly full: string
}

function charged(kind: 'bisque' | 'glaze', charge: Charge): typeof bisqueFire {
  const fire = kind === 'bisque' ? bisqueFire : glazeFire
  return {
    kind: fire.kind,
    async write(book, said) {
      const made = await fire.write(book, said)
      const place = kind === 'bisque' ? 'bisque' : 'glazed'
      const [pots] = await book.hold([await potsOf(book, { runId: 'mugs', place })])
      const { bodyId } = pots.ref
      const from = async (place: 'utility' | 'wear') => book.outside(place, bodyId)
      book.shiftExactly(await from('utility'), pots, money('fire', charge.fire))
      book.shiftExactly(await from('wear'), pots, money('wear', charge.wear))
      await fired(book, kind, charge)
      await book.ledger.insert(firingShare).values({
        ...{ studioId: book.studioId, entryId: book.facts.entryId, runId: 'mugs' },
        ...{ pieces: charge.pieces, weight: String(charge.pieces) },
        ...{ energyCost: charge.fire, wearCost: charge.wear },
      })
      return made
    },
  }
}

async function fired(
  book: Book,
  kind: 'bisque' | 'glaze' | 'empty',
  charge: Omit<Charge, 'pieces' | 'full'> & { full?: string },
) {
  await book.ledger.insert(firing).values({
    ...{ studioId: book.studioId, entryId: book.facts.entryId, kilnId: 'big', kind },
    ...{ how: 'meter', standing: 'measured', relativeUncertainty: '0.01' },
    ...{ kilowattHours: charge.kWh, candlingKilowattHours: '4', candlingCost: '1' },
    ...{ pricePerKilowattHour: '0.25', energyCost: charge.fire, wearCost: charge.wear },
    ...(charge.full === undefined ? {} : { fullFraction: charge.full, fullHow: 'said' }),
  })
}

const mixed = posting('mix_glaze', async (book) => {
  const [shelf, bucket] = await book.hold([onShelf('feldspar'), inBucket('clear', 'bucket-3')])
  book.shiftExactly(shelf, bucket, { materialGrams: decimal(2000), ...money('glaze', '4') })
})

const coated = posting('glaze', async (book) => {
  const pots = await potsOf(book, { runId: 'mugs', place: 'bisque' })
  const [bucket, mugs] = await book.hold([inBucket('clear', 'bucket-3'), pots])
  book.shiftExactly(bucket, mugs, { materialGrams: decimal(400), ...money('glaze', '0.8') })
  await book.ledger.insert(glazing).values({
    ...{ studioId: book.studioId, entryId: book.facts.entryId, runId: 'mugs' },
    ...{ materialId: 'clear', pieces: 8, dryGrams: '400', standardUncertaintyGrams: '0' },
    ...{ lossOnIgnitionFraction: '0', how: 'bucket' },
  })
})

const idle = posting('fire_empty', async (book) => {
  const from = await book.outside('utility', 'buff')
  book.shiftExactly(from, await book.outside('idle', 'buff'), money('fire', '3'))
  await fired(book, 'empty', { kWh: '12', fire: '3', wear: '0' })
})

const shelfIntoKiln = posting('use_material', async (book) => {
  const [shelf] = await book.hold([onShelf('shelf')])
  const wear = await book.outsideOfMaterial('wear', 'shelf')
  book.shiftExactly(shelf, wear, { pieces: decimal(1), ...money('wear', '10') })
})

async function shopInMay({ does }: TestStudio): Promise<void> {
  await does(inBoxes, {
    ...{ happenedAt: on('05-02'), formId: 'mug', grade: 'first', pieces: 4 },
    ...{ priceEach: '24', channel: 'shop' },
  })
  await does(giveAway, { happenedAt: on('05-03'), formId: 'mug', grade: 'first', pieces: 1 })
  await does(lostBeyondUsual, { happenedAt: on('05-04') })
}

const inBoxes: typeof sell = {
  kind: 'sell',
  async write(book, said) {
    const made = await sell.write(book, said)
    const [boxes] = await book.hold([onShelf('box')])
    const door = await book.outsideOfMaterial('customer', 'box')
    book.shiftExactly(boxes, door, { pieces: decimal(4), ...money('packaging', '2') })
    return made
  },
}

const lostBeyondUsual = posting('lose', async (book) => {
  const pots = await potsOf(book, { runId: 'mugs', place: 'finished', grade: 'first' })
  const [mugs] = await book.hold([pots])
  const { bodyId } = mugs.ref
  const held = book.now(mugs)
  const third = (amount: typeof held.cost) => amount.dividedBy(3)
  const costLayers = new Map([...held.costLayers].map(([layer, cost]) => [layer, third(cost)]))
  book.shiftExactly(mugs, await book.outside('waste', bodyId), {
    ...{ dryGrams: third(held.dryGrams), materialGrams: third(held.materialGrams) },
    pieces: decimal(1),
  })
  book.shiftExactly(mugs, await book.outside('abnormal', bodyId), {
    cost: third(held.cost),
    costLayers,
  })
})
