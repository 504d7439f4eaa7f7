import { present } from '../../shared/assert.ts'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import type { DryMassEstimate } from '../../shared/dry-mass.ts'
import type { ClayState } from '../../shared/moisture.ts'
import type { Grade, PotPlace } from '../../shared/place.ts'
import { count, quantities } from '../../shared/quantity.ts'
import type { Mass } from '../../shared/units.ts'
import { refuseLoadedBat } from '../bats.ts'
import type { Book } from '../book.ts'
import type { HoldingRef } from '../holdings.ts'
import { blendInto, makeLot, makeRun, vesselFor } from '../making.ts'
import { openMaterials, type OpeningMaterial } from '../material-openings.ts'
import type { Act, Circumstances } from '../perform.ts'
import { takeLabel, takeReading, type Reading, type ReadingSaid } from '../readings.ts'
import { findBat, findBody, findForm } from '../studio.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'
import { guessedPots } from '../pots.ts'

interface Opening {
  readonly bodyId: string
  readonly reading?: ReadingSaid | undefined
  readonly water?: WaterSaid | undefined
  /** What it cost, where that is known; nothing otherwise. */
  readonly cost?: string | undefined
}

export type OpeningItem = Opening &
  (
    | {
        readonly what: 'bags'
        readonly lotId?: string | undefined
        readonly label?: string | undefined
        readonly bags: number
        readonly bagMass?: Mass | undefined
      }
    | {
        readonly what: 'clay'
        readonly lotId?: string | undefined
        readonly label?: string | undefined
        readonly reading: ReadingSaid
      }
    | {
        readonly what: 'scrap' | 'basin'
        readonly vesselId: string
        readonly state?: ClayState | undefined
        readonly reading: ReadingSaid
      }
    | {
        readonly what: 'load'
        readonly lotId?: string | undefined
        readonly batId: string
        readonly reading: ReadingSaid
      }
    | {
        readonly what: 'pots'
        readonly runId?: string | undefined
        readonly label?: string | undefined
        readonly formId: string
        readonly at: PotPlace
        readonly grade?: Grade | undefined
        readonly pieces: number
      }
  )

export interface OpenBooksSaid extends Circumstances {
  readonly items: readonly OpeningItem[]
  readonly materials?: readonly OpeningMaterial[] | undefined
}

type ItemOf<What extends OpeningItem['what']> = Extract<OpeningItem, { what: What }>

interface Opened {
  readonly ref: HoldingRef
  readonly estimate: DryMassEstimate
  readonly reading: Reading | undefined
  readonly pieces: Decimal
  readonly id?: string
  readonly blending?: readonly string[]
}

/**
 * The books begin in the middle: what is there now comes from 'before'. Nothing has to be counted
 * first; what was not weighed stands as assumed until it is, and more can be opened with later.
 */
export const openBooks: Act<OpenBooksSaid> = {
  kind: 'open_books',
  async write(book, said) {
    const ids: string[] = []
    for (const [index, item] of said.items.entries()) {
      await findBody(book.ledger, book.studioId, item.bodyId)
      const opened = await openItem(book, item, `/items/${String(index)}`)
      await enter(book, opened, decimal(item.cost ?? '0'))
      ids.push(opened.id ?? '')
    }
    if (said.materials === undefined) return { ids }
    return { ids, holdingIds: await openMaterials(book, said.materials) }
  },
}

async function enter(book: Book, opened: Opened, cost: Decimal): Promise<void> {
  const before = await book.outside('before', opened.ref.bodyId)
  const [slot] = await book.hold([opened.ref])
  blendInto(book, slot, await book.holdById(opened.blending ?? []))
  const { dryGrams, waterGrams, dryDoubt } = opened.estimate
  const what = quantities({ dryGrams, waterGrams, pieces: opened.pieces, cost, dryDoubt })
  book.shift({ from: before, to: slot, what })
  book.estimated({
    slot,
    of: 'opening',
    estimate: opened.estimate,
    weighingNo: opened.reading?.weighingNo,
  })
}

function openItem(book: Book, item: OpeningItem, pointer: string): Promise<Opened> {
  switch (item.what) {
    case 'bags':
      return openBags(book, item, pointer)
    case 'clay':
      return openClay(book, item, pointer)
    case 'scrap':
    case 'basin':
      return openVessel(book, item, pointer)
    case 'load':
      return openLoad(book, item, pointer)
    case 'pots':
      return openPots(book, item, pointer)
  }
}

async function openBags(book: Book, item: ItemOf<'bags'>, pointer: string): Promise<Opened> {
  const { bodyId, bags } = item
  const reading =
    item.reading === undefined
      ? await takeLabel(book, timesBags(item), `${pointer}/bagMass`)
      : await takeReading(book, item.reading, { pointer: `${pointer}/reading` })
  const estimate = await estimateOf(book, item, { reading, state: 'as_delivered', pointer })
  const lotId = await makeLot(book, {
    lotId: item.lotId,
    kind: 'earlier',
    bodyId,
    label: item.label ?? `bags of ${bodyId} from before`,
    bags,
    dryGramsAtFirst: estimate.dryGrams,
  })
  return {
    ref: { place: 'store', bodyId, lotId },
    estimate,
    reading,
    pieces: count(bags),
    id: lotId,
  }
}

function timesBags(item: ItemOf<'bags'>): Mass {
  const { value, unit } = present(item.bagMass, 'bags without a reading have a label')
  return { value: decimal(value).times(item.bags).toFixed(), unit }
}

async function openClay(book: Book, item: ItemOf<'clay'>, pointer: string): Promise<Opened> {
  const { bodyId } = item
  const reading = await takeReading(book, item.reading, { pointer: `${pointer}/reading` })
  const estimate = await estimateOf(book, item, { reading, state: 'wedged', pointer })
  const lotId = await makeLot(book, {
    lotId: item.lotId,
    kind: 'earlier',
    bodyId,
    label: item.label ?? `${bodyId} from before`,
    dryGramsAtFirst: estimate.dryGrams,
  })
  return { ref: { place: 'bench', bodyId, lotId }, estimate, reading, pieces: ZERO, id: lotId }
}

async function openVessel(
  book: Book,
  item: ItemOf<'scrap' | 'basin'>,
  pointer: string,
): Promise<Opened> {
  const { bodyId, vesselId } = item
  const into = await vesselFor(book, {
    place: item.what,
    vesselId,
    bodyIds: [bodyId],
    pointer: `${pointer}/vesselId`,
  })
  const reading = await takeReading(book, item.reading, { pointer: `${pointer}/reading` })
  const state = item.state ?? (item.what === 'basin' ? 'slurry' : 'turnings')
  const estimate = await estimateOf(book, item, { reading, state, pointer })
  return { ref: into.ref, estimate, reading, pieces: ZERO, id: vesselId, blending: into.blending }
}

async function openLoad(book: Book, item: ItemOf<'load'>, pointer: string): Promise<Opened> {
  const { bodyId, batId } = item
  const bat = await findBat(book.ledger, book.studioId, batId)
  await refuseLoadedBat(book, batId, `${pointer}/batId`)
  const reading = await takeReading(book, item.reading, { pointer: `${pointer}/reading` })
  const estimate = await estimateOf(book, item, { reading, state: 'slurry', pointer })
  const lotId = await makeLot(book, {
    lotId: item.lotId,
    kind: 'load',
    bodyId,
    label: `load on ${bat.name}`,
    batId,
    dryGramsAtFirst: estimate.dryGrams,
  })
  return { ref: { place: 'plaster', bodyId, lotId }, estimate, reading, pieces: ZERO, id: lotId }
}

async function openPots(book: Book, item: ItemOf<'pots'>, pointer: string): Promise<Opened> {
  const { bodyId, at, grade } = item
  const form = await findForm(book.ledger, book.studioId, item.formId)
  const runId = await makeRun(book, {
    runId: item.runId,
    formId: item.formId,
    bodyId,
    label: item.label ?? `${form.name} from before`,
  })
  const ref = { place: at, bodyId, runId, ...(grade === undefined ? {} : { grade }) }
  const pieces = count(item.pieces)
  if (item.reading === undefined) {
    const estimate = await guessedPots(book, { form, bodyId, at, pieces, pointer })
    return { ref, estimate, reading: undefined, pieces, id: runId }
  }
  const reading = await takeReading(book, item.reading, { pointer: `${pointer}/reading` })
  const dry: WaterSaid = {
    content: '0',
    basis: 'wet',
    standing: 'stated',
    standardUncertainty: '0',
  }
  const said = item.water ?? (at === 'greenware' ? undefined : dry)
  const estimate = await estimateOf(
    book,
    { ...item, water: said },
    { reading, state: 'leather_hard', pointer },
  )
  return { ref, estimate, reading, pieces, id: runId }
}

function estimateOf(
  book: Book,
  item: OpeningItem,
  of: { reading: Reading; state: ClayState; pointer: string },
): Promise<DryMassEstimate> {
  return dryMassOfReading(book, {
    reading: of.reading,
    said: item.water,
    state: of.state,
    bodyId: item.bodyId,
    pointer: `${of.pointer}/water`,
  })
}
