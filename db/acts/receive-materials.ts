import { present } from '../../shared/assert.ts'
import { costOfLayer } from '../../shared/cost-layer.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { shareOut } from '../../shared/money.ts'
import { quantities } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { amountHeld, takeAmount, type Amount, type AmountSaid } from '../material-amounts.ts'
import { findMaterial, handlesMaterials, onShelf, type MaterialFacts } from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt } from '../readings.ts'
import { materialDelivery } from '../schema.ts'
import type { WaterSaid } from '../water-figures.ts'

export interface DeliveredMaterial extends AmountSaid {
  readonly materialId: string
  readonly water?: WaterSaid | undefined
  /** Without freight. */
  readonly price: string
  readonly label?: string | undefined
}

export interface ReceiveMaterialsSaid extends Circumstances {
  readonly materials: readonly DeliveredMaterial[]
  readonly freight?: string | undefined
}

interface Delivered {
  readonly said: DeliveredMaterial
  readonly material: MaterialFacts
  readonly amount: Amount
}

/**
 * Powders, boxes, shelves and gas come from the supplier and join what is on the shelf at the moving
 * average. Freight is spread by mass where all that came is weighed, and else by price, for boxes and
 * kilograms have no common measure.
 */
export const receiveMaterials: Act<ReceiveMaterialsSaid> = {
  kind: 'receive_materials',
  async write(book, said) {
    refuseNamedTwice(said.materials)
    const delivered: Delivered[] = []
    for (const [index, one] of said.materials.entries()) {
      delivered.push(await takeOne(book, one, `/materials/${String(index)}`))
    }
    const materials = delivered.map(({ material }) => material)
    for (const isDry of [true, false]) {
      const handled = delivered.filter((one) => isDryWork(one) === isDry)
      handlesMaterials(book, { materials: handled.map(({ material }) => material), isDry })
    }
    const slots = await book.hold(materials.map(({ materialId }) => onShelf(materialId)))
    const { by, weights } = weightsOf(delivered)
    const freights = shareOut(decimal(said.freight ?? '0'), weights)
    for (const [index, one] of delivered.entries()) {
      const slot = present(slots[index], 'each material has its place on the shelf')
      const freight = present(freights[index], 'each material has its freight')
      await shelve(book, { ...one, slot, freight })
    }
    return {
      materialIds: materials.map(({ materialId }) => materialId),
      holdingIds: slots.map(({ holdingId }) => holdingId),
      ...(said.freight === undefined ? {} : { freightSharedBy: by }),
    }
  },
}

async function takeOne(book: Book, said: DeliveredMaterial, pointer: string): Promise<Delivered> {
  const material = await pointingAt(`${pointer}/materialId`, () =>
    findMaterial(book.ledger, book.studioId, said.materialId),
  )
  const amount = await takeAmount(book, material, { said, water: said.water, pointer })
  return { said, material, amount }
}

/** Each material has one line of a delivery. Refuses: `material_must_be_told_as_it_is_kept`. */
function refuseNamedTwice(materials: readonly DeliveredMaterial[]): void {
  const ids = materials.map(({ materialId }) => materialId)
  const again = ids.findIndex((id, index) => ids.indexOf(id) !== index)
  if (again === -1) return
  const materialId = present(ids[again], 'it was found')
  throw new Refusal(
    'material_must_be_told_as_it_is_kept',
    `'${materialId}' is named twice in this delivery. Name it once, with all that came of it.`,
    { pointer: `/materials/${String(again)}/materialId`, facts: { materialId } },
  )
}

/** A powder that is weighed is out of its bag; by its label it stays shut. */
function isDryWork({ said, material }: Delivered): boolean {
  return said.reading !== undefined && (material.kind === 'ingredient' || material.kind === 'glaze')
}

/** What freight goes by. Units: grams as supplied, or money. */
function weightsOf(delivered: readonly Delivered[]): { by: 'mass' | 'price'; weights: Decimal[] } {
  const masses = delivered.flatMap(({ amount }) =>
    amount.keptBy === 'mass' ? [amount.reading.netGrams] : [],
  )
  return masses.length === delivered.length
    ? { by: 'mass', weights: masses }
    : { by: 'price', weights: delivered.map(({ said }) => decimal(said.price)) }
}

async function shelve(book: Book, one: Delivered & { slot: Slot; freight: Decimal }) {
  const { said, material, amount, slot, freight } = one
  const price = decimal(said.price)
  const supplier = await book.outsideOfMaterial('supplier', material.materialId)
  const cost = costOfLayer(material.layer, price.plus(freight))
  book.shift({ from: supplier, to: slot, what: quantities({ ...amountHeld(amount), ...cost }) })
  if (amount.keptBy === 'mass') {
    const { estimate, reading } = amount
    book.estimated({ slot, of: 'delivered', estimate, weighingNo: reading.weighingNo })
  }
  await book.ledger.insert(materialDelivery).values({
    ...{ studioId: book.studioId, entryId: book.facts.entryId, materialId: material.materialId },
    ...rowOf(amount),
    goodsPrice: price.toFixed(),
    freight: freight.toFixed(),
    label: said.label,
  })
}

function rowOf(amount: Amount) {
  if (amount.keptBy === 'count') return { pieces: amount.pieces.toFixed() }
  const { reading, estimate } = amount
  return { wetGrams: reading.netGrams.toFixed(), dryGrams: estimate.dryGrams.toFixed() }
}
