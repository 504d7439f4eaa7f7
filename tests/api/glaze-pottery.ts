import { and, eq } from 'drizzle-orm'
import { costOfLayer } from '../../shared/cost-layer.ts'
import { decimal } from '../../shared/decimal.ts'
import { doubtBy } from '../../shared/doubt.ts'
import { onShelf } from '../../db/materials.ts'
import { performAct, type Act, type Circumstances } from '../../db/perform.ts'
import { holding, line } from '../../db/schema.ts'
import { g, kg, TEST_NOW } from '../support/studio.ts'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'

interface Stocked extends Circumstances {
  readonly materialId: string
  readonly dryGrams: string
  readonly waterGrams: string
  readonly cost: string
}

/** A powder lands on the shelf, paid for. */
const stocking: Act<Stocked> = {
  kind: 'receive_materials',
  async write(book, { materialId, dryGrams, waterGrams, cost }) {
    const [shelf] = await book.hold([onShelf(materialId)])
    const supplier = await book.outsideLike('supplier', shelf.ref)
    book.shiftExactly(supplier, shelf, {
      materialGrams: decimal(dryGrams),
      waterGrams: decimal(waterGrams),
      ...costOfLayer('glaze', decimal(cost)),
      materialDoubt: doubtBy(book.ownSource('reading'), decimal('10')),
    })
    return {}
  },
}

export async function stock(pottery: Pottery, said: Stocked): Promise<void> {
  const { db, newId } = pottery
  const services = { db, now: () => TEST_NOW, newId }
  await performAct(services, { studioId: STUDIO }, { act: stocking, said })
}

const POWDERS = [
  { materialId: 'feldspar', name: 'Potash feldspar', lossOnIgnitionFraction: '0.005' },
  {
    materialId: 'silica',
    name: 'Flint',
    lossOnIgnitionFraction: '0',
    hazards: [{ hazard: 'silica', statement: 'H372' }],
  },
  { materialId: 'whiting', name: 'Whiting', lossOnIgnitionFraction: '0.44' },
  {
    materialId: 'manganese',
    name: 'Manganese dioxide',
    lossOnIgnitionFraction: '0.1',
    hazards: [{ hazard: 'manganese', statement: 'H302' }],
  },
]

/** Parts by dry mass: 60 and 30 and 10, and half a part of colour on top. */
export const RECIPE = [
  { ingredientId: 'feldspar', parts: '60' },
  { ingredientId: 'silica', parts: '30' },
  { ingredientId: 'whiting', parts: '10' },
  { ingredientId: 'manganese', parts: '0.5', isAddition: true },
]

async function enter(pottery: Pottery, path: string, body: object): Promise<void> {
  const answer = await pottery.ask('POST', path, { body })
  if (answer.status !== 201) throw new Error(`${path}: ${answer.text}`)
}

/** The glaze 'celadon' with its powders on the shelf, its recipe, and sixteen jugs in bisque. */
export async function openGlazePottery(): Promise<Pottery> {
  const pottery = await openPottery()
  for (const powder of POWDERS) {
    await enter(pottery, '/v1/materials', { kind: 'ingredient', keptBy: 'mass', ...powder })
  }
  for (const materialId of ['celadon', 'tenmoku']) {
    const glaze = { materialId, name: materialId, kind: 'glaze', keptBy: 'mass' }
    await enter(pottery, '/v1/materials', glaze)
  }
  const box = { materialId: 'carton', name: 'Carton', kind: 'packaging', keptBy: 'count' }
  await enter(pottery, '/v1/materials', box)
  await enter(pottery, '/v1/forms', { formId: 'jug', name: 'Jug', ballGrams: '1400' })
  const on = { waterGrams: '0' }
  await stock(pottery, { ...on, materialId: 'feldspar', dryGrams: '25000', cost: '45.00' })
  await stock(pottery, { ...on, materialId: 'silica', dryGrams: '10000', cost: '10.00' })
  await stock(pottery, {
    ...{ materialId: 'whiting', dryGrams: '9900', cost: '12.34' },
    waterGrams: '100',
  })
  await stock(pottery, { ...on, materialId: 'manganese', dryGrams: '1000', cost: '9.99' })
  await enter(pottery, '/v1/materials/celadon/recipes', { parts: RECIPE })
  await pottery.does('open-books', {
    items: [
      {
        ...{ what: 'pots', bodyId: 'buff', runId: 'jugs', formId: 'jug', at: 'bisque' },
        ...{ pieces: 16, reading: { net: kg('15.20') }, cost: '16.00' },
      },
      {
        ...{ what: 'pots', bodyId: 'buff', runId: 'mugs', formId: 'mug', at: 'bisque' },
        ...{ pieces: 10, reading: { net: kg('3.00') }, cost: '5.00' },
      },
      {
        ...{ what: 'pots', bodyId: 'buff', runId: 'green', formId: 'mug', at: 'greenware' },
        ...{ pieces: 4, reading: { net: kg('1.50') }, cost: '2.00' },
      },
    ],
  })
  return pottery
}

/** A litre jug of glaze. The handbook reckons with water of 1 g/mL. */
export const jugOf = (grams: string, more: object = {}) => ({
  slurry: { net: g(grams) },
  volume: { value: '1000', unit: 'ml' },
  celsius: '4',
  ...more,
})

/** A bucket and a jug of it. */
export const bucketOf = (kilograms: string, jugGrams = '1450') => ({
  reading: { net: kg(kilograms) },
  density: jugOf(jugGrams),
})

/** A batch of celadon in bucket-3: 9.4 kg dry and as much water. */
export async function mixCeladon({ does }: Pottery): Promise<void> {
  await does('mix-glaze', {
    ...{ glazeId: 'celadon', vesselId: 'bucket-3', dryGrams: '9400' },
    water: kg('9.2'),
  })
}

type Where = Partial<typeof holding.$inferSelect>

async function heldIn({ db }: Pottery, where: Where) {
  const same = Object.entries(where).map(([column, value]) =>
    eq(holding[column as 'place'], value as string),
  )
  const [row] = await db
    .select()
    .from(holding)
    .where(and(eq(holding.studioId, STUDIO), ...same))
  if (row === undefined) throw new Error('there is no such holding')
  return row
}

/** What the books of a glaze pottery have. */
export function glazeBooks(pottery: () => Pottery) {
  const held = (where: Where) => heldIn(pottery(), where)
  return {
    held,
    bucket: () => held({ place: 'glaze_bucket', vesselId: 'bucket-3' }),
    bisque: (runId: string) => held({ place: 'bisque', runId }),
    /** What has gone to a place outside, which keeps no balance. */
    gone: async (place: string) => {
      const { holdingId } = await held({ place, materialId: 'celadon' })
      const rows = await pottery().db.select().from(line).where(eq(line.holdingId, holdingId))
      const sumOf = (column: 'materialGrams' | 'cost') =>
        rows.reduce((sum, row) => sum.plus(row[column]), decimal(0)).toFixed()
      return { materialGrams: sumOf('materialGrams'), cost: sumOf('cost') }
    },
  }
}

/** Sixteen jugs on which glaze from bucket-3 lands. */
export const JUGS = { glazeId: 'celadon', vesselId: 'bucket-3', runs: [{ runId: 'jugs' }] }
export const BY_BUCKET = { before: bucketOf('18.60'), after: bucketOf('16.00') }
export const BY_POTS = { before: { net: kg('15.20') }, after: { net: kg('16.48') } }
