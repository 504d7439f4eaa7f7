import { BOTH_RULES_WORDS, clayCostRows, type ClayCostRow } from '../../shared/clay-cost-rows.ts'
import { decimal, toLedgerScale, type Decimal } from '../../shared/decimal.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import type { Month } from '../../shared/month.ts'
import type { Deliveries } from '../../shared/piece-cost.ts'
import {
  reclaimTold,
  untoldMinutesWords,
  type BodyReclaimed,
  type WayReclaimed,
} from '../../shared/reclaim-told.ts'
import { reclaimWorth, type ReclaimWorth } from '../../shared/reclaim-worth.ts'
import { written, type Written } from '../../shared/written.ts'
import { clayUnderBothRules } from '../clay-both-rules.ts'
import type { Database, Transaction } from '../connection.ts'
import { deliveriesOf } from '../deliveries.ts'
import { RECLAIM_KINDS, reclaimEntries, type ReclaimEntry } from '../reclaim-acts.ts'
import { inSnapshot } from '../report-reading.ts'
import type { MonthsAsked } from '../run-flows.ts'
import { findBody, findStudio } from '../studio.ts'
import { entriesTrail, trailTo } from '../trail-links.ts'

export interface ReclaimAsked {
  readonly studioId: string
  readonly from?: Month | undefined
  readonly to?: Month | undefined
}

/** What clay of a body was bought for. */
interface Bought {
  /** In the time that is asked about; where none came in it, ever, up to its end. */
  readonly when: 'in_that_time' | 'ever'
  readonly cost: Decimal
  readonly dryGrams: Decimal
  readonly pricePerDryKilogram: Decimal
  readonly trail: string
}

interface WayRow extends WayReclaimed {
  /** Null where no price, no time or no clay is known: the words say which. */
  readonly worth: Omit<ReclaimWorth, 'words'> | null
  readonly words: string
  readonly trail: string
}

interface BodyRow extends Omit<BodyReclaimed, 'ways'> {
  readonly bodyName: string
  readonly bought: Bought | null
  readonly boughtWords: string
  readonly words: string
  readonly ways: readonly WayRow[]
  readonly trail: string
}

interface ActRow extends Pick<
  ReclaimEntry,
  'entryId' | 'kind' | 'happenedAt' | 'bodyId' | 'way' | 'minutes' | 'reclaimedDryGrams'
> {
  readonly trail: string
}

interface CostRows {
  readonly rows: readonly (ClayCostRow & { readonly trail: string })[]
}

interface Report {
  readonly studioId: string
  readonly currency: string
  readonly from: Month | null
  readonly to: Month | null
  /** What an hour is to be worth, as the studio says; null where it does not. */
  readonly hourlyFigure: Decimal | null
  readonly bodies: readonly BodyRow[]
  readonly words: string
  /** Each act behind these figures, oldest first. */
  readonly acts: readonly ActRow[]
  readonly bothRules: {
    readonly period: CostRows
    readonly allTime: CostRows
    readonly words: string
  }
}

export type ReclaimReport = Written<Report>

/**
 * What reclaiming is worth: of each clay and way the dry clay that came back, the minutes told, and what
 * as much costs in the bag, beside the studio's hourly figure; and the cost of clay under both rules.
 *
 * Units: dry grams, minutes, money at ledger scale. Refuses: `studio_not_found`.
 */
export function reclaimReport(db: Database, asked: ReclaimAsked): Promise<ReclaimReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, from, to } = asked
    const { currency, timeZone, hourlyFigure } = await findStudio(ledger, studioId)
    const months: MonthsAsked = { studioId, timeZone, from, to }
    const entries = await reclaimEntries(ledger, months)
    const told = { hourlyFigure: hourlyFigure ?? null, moneyDigits: minorUnitDigits(currency) }
    const bodies = await bodyRows(ledger, { entries, months, told })
    const { period, allTime } = await clayUnderBothRules(ledger, months)
    const inMonths = entriesTrail({ fromMonth: from, toMonth: to })
    const report: Report = {
      ...{ studioId, currency, from: from ?? null, to: to ?? null },
      hourlyFigure: told.hourlyFigure,
      bodies,
      words: entries.length === 0 ? 'Nothing was reclaimed in that time.' : REPORT_WORDS,
      acts: entries.map(actRow),
      bothRules: {
        period: { rows: clayCostRows(period).map((row) => ({ ...row, trail: inMonths })) },
        allTime: {
          rows: clayCostRows(allTime).map((row) => ({ ...row, trail: entriesTrail({}) })),
        },
        words: BOTH_RULES_WORDS,
      },
    }
    return written(report)
  })
}

const REPORT_WORDS =
  'An hour of it is worth as much clay as it gave, at what that costs in the bag. Minutes are of hands; drying is left out. They cost nothing in the books.'

interface Told {
  readonly hourlyFigure: Decimal | null
  readonly moneyDigits: number
}

async function bodyRows(
  ledger: Transaction,
  of: { entries: readonly ReclaimEntry[]; months: MonthsAsked; told: Told },
): Promise<BodyRow[]> {
  const { entries, months, told } = of
  const lately = await deliveriesOf(ledger, months)
  const ever = await deliveriesOf(ledger, { ...months, from: undefined })
  const rows: BodyRow[] = []
  for (const { ways, ...body } of reclaimTold(entries)) {
    const { name, isBlend } = await findBody(ledger, months.studioId, body.bodyId)
    const bought =
      boughtOf(body.bodyId, lately, { ...months, when: 'in_that_time' }) ??
      boughtOf(body.bodyId, ever, { ...months, from: undefined, when: 'ever' })
    rows.push({
      ...body,
      bodyName: name,
      bought,
      boughtWords: boughtWords(name, bought, isBlend),
      words: untoldMinutesWords(body),
      ways: ways.map((way) => wayRow(way, { bodyId: body.bodyId, name, bought, months, told })),
      trail: actsTrail(body.bodyId, months),
    })
  }
  return rows.sort((one, other) => one.bodyName.localeCompare(other.bodyName, 'en'))
}

function actsTrail(bodyId: string, { from, to }: MonthsAsked): string {
  return entriesTrail({ bodyId, kind: RECLAIM_KINDS.join(','), fromMonth: from, toMonth: to })
}

function boughtOf(
  bodyId: string,
  all: ReadonlyMap<string, Deliveries>,
  { from, to, when }: MonthsAsked & Pick<Bought, 'when'>,
): Bought | null {
  const deliveries = all.get(bodyId)
  if (deliveries === undefined || !deliveries.dryGrams.greaterThan(0)) return null
  const { goods, freight, dryGrams } = deliveries
  const cost = goods.plus(freight)
  return {
    ...{ when, cost, dryGrams },
    pricePerDryKilogram: toLedgerScale(cost.times(GRAMS_A_KILOGRAM).dividedBy(dryGrams)),
    trail: entriesTrail({ bodyId, kind: 'receive_delivery', fromMonth: from, toMonth: to }),
  }
}

const GRAMS_A_KILOGRAM = decimal(1000)
const BOUGHT_WORDS = {
  in_that_time: 'At what its deliveries in that time cost, with freight, by the dry clay in them.',
  ever: 'None came in that time: at what its earlier deliveries cost, with freight, by the dry clay in them.',
} as const satisfies Record<Bought['when'], string>

function boughtWords(name: string, bought: Bought | null, isBlend: boolean): string {
  if (bought !== null) return BOUGHT_WORDS[bought.when]
  return isBlend
    ? `${name} is mixed here and never bought, so that its reclaim has no price of a bag to go by.`
    : `No delivery of ${name} is in the books, so that its reclaim has no price of a bag to go by.`
}

interface AroundWay {
  readonly bodyId: string
  readonly name: string
  readonly bought: Bought | null
  readonly months: MonthsAsked
  readonly told: Told
}

function wayRow(way: WayReclaimed, around: AroundWay): WayRow {
  const { bodyId, months } = around
  return { ...way, ...worthOf(way, around), trail: actsTrail(bodyId, months) }
}

const MINUTES_AN_HOUR = decimal(60)

function worthOf(found: WayReclaimed, around: AroundWay): Pick<WayRow, 'worth' | 'words'> {
  const { way, reclaimedDryGrams, minutes } = found
  if (!reclaimedDryGrams.greaterThan(0)) {
    return { worth: null, words: 'None of it came back as clay in that time.' }
  }
  if (!minutes.greaterThan(0)) return { worth: null, words: NO_MINUTES }
  if (around.bought === null) return { worth: null, words: 'There is no price to compare with.' }
  const { words, ...worth } = reclaimWorth(
    {
      bodyName: around.name,
      way,
      bought: around.bought,
      reclaimedDryGrams,
      hours: minutes.dividedBy(MINUTES_AN_HOUR),
    },
    around.told,
  )
  return { worth, words }
}

const NO_MINUTES = 'No minutes were told, so that nobody can say what an hour of it is worth.'

function actRow(entry: ReclaimEntry): ActRow {
  const { entryId, kind, happenedAt, bodyId, way, minutes, reclaimedDryGrams } = entry
  return {
    ...{ entryId, kind, happenedAt, bodyId, way, minutes, reclaimedDryGrams },
    trail: trailTo('entries', entryId),
  }
}
