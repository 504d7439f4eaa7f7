import { newApp } from '../../api/app.ts'
import { openBooks } from '../../db/acts/open-books.ts'
import type { Book } from '../../db/book.ts'
import { onShelf } from '../../db/materials.ts'
import { form, glazing, kiln, material } from '../../db/schema.ts'
import { costOfLayer } from '../../shared/cost-layer.ts'
import { decimal } from '../../shared/decimal.ts'
import { kg, openTestStudio, TEST_NOW, type TestStudio } from '../support/studio.ts'
import type { Body } from './pottery.ts'

/** A line of an entry, as far as the tests look into it. */
export interface ShownLine {
  readonly place: string
  readonly runId: string | null
  readonly cost: string
  readonly materialGrams: string
  readonly costLayers: Readonly<Record<string, string>>
  readonly costUncertainty: string
}

/** An entry as the API answers it. */
export interface Shown {
  readonly entryId: string
  readonly lines: readonly ShownLine[]
  readonly losses: readonly Readonly<Record<string, unknown>>[]
  readonly firing: Readonly<Record<string, unknown>> & {
    readonly shares: readonly Readonly<Record<string, unknown>>[]
  }
}

/** A studio with kilns, behind its API. */
export interface KilnPottery {
  readonly studio: TestStudio
  readonly ask: (
    method: string,
    path: string,
    body?: unknown,
  ) => Promise<{ status: number; body: Body }>
  /** Does an act over HTTP, insists that it is recorded, and gives its entry. */
  readonly does: (act: string, said: unknown) => Promise<Shown>
  readonly close: () => Promise<void>
}

const studioId = 'mill-lane'
const base = { studioId, changedAt: TEST_NOW }

/**
 * Kiln 'electric': 100 l of which 0.6 can be filled, 10 kW, 0.28 a kilowatt-hour, wear of 2.40 a firing.
 * Kiln 'bare': nothing is known of it. Kiln 'gas' burns propane. A jug takes 2 l, nobody said of a mug.
 */
export async function openKilnPottery(): Promise<KilnPottery> {
  const studio = await openTestStudio()
  const { db } = studio.services
  await db.insert(material).values({
    ...{ ...base, materialId: 'propane', name: 'Propane', kind: 'fuel', keptBy: 'mass' },
  })
  await db.insert(material).values({
    ...{ ...base, materialId: 'celadon', name: 'Celadon', kind: 'glaze', keptBy: 'mass' },
  })
  await db.insert(kiln).values([
    {
      ...{
        ...base,
        kilnId: 'electric',
        name: 'Electric',
        volumeLitres: '100',
        ratedKilowatts: '10',
      },
      ...{ pricePerKilowattHour: '0.28', wearPerFiring: '2.40' },
    },
    { ...base, kilnId: 'bare', name: 'Bare' },
    { ...base, kilnId: 'gas', name: 'Gas', fuelMaterialId: 'propane' },
  ])
  const room = { kilnFootprintSquareCentimetres: '100', kilnHeightCentimetres: '20' }
  await db.insert(form).values({ ...base, formId: 'jug', name: 'Jug', ...room })
  const log = { info: () => undefined, error: () => undefined }
  const app = newApp({ ...studio.services, log })
  const ask = async (method: string, path: string, body?: unknown) => {
    const headers = { 'studio-id': studioId, 'content-type': 'application/json' }
    const sent = body === undefined ? {} : { body: JSON.stringify(body) }
    const answer = await app.request(path, { method, headers, ...sent })
    return { status: answer.status, body: (await answer.json()) as Body }
  }
  return {
    studio,
    ask,
    does: async (act, said) => {
      const { status, body } = await ask('POST', `/v1/acts/${act}`, said)
      if (status !== 201) throw new Error(`${act}: ${JSON.stringify(body)}`)
      return body['entry'] as Shown
    },
    close: studio.close,
  }
}

/** Pots that the books begin with: bone-dry, or bisque. */
export async function pots(
  { studio }: KilnPottery,
  run: {
    runId: string
    pieces: number
    kilograms: string
    cost: string
    at?: 'greenware' | 'bisque'
    formId?: string
    happenedAt?: string
  },
): Promise<void> {
  const { kilograms, at = 'greenware', formId = 'mug', happenedAt, ...rest } = run
  await studio.does(openBooks, {
    ...(happenedAt === undefined ? {} : { happenedAt }),
    items: [
      {
        ...{ what: 'pots', bodyId: 'buff', ...rest, at, formId },
        reading: { net: kg(kilograms) },
        water: { content: '0', basis: 'wet', standing: 'measured' },
      },
    ],
  })
}

/** Ten kilograms of gas on the shelf that cost 30.00. */
export async function gasOnShelf({ studio }: KilnPottery): Promise<void> {
  const write = async (book: Book) => {
    const [shelf] = await book.hold([onShelf('propane')])
    const before = await book.outsideOfMaterial('before', 'propane')
    const paid = costOfLayer('fire', decimal(30))
    book.shiftExactly(before, shelf, { materialGrams: decimal(10_000), ...paid })
    return {}
  }
  await studio.does({ kind: 'open_books', write }, {})
}

/** A coat of glaze on bisque: so many dry grams at that loss on ignition. */
export async function coat(
  { studio }: KilnPottery,
  glazed: { runId: string; pieces: number; dryGrams: string; lossOnIgnitionFraction: string },
): Promise<void> {
  const write = async (book: Book) => {
    const { runId, dryGrams } = glazed
    const [bisque] = await book.hold([{ place: 'bisque', bodyId: 'buff', runId }])
    const before = await book.outsideOfMaterial('before', 'celadon')
    const paid = costOfLayer('glaze', decimal('1.50'))
    book.shiftExactly(before, bisque, { materialGrams: decimal(dryGrams), ...paid })
    await book.ledger.insert(glazing).values({
      ...{ studioId, entryId: book.facts.entryId, materialId: 'celadon', how: 'bucket' },
      ...{ ...glazed, standardUncertaintyGrams: '0' },
    })
    return {}
  }
  await studio.does({ kind: 'glaze', write }, {})
}
