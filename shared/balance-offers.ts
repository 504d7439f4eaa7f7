import type { BalanceBook, BookedEntry, BookedHolding } from './balance-book.ts'
import type { Origin, SourceOrigin } from './balance-walk.ts'
import type { MonthBalance } from './month-balance.ts'
import type { AlikeSuspicion } from './month-finding.ts'
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

/** What is offered about something that stands out, and in a sentence what to do with it. */
export interface Advice {
  readonly whatNow: string
  readonly offers: readonly Offer[]
}

export interface BalancedMonth {
  readonly balance: MonthBalance
  readonly book: BalanceBook
}

const SETTLED =
  'What it was about was weighed whole or used up since, so that the books stand right again: nothing needs to be posted.'
const LOOK_FIRST = 'Look first at what was written down that day; then send what is true of these.'
const COUNT_FIRST =
  'One side of it was weighed again or used up since. The other side still carries the mistake: weigh it and count it.'

/**
 * What may be posted about one reading or figure that stands out: the entry told again as it should have been, a
 * count of what is there, a dry test.
 *
 * A figure is put into the body only where a known mistake says what was meant: whoever makes the books
 * agree with a figure that nobody read has hidden the mistake, not mended it. And an entry is told again
 * only where no later weigh-in has set the books right already, which would then be wrong by as much.
 *
 * Units: as the acts take them. Source: our choice.
 */
export function adviceOn(suspicion: AlikeSuspicion, month: BalancedMonth): Advice {
  const { balance, book } = month
  if (suspicion.what === 'source') {
    const source = balance.sources.get(suspicion.id)
    const offers = source === undefined ? [] : offersForFigure(source, book)
    return { whatNow: LOOK_FIRST, offers }
  }
  const origin = balance.origins.get(suspicion.id)
  const entry = book.entries.find(({ entryId }) => entryId === origin?.entryId)
  const { open, isAnySettled } = endsOf(suspicion.id, balance)
  const holdings = book.holdings.filter(({ holdingId }) => open.includes(holdingId))
  const counted = holdings.flatMap(counts)
  if (origin !== undefined && entry !== undefined && !isAnySettled) {
    const told = corrections(suspicion, { origin, entry, book })
    return { whatNow: LOOK_FIRST, offers: [...told, ...counted] }
  }
  const isOpening = suspicion.id.startsWith('opening')
  if (counted.length === 0) return { whatNow: SETTLED, offers: [] }
  return { whatNow: isOpening ? LOOK_FIRST : COUNT_FIRST, offers: counted }
}

/** The holdings at the ends of a flow that nobody has weighed whole or emptied since. */
function endsOf(
  readingId: string,
  { description, stocks, settled }: MonthBalance,
): { open: string[]; isAnySettled: boolean } {
  const flow = description.flows.find(
    ({ id, again = [] }) => id === readingId || again.some((one) => one.id === readingId),
  )
  if (flow === undefined) return { open: [], isAnySettled: false }
  // A weigh-in of the whole settles what was before it; it is what comes after that it may get wrong.
  const isWhole = stocks.get(flow.from)?.id === stocks.get(flow.to)?.id
  const ends = (isWhole ? [flow.to] : [flow.from, flow.to]).filter((node) => stocks.has(node))
  const open = ends.filter((node) => !settled.has(node))
  return {
    open: open.flatMap((node) => stocks.get(node)?.id ?? []),
    isAnySettled: open.length < ends.length,
  }
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

function corrections(suspicion: AlikeSuspicion, suspected: Suspected): Offer[] {
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
        ...{ method: 'POST', path: '/v1/acts/correct' },
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
    ...{ method: 'POST', path: '/v1/acts/correct' },
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
