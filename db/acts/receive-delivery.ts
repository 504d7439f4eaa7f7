import { present } from '../../shared/assert.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import type { DryMassEstimate } from '../../shared/dry-mass.ts'
import { shareOut } from '../../shared/money.ts'
import { count, quantities } from '../../shared/quantity.ts'
import type { Mass } from '../../shared/units.ts'
import type { Book } from '../book.ts'
import { makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { takeLabel, takeReading, type ReadingSaid } from '../readings.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'

export interface DeliveredClay {
  readonly bodyId: string
  readonly lotId?: string | undefined
  readonly label?: string | undefined
  readonly bags: number
  /** What a bag's label says, or the reading of all the bags together. */
  readonly bagMass?: Mass | undefined
  readonly reading?: ReadingSaid | undefined
  readonly water?: WaterSaid | undefined
  readonly price: string
}

export interface DeliverySaid extends Circumstances {
  readonly clays: readonly DeliveredClay[]
  readonly freight?: string | undefined
}

/**
 * Bags come from the supplier: each clay becomes a lot in the store with its price and its share of
 * the freight, which is spread over the dry clay of this delivery alone.
 */
export const receiveDelivery: Act<DeliverySaid> = {
  kind: 'receive_delivery',
  async write(book, said) {
    const estimates: { estimate: DryMassEstimate; weighingNo: number }[] = []
    for (const [index, clay] of said.clays.entries()) {
      estimates.push(await estimateClay(book, clay, `/clays/${String(index)}`))
    }
    const freights = shareOut(
      decimal(said.freight ?? '0'),
      estimates.map(({ estimate }) => estimate.dryGrams),
    )
    const lotIds: string[] = []
    for (const [index, clay] of said.clays.entries()) {
      const { estimate, weighingNo } = present(estimates[index], 'each clay has its estimate')
      lotIds.push(
        await storeClay(book, {
          clay,
          estimate,
          weighingNo,
          freight: present(freights[index], 'each clay has its freight'),
        }),
      )
    }
    return { lotIds }
  },
}

async function estimateClay(book: Book, clay: DeliveredClay, pointer: string) {
  const reading =
    clay.reading === undefined
      ? await takeLabel(book, timesBags(clay), `${pointer}/bagMass`)
      : await takeReading(book, clay.reading, { pointer: `${pointer}/reading` })
  const estimate = await dryMassOfReading(book, {
    reading,
    said: clay.water,
    state: 'as_delivered',
    bodyId: clay.bodyId,
    pointer: `${pointer}/water`,
  })
  return { estimate, weighingNo: reading.weighingNo }
}

function timesBags(clay: DeliveredClay): Mass {
  const { value, unit } = present(clay.bagMass, 'a clay without a reading has the mass of a bag')
  return { value: decimal(value).times(clay.bags).toFixed(), unit }
}

async function storeClay(
  book: Book,
  stored: { clay: DeliveredClay; estimate: DryMassEstimate; weighingNo: number; freight: Decimal },
): Promise<string> {
  const { clay, estimate, weighingNo, freight } = stored
  const price = decimal(clay.price)
  const lotId = await makeLot(book, {
    lotId: clay.lotId,
    kind: 'delivery',
    bodyId: clay.bodyId,
    label: clay.label ?? `${String(clay.bags)} bags of ${clay.bodyId}`,
    bags: clay.bags,
    goodsPrice: price,
    freight,
    dryGramsAtFirst: estimate.dryGrams,
  })
  const supplier = await book.outside('supplier', clay.bodyId)
  const [store] = await book.hold([{ place: 'store', bodyId: clay.bodyId, lotId }])
  const { dryGrams, waterGrams, dryDoubt } = estimate
  const bought = quantities({
    dryGrams,
    waterGrams,
    pieces: count(clay.bags),
    cost: price.plus(freight),
    dryDoubt,
  })
  book.shift({ from: supplier, to: store, what: bought })
  book.estimated({ slot: store, of: 'delivered', estimate, weighingNo: weighingNo })
  return lotId
}
