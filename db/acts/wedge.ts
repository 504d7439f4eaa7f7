import { present } from '../../shared/assert.ts'
import { decimal } from '../../shared/decimal.ts'
import { dryMassEstimate } from '../../shared/dry-mass.ts'
import { quantities } from '../../shared/quantity.ts'
import { gramsFrom, type Mass } from '../../shared/units.ts'
import type { Book, Slot } from '../book.ts'
import { bodyOf, claySources, takeClay, type ClaySourceSaid } from '../clay-sources.ts'
import { weighKnownDry } from '../known-dry.ts'
import { contentOf, makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { takeReading, type ReadingSaid } from '../readings.ts'
import type { WayTold } from '../work-told.ts'

export interface WedgeSaid extends Circumstances, WayTold {
  /** Lots on the bench that are wedged together. */
  readonly from: readonly ClaySourceSaid[]
  /** Vessels of soft scrap that is wedged in whole, without slaking. */
  readonly fromVesselIds?: readonly string[] | undefined
  /** Powders that were wedged in: each is dry mass of its own, and money. */
  readonly additions?:
    | readonly {
        readonly name: string
        readonly reading: ReadingSaid
        readonly price?: string | undefined
      }[]
    | undefined
  readonly water?: Mass | undefined
  /** The wedged clay, weighed: tells its water. */
  readonly reading?: ReadingSaid | undefined
  readonly blendBodyId?: string | undefined
  readonly newLotId?: string | undefined
  readonly label?: string | undefined
}

/** Clays, soft scrap and powders are wedged together into one lot, of one body or a declared blend. */
export const wedge: Act<WedgeSaid> = {
  kind: 'wedge',
  async write(book, said) {
    const sources = await claySources(book, said.from)
    const scraps: Slot[] = []
    for (const [index, vesselId] of (said.fromVesselIds ?? []).entries()) {
      const pointer = `/fromVesselIds/${String(index)}`
      scraps.push(await contentOf(book, { vesselId, place: 'scrap', pointer }))
    }
    const bodyId = await bodyOf(book, [...sources, ...scraps], said.blendBodyId)
    const lotId = await makeLot(book, {
      lotId: said.newLotId,
      kind: 'wedged',
      bodyId,
      label: said.label ?? `wedged ${book.facts.day}`,
    })
    const [goal, ...clays] = await book.hold([
      { place: 'bench', bodyId, lotId },
      ...sources.map((source) => source.ref),
    ])
    for (const [index, source] of sources.entries()) {
      await takeClay(book, { from: present(clays[index], 'each source is held'), to: goal, source })
    }
    for (const scrap of scraps) book.moveAll(scrap, goal)
    await addPowders(book, said, goal)
    if (said.water !== undefined) {
      const tap = await book.outside('tap', bodyId)
      book.shiftExactly(tap, goal, { waterGrams: gramsFrom(said.water) })
    }
    if (said.reading !== undefined) {
      await weighKnownDry(book, goal, { said: said.reading, of: 'wedged' })
    }
    return { lotId }
  },
}

async function addPowders(book: Book, said: WedgeSaid, goal: Slot): Promise<void> {
  const supplier = await book.outside('supplier', goal.ref.bodyId)
  for (const [index, addition] of (said.additions ?? []).entries()) {
    const pointer = `/additions/${String(index)}/reading`
    const reading = await takeReading(book, addition.reading, { pointer, kind: 'powder' })
    const { netGrams: dryGrams, netDoubt: dryDoubt } = reading
    const cost = decimal(addition.price ?? '0')
    book.shift({ from: supplier, to: goal, what: quantities({ dryGrams, cost, dryDoubt }) })
    book.handles({ dryAct: 'mixing_powders' })
    book.estimated({
      slot: goal,
      of: 'addition',
      estimate: dryMassEstimate({
        dryGrams,
        waterGrams: decimal(0),
        dryDoubt,
        method: 'stated_dry_mass',
        standing: 'measured',
      }),
      weighingNo: reading.weighingNo,
    })
  }
}
