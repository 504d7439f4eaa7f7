import type { PlaceOutside } from '../../shared/place.ts'
import { count } from '../../shared/quantity.ts'
import type { Mass } from '../../shared/units.ts'
import type { Book, Slot } from '../book.ts'
import { dryGramsOnShelf, refuseOtherMeasure } from '../material-amounts.ts'
import {
  findMaterial,
  handlesMaterials,
  moveCounted,
  moveMaterial,
  onShelf,
  refuseOtherKinds,
} from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeLabel, takeReading, type ReadingSaid } from '../readings.ts'

/** Why a material leaves the shelf, and where to. */
export const USES = {
  into_kiln: 'wear',
  spoiled: 'waste',
  thrown_away: 'waste',
  tested: 'waste',
  given_away: 'customer',
} as const satisfies Readonly<Record<string, PlaceOutside>>
export type Use = keyof typeof USES

export interface UseMaterialSaid extends Circumstances {
  readonly materialId: string
  readonly reading?: ReadingSaid | undefined
  readonly mass?: Mass | undefined
  readonly pieces?: number | undefined
  readonly whatIsLeft?: true | undefined
  readonly why: Use
}

/**
 * A material leaves the shelf for no pot. Shelves and elements that go into the kiln are paid from what
 * its firings were charged for wear; what is spoiled, thrown away or tested is waste.
 */
export const useMaterial: Act<UseMaterialSaid> = {
  kind: 'use_material',
  async write(book, said) {
    const { materialId, why } = said
    const material = await pointingAt('/materialId', () =>
      findMaterial(book.ledger, book.studioId, materialId),
    )
    if (why === 'into_kiln') refuseOtherKinds(material, ['kiln_furniture'], '/materialId')
    refuseOtherMeasure(material, said, '')
    const isPowder = material.kind === 'ingredient' || material.kind === 'glaze'
    handlesMaterials(book, { materials: [material], isDry: isPowder })
    const [from] = await book.hold([onShelf(materialId)])
    const to = await book.outsideOfMaterial(USES[why], materialId)
    await take(book, said, { from, to })
    return { holdingId: from.holdingId }
  },
}

async function take(book: Book, said: UseMaterialSaid, { from, to }: { from: Slot; to: Slot }) {
  const { pieces, reading, mass } = said
  if (pieces !== undefined) {
    await pointingAt('/pieces', () => moveCounted(book, { from, to, pieces: count(pieces) }))
  } else if (reading === undefined && mass === undefined) {
    book.moveAll(from, to)
  } else {
    const pointer = reading === undefined ? '/mass' : '/reading'
    const read =
      mass === undefined
        ? await takeReading(book, reading ?? {}, { pointer, kind: 'powder' })
        : await takeLabel(book, mass, pointer)
    const dryGrams = dryGramsOnShelf(book.now(from), read.netGrams)
    await pointingAt(pointer, () =>
      moveMaterial(book, { from, to, dryGrams, readingDoubt: read.netDoubt }),
    )
  }
}
