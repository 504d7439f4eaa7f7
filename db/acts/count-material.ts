import { present } from '../../shared/assert.ts'
import { NO_DOUBT } from '../../shared/doubt.ts'
import { count } from '../../shared/quantity.ts'
import { ZERO } from '../../shared/decimal.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { refuseOtherMeasure, takePowder } from '../material-amounts.ts'
import {
  findMaterial,
  handlesMaterials,
  onShelf,
  settleCounted,
  settleMaterial,
  type MaterialFacts,
} from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import type { WaterSaid } from '../water-figures.ts'

export interface CountMaterialSaid extends Circumstances {
  readonly holdingId?: string | undefined
  /** The material on the shelf. */
  readonly materialId?: string | undefined
  readonly reading?: ReadingSaid | undefined
  readonly water?: WaterSaid | undefined
  readonly pieces?: number | undefined
  readonly nothingLeft?: true | undefined
}

/** What is on the shelf is weighed or counted; what differs from the books is unexplained. */
export const countMaterial: Act<CountMaterialSaid> = {
  kind: 'count_material',
  async write(book, said) {
    const slot = await slotOf(book, said)
    const materialId = present(slot.ref.materialId, 'what is on the shelf is of a material')
    const material = await findMaterial(book.ledger, book.studioId, materialId)
    refuseOtherMeasure(material, said, '')
    if (material.keptBy === 'count') {
      const words = await settleCounted(book, slot, count(said.pieces ?? 0))
      return { holdingId: slot.holdingId, ...(words.length === 0 ? {} : { words }) }
    }
    await weigh(book, slot, { material, said })
    return { holdingId: slot.holdingId }
  },
}

async function slotOf(book: Book, said: CountMaterialSaid): Promise<Slot> {
  const { materialId, holdingId } = said
  if (materialId !== undefined) {
    await pointingAt('/materialId', () => findMaterial(book.ledger, book.studioId, materialId))
    const [slot] = await book.hold([onShelf(materialId)])
    return slot
  }
  const slot = await pointingAt('/holdingId', () =>
    book.holdOneById(present(holdingId, 'the door asks for one of the two')),
  )
  if (slot.ref.place === 'materials') return slot
  throw new Refusal(
    'material_must_be_of_the_kind',
    slot.ref.place === 'glaze_bucket'
      ? 'That is a glaze in its bucket: read it with read-glaze.'
      : 'That is clay: count it with count.',
    { pointer: '/holdingId', facts: { place: slot.ref.place } },
  )
}

async function weigh(
  book: Book,
  slot: Slot,
  { material, said }: { material: MaterialFacts; said: CountMaterialSaid },
): Promise<void> {
  handlesMaterials(book, { materials: [material], isDry: material.kind !== 'fuel' })
  if (said.reading === undefined) {
    await settleMaterial(book, slot, { dryGrams: ZERO, dryDoubt: NO_DOUBT, waterGrams: ZERO })
    return
  }
  const reading = await takeReading(book, said.reading, { pointer: '/reading', kind: 'powder' })
  const { estimate } = await takePowder(book, material, { reading, water: said.water, pointer: '' })
  await settleMaterial(book, slot, estimate)
  book.estimated({ slot, of: 'counted', estimate, weighingNo: reading.weighingNo })
}
