import type { BalanceBook, BookedEntry, BookedHolding } from './balance-book.ts'
import type { Origin, SourceOrigin } from './balance-walk.ts'
import type { MonthBalance } from './month-balance.ts'
import type { NamedSuspicion } from './month-finding.ts'
import type { ActKind } from './month-world.ts'

/** What the potter may send, if it is so; nothing of it was sent. */
export interface Offer {
  readonly what: 'correct' | 'count' | 'dry_test'
  readonly words: string
  readonly method: 'POST'
  readonly path: string
  readonly body: Readonly<Record<string, unknown>>
  /** What only the potter knows and puts in before sending, as JSON pointers into the body. */
  readonly fillIn: readonly string[]
}

type Json = Readonly<Record<string, unknown>>

/** A mass that is still to be read. */
const TO_BE_READ = { value: '', unit: 'kg' } as const

/**
 * What may be posted about something that stands out: the entry told again as it should have been, a
 * count of what is there, a dry test.
 *
 * A figure is put into the body only where a known mistake says what was meant: whoever makes the books
 * agree with a figure that nobody read has hidden the mistake, not mended it.
 *
 * Units: as the acts take them. Source: our choice.
 */
export function offersFor(
  suspicion: NamedSuspicion,
  month: { readonly balance: MonthBalance; readonly book: BalanceBook },
): Offer[] {
  const { balance, book } = month
  if (suspicion.what === 'source') {
    const source = balance.sources.get(suspicion.id)
    return source === undefined ? [] : offersForFigure(source, book)
  }
  const origin = balance.origins.get(suspicion.id)
  if (origin === undefined) return []
  const entry = book.entries.find(({ entryId }) => entryId === origin.entryId)
  const holding = book.holdings.find(({ holdingId }) => holdingId === origin.holdingId)
  return [
    ...(entry === undefined ? [] : corrections(suspicion, { origin, entry, book })),
    ...(holding === undefined ? [] : counts(holding)),
  ]
}

function offersForFigure(source: SourceOrigin, book: BalanceBook): Offer[] {
  if (source.state !== null && source.state !== 'drawn_off') {
    return [
      {
        what: 'dry_test',
        words: 'Dry a sample of that clay, and the figure rests on a measurement.',
        ...{ method: 'POST', path: '/v1/acts/dry-test' },
        body: {
          bodyId: book.bodyId,
          state: source.state,
          sample: {
            tin: { ...TO_BE_READ, unit: 'g' },
            wetWithTin: { ...TO_BE_READ, unit: 'g' },
            dryWithTin: { ...TO_BE_READ, unit: 'g' },
          },
        },
        fillIn: ['tin', 'wetWithTin', 'dryWithTin'].map((one) => `/sample/${one}/value`),
      },
    ]
  }
  const entry = book.entries.find(({ entryId }) => entryId === source.entryId)
  return entry === undefined ? [] : [asItWas(entry, book)]
}

interface Suspected {
  readonly origin: Origin
  readonly entry: BookedEntry
  readonly book: BalanceBook
}

function corrections(suspicion: NamedSuspicion, suspected: Suspected): Offer[] {
  const { origin, entry, book } = suspected
  const { weighing, mistakes } = origin
  const made = mistakes.filter(({ words }) => suspicion.mistakes.includes(words))
  const ready = made.flatMap(({ words, note, reads }): Offer[] => {
    const content =
      weighing === null || reads === null
        ? undefined
        : withReading(entry.said, weighing.purpose, reads)
    if (content === undefined) return []
    return [
      {
        what: 'correct',
        words: `If so (${words}), send this: the entry is taken back and told again.`,
        ...{ method: 'POST', path: '/v1/corrections' },
        body: correction({ entry, book, content, note }),
        fillIn: [],
      },
    ]
  })
  return ready.length > 0 ? ready : [asItWas(entry, book, weighing?.purpose)]
}

/** The entry told again as it was said, for the potter to put right. */
function asItWas(entry: BookedEntry, book: BalanceBook, purpose?: string): Offer {
  return {
    what: 'correct',
    words:
      'Look at what was written down. If something of it was wrong, put it right in this and send it; if not, leave it.',
    ...{ method: 'POST', path: '/v1/corrections' },
    body: correction({ entry, book, content: entry.said as Json, note: '' }),
    fillIn: [`/postAgain/content${purpose === undefined ? '' : `/${purpose}`}`],
  }
}

function correction(told: {
  entry: BookedEntry
  book: BalanceBook
  content: Json
  note: string
}): Json {
  const { entry, book, content, note } = told
  // Into a closed month nothing is dated: what was wrong there is put right in the first open one.
  const moved = book.isClosed && book.openFrom !== null ? { happenedAt: book.openFrom } : {}
  return {
    entryId: entry.entryId,
    ...(note === '' ? {} : { note }),
    ...moved,
    postAgain: { act: actOf(entry.kind), content: { ...content, ...moved } },
  }
}

function actOf(kind: ActKind): string {
  return kind.replaceAll('_', '-')
}

function counts(holding: BookedHolding): Offer[] {
  if (holding.nowDryGrams.lessThanOrEqualTo(0)) return []
  return [
    {
      what: 'count',
      words: `Or weigh what is there of ${holding.name} now, and count it: the books follow, and the difference shows as unexplained.`,
      ...{ method: 'POST', path: '/v1/acts/count' },
      body: { holdingId: holding.holdingId, reading: { net: TO_BE_READ } },
      fillIn: ['/reading/net/value'],
    },
  ]
}

/** What was said, with another reading at its place; undefined where no reading stands there. */
function withReading(said: unknown, purpose: string, reads: Json): Json | undefined {
  const put = (whole: unknown, path: readonly string[]): unknown => {
    const [name, ...rest] = path
    if (name === undefined) return readingInstead(whole, reads)
    if (Array.isArray(whole)) {
      return whole.map((one: unknown, at) => (String(at) === name ? put(one, rest) : one))
    }
    const named = whole as Json
    return { ...named, [name]: put(named[name], rest) }
  }
  if (purpose.endsWith('Mass')) return undefined
  return put(said, purpose.split('/')) as Json
}

/** The scale stays; what was read, and in what, is told anew. */
function readingInstead(before: unknown, reads: Json): Json {
  const { scaleId, tare, inVesselId } = before as Json
  const isGross = 'gross' in reads
  const isToldAnew = 'inVesselId' in reads || !isGross
  return {
    ...reads,
    ...(scaleId === undefined ? {} : { scaleId }),
    ...(isToldAnew || tare === undefined ? {} : { tare }),
    ...(isToldAnew || inVesselId === undefined ? {} : { inVesselId }),
  }
}
