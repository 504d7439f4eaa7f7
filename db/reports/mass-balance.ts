import type { BalanceBook } from '../../shared/balance-book.ts'
import { adviceOnFound } from '../../shared/balance-advice.ts'
import type { Advice } from '../../shared/balance-offers.ts'
import type { Decimal } from '../../shared/decimal.ts'
import { decimal } from '../../shared/decimal.ts'
import { monthBalance, type MonthBalance } from '../../shared/month-balance.ts'
import {
  monthFinding,
  type MonthFinding,
  type NamedSuspicion,
  type ReconciledReading,
} from '../../shared/month-finding.ts'
import type { FlowGroup } from '../../shared/month-groups.ts'
import type { FlowReading, MonthFlow } from '../../shared/month-network.ts'
import { findingWords } from '../../shared/month-words.ts'
import type { Month } from '../../shared/month.ts'
import { nextWeighIn } from '../../shared/next-weigh-in.ts'
import { written, type Written } from '../../shared/written.ts'
import { balanceBook } from '../balance-rows.ts'
import type { Database } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'
import { findBody, findStudio } from '../studio.ts'
import { entriesTrail, trailTo } from '../trail-links.ts'

export interface BalanceAsked {
  readonly studioId: string
  readonly month: Month
  readonly bodyId: string
}

/** How a flow came to be known. */
export type HowKnown =
  'weighed' | 'labelled' | 'counted' | 'tested' | 'by_the_books' | 'guessed' | 'not_weighed'

interface BalanceReading {
  readonly readingId: string
  readonly label: string
  readonly kind: string
  readonly from: string
  readonly to: string
  readonly howKnown: HowKnown
  readonly measuredDryGrams: Decimal | null
  readonly measuredUncertaintyGrams: Decimal | null
  readonly reconciledDryGrams: Decimal | null
  readonly standardUncertaintyGrams: Decimal | null
  readonly adjustmentGrams: Decimal | null
  readonly standing: ReconciledReading['standing']
  readonly wouldShowFromGrams: Decimal | null
  readonly trail: string
}

interface Suspected {
  readonly what: NamedSuspicion['what']
  readonly id: string
  readonly label: string
  /** Of a reading: grams too many; null of a figure that several share. */
  readonly tooHeavyGrams: Decimal | null
  /** Of a figure: so many of its standard uncertainties; null of a reading. */
  readonly offByUncertainties: Decimal | null
  readonly standardUncertainty: Decimal
  readonly standardised: Decimal
  readonly mistakes: readonly string[]
  readonly trail: string
}

interface Suspicion extends Suspected, Advice {
  readonly words: string
  readonly alike: readonly Pick<Suspected, 'what' | 'id' | 'label' | 'trail'>[]
  readonly nearly: readonly Suspected[]
}

interface Report {
  readonly studioId: string
  readonly studioName: string
  readonly month: Month
  readonly timeZone: string
  readonly bodyId: string
  readonly bodyName: string
  readonly isClosed: boolean
  readonly verdict: MonthFinding['verdict']
  readonly words: readonly string[]
  readonly globalTest: {
    readonly chiSquare: Decimal
    readonly degreesOfFreedom: number
    readonly pValue: Decimal
  }
  /** What a deviation must pass to stand out; null where there was none to test. */
  readonly criticalDeviation: Decimal | null
  readonly suspicions: readonly Suspicion[]
  readonly inLine: readonly Suspected[]
  readonly nextWeighIn: { readonly words: string; readonly trail: string | null } | null
  readonly readings: readonly BalanceReading[]
  readonly flows: readonly FlowGroup[]
}

export type MassBalance = Written<Report>

/**
 * What the readings of a month say together of one clay: the flows that fit them all, and what fits
 * least. It is advice: nothing of it is posted.
 *
 * Units: grams of dry clay; fired clay as the dry clay that it was. Statistics to four digits.
 * Refuses: `studio_not_found`, `body_not_found`.
 */
export function massBalance(db: Database, asked: BalanceAsked): Promise<MassBalance> {
  return inSnapshot(db, async (ledger) => {
    const studio = await findStudio(ledger, asked.studioId)
    const body = await findBody(ledger, asked.studioId, asked.bodyId)
    const book = await balanceBook(ledger, { studio, month: asked.month, bodyId: asked.bodyId })
    const report: Report = {
      ...{ studioId: studio.studioId, studioName: studio.name, timeZone: studio.timeZone },
      ...{ month: asked.month, bodyId: body.bodyId, bodyName: body.name },
      isClosed: book.isClosed,
      ...found(book, asked),
    }
    return written(report)
  })
}

type Found = Omit<
  Report,
  'studioId' | 'studioName' | 'timeZone' | 'month' | 'bodyId' | 'bodyName' | 'isClosed'
>

/** Nothing of this clay was weighed in that month. */
const NOTHING_FOUND: Found = {
  verdict: 'nothing_to_check',
  words: ['Nothing of this clay was weighed in this month, so nothing can be checked.'],
  globalTest: { chiSquare: decimal(0), degreesOfFreedom: 0, pValue: decimal(1) },
  ...{ criticalDeviation: null, suspicions: [], inLine: [], readings: [], flows: [] },
  nextWeighIn: null,
}

function found(book: BalanceBook, asked: BalanceAsked): Found {
  const balance = monthBalance(book)
  const { description } = balance
  if (!description.flows.some(({ dryGrams }) => dryGrams !== null)) return NOTHING_FOUND
  const finding = monthFinding(description)
  const { globalTest, verdict, inLine } = finding
  const words = findingWords(finding)
  const trails = { balance, asked }
  const isChecked = globalTest.degreesOfFreedom > 0
  return {
    verdict,
    words,
    globalTest: {
      chiSquare: digits(globalTest.chiSquare),
      degreesOfFreedom: globalTest.degreesOfFreedom,
      pValue: digits(globalTest.pValue),
    },
    criticalDeviation: isChecked ? digits(finding.criticalValue) : null,
    suspicions: finding.found.map((one, index) => ({
      ...suspected(one, trails),
      words: words[index] ?? one.label,
      alike: one.alike.map(({ what, id, label }) => ({
        ...{ what, id, label },
        trail: trailOf({ what, id }, trails),
      })),
      nearly: one.nearly.map((other) => suspected(other, trails)),
      ...adviceOnFound(one, { balance, book }),
    })),
    inLine: inLine.map((one) => suspected(one, trails)),
    nextWeighIn: isChecked ? null : next(balance),
    readings: finding.readings.map((one) => readingOf(one, { finding, ...trails })),
    flows: finding.groups,
  }
}

function next({ description, stocks }: MonthBalance): Report['nextWeighIn'] {
  const { words, holdingId } = nextWeighIn(description, stocks)
  return { words, trail: holdingId === null ? null : trailTo('holdings', holdingId) }
}

interface Trails {
  readonly balance: MonthBalance
  readonly asked: BalanceAsked
}

function suspected(one: NamedSuspicion, trails: Trails): Suspected {
  const { what, id, label, size, standardUncertainty, standardised, mistakes } = one
  return {
    ...{ what, id, label, standardUncertainty, mistakes },
    tooHeavyGrams: what === 'reading' ? size : null,
    offByUncertainties: what === 'source' ? size : null,
    standardised: digits(standardised),
    trail: trailOf(one, trails),
  }
}

/** The entry behind a reading or a figure; the month's entries of that clay where there is none. */
function trailOf(one: Pick<NamedSuspicion, 'what' | 'id'>, { balance, asked }: Trails): string {
  const origin = one.what === 'reading' ? balance.origins.get(one.id) : undefined
  const source = one.what === 'source' ? balance.sources.get(one.id) : undefined
  const entryId = origin?.entryId ?? source?.entryId
  if (entryId !== undefined && entryId !== null) return trailTo('entries', entryId)
  if (origin !== undefined) return trailTo('holdings', origin.holdingId)
  return entriesTrail({ month: asked.month, bodyId: asked.bodyId })
}

function readingOf(one: ReconciledReading, at: Trails & { finding: MonthFinding }): BalanceReading {
  const { flow, reading } = flowOf(one.id, at.balance)
  const { dryGrams, standardUncertaintyGrams } = reading
  const { reconciledDryGrams } = one
  return {
    ...{ readingId: one.id, label: reading.label, kind: flow.kind },
    ...{ from: placeOf(flow.from), to: placeOf(flow.to), howKnown: howKnown(flow, reading, at) },
    measuredDryGrams: dryGrams,
    measuredUncertaintyGrams: dryGrams === null ? null : standardUncertaintyGrams,
    reconciledDryGrams,
    standardUncertaintyGrams: one.standardUncertaintyGrams,
    adjustmentGrams:
      dryGrams === null || reconciledDryGrams === null ? null : reconciledDryGrams.minus(dryGrams),
    standing: one.standing,
    wouldShowFromGrams: one.wouldShowFromGrams,
    trail: trailOfReading(one.id, flow, at),
  }
}

/** The entry behind it; of what a month begins and ends with, the holding. */
function trailOfReading(id: string, flow: MonthFlow, trails: Trails): string {
  const { origins, stocks } = trails.balance
  if (origins.has(id)) return trailOf({ what: 'reading', id }, trails)
  const stock = stocks.get(flow.kind === 'closing' ? flow.from : flow.to)
  return stock === undefined
    ? trailOf({ what: 'reading', id }, trails)
    : trailTo('holdings', stock.id)
}

function flowOf(
  id: string,
  { description }: MonthBalance,
): {
  flow: MonthFlow
  reading: FlowReading
} {
  for (const flow of description.flows) {
    const reading = [flow, ...(flow.again ?? [])].find((one) => one.id === id)
    if (reading !== undefined) return { flow, reading }
  }
  throw new Error('a reading is of a flow of its month')
}

function placeOf(node: string): string {
  return node.split('/')[0] ?? node
}

function howKnown(flow: MonthFlow, reading: FlowReading, { balance }: Trails): HowKnown {
  const { dryGrams, isGuess, asking } = reading
  if (dryGrams === null) return 'not_weighed'
  if (flow.kind === 'dry_test') return 'tested'
  if (isGuess === true) return 'guessed'
  if (balance.origins.get(reading.id)?.weighing?.kind === 'label') return 'labelled'
  if (asking === undefined) return 'weighed'
  return flow.kind === 'opening' ? 'by_the_books' : 'counted'
}

function digits(value: number): Decimal {
  return decimal(value).toDecimalPlaces(4)
}
