import type { Decimal } from '../shared/decimal.ts'
import { percentPoints, percentWords } from '../shared/percent.ts'
import type { LoadFigures, Span } from '../shared/plaster-load.ts'
import type { PlasterLoad } from './plaster-loads.ts'
import {
  batRow,
  hours,
  pairRow,
  waterWentRow,
  weighInRow,
  type BatRow,
  type PairRow,
  type WaterWentRow,
  type WeighInRow,
} from './plaster-parts.ts'
import { entriesTrail } from './trail-links.ts'
import type { WallClock } from './wall-clock.ts'

/** A middle, and where nine tenths of what is possible lie. */
interface SpanRow<T> {
  readonly median: T
  readonly from: T
  readonly to: T
}

type MomentSpan = SpanRow<string | null>

/** A load on plaster as the board and its own page show it. */
export interface PlasterRow {
  readonly lotId: string
  readonly label: string
  readonly bodyId: string
  readonly bodyName: string
  readonly batId: string
  readonly batName: string
  readonly laidBy: 'pour' | 'move_load' | 'open_books'
  readonly laidAt: string
  readonly endedAt: string | null
  /** The kind of entry by which it left the bat. */
  readonly endedBy: string | null
  /** The moment that `water` is of: now, or when it left the bat. */
  readonly at: string
  readonly hoursSinceLaid: Decimal
  readonly thicknessMillimetres: Decimal | null
  readonly laidGrams: Decimal | null
  readonly dryGrams: Decimal
  readonly dryStandardUncertaintyGrams: Decimal
  readonly readyWaterContentWetBasis: Decimal
  readonly tooDryWaterContentWetBasis: Decimal
  readonly readyGrams: Decimal
  readonly readyStandardUncertaintyGrams: Decimal
  readonly isKnown: boolean
  readonly whyNot: string | null
  readonly why: string | null
  readonly words: string
  readonly water: SpanRow<Decimal> | null
  readonly slabNowGrams: Decimal | null
  readonly waterToGoGrams: Decimal | null
  readonly waterToGoGramsFrom: Decimal | null
  readonly waterToGoGramsTo: Decimal | null
  readonly readyAt: MomentSpan | null
  readonly tooDryAfter: MomentSpan | null
  readonly advice: { readonly act: string; readonly words: string } | null
  readonly bat: BatRow
  readonly waterWent: WaterWentRow | null
  readonly restsOn: string
  readonly lawWeights: Readonly<Record<'newton' | 'page', Decimal>> | null
  readonly weighIns: readonly WeighInRow[]
  readonly pairs: readonly PairRow[]
  readonly curve: readonly CurveRow[]
  readonly trail: string
}

interface CurveRow {
  readonly at: string
  readonly hours: Decimal
  readonly waterContentWetBasis: SpanRow<Decimal>
}

/** The row of a load. Units: grams, hours, fractions of the wet mass; moments by the studio's clock. */
export function plasterRow(
  load: PlasterLoad,
  of: { readonly figures: LoadFigures; readonly clock: WallClock },
): PlasterRow {
  const { history } = load
  const { figures, clock } = of
  return {
    lotId: load.lotId,
    label: load.label,
    bodyId: load.bodyId,
    bodyName: load.bodyName,
    batId: history.batId,
    batName: load.batName,
    laidBy: load.laidBy,
    laidAt: clock.time(history.laidAt),
    endedAt: clock.timeOr(history.endedAt),
    endedBy: load.endedBy ?? null,
    at: clock.time(figures.at),
    hoursSinceLaid: hours(figures.hoursSinceLaid),
    thicknessMillimetres: history.thicknessMillimetres ?? null,
    laidGrams: history.laid?.grams ?? null,
    dryGrams: history.dryGrams,
    dryStandardUncertaintyGrams: history.dryUncertaintyGrams,
    ...history.target,
    readyGrams: figures.readyGrams,
    readyStandardUncertaintyGrams: figures.readyUncertaintyGrams,
    slabNowGrams: figures.slabNowGrams ?? null,
    waterToGoGrams: figures.waterToGoGrams ?? null,
    waterToGoGramsFrom: figures.waterToGoRange?.from ?? null,
    waterToGoGramsTo: figures.waterToGoRange?.to ?? null,
    ...dryingRow(figures, clock),
    advice: figures.advice ?? null,
    bat: batRow(figures, clock),
    waterWent: waterWentRow(figures, clock),
    restsOn: figures.restsOn,
    weighIns: figures.weighIns.map((one) => weighInRow(one, clock)),
    pairs: figures.pairs.map((one) => pairRow(one, clock)),
    trail: entriesTrail({ lotId: load.lotId }),
  }
}

function dryingRow({ drying, at }: LoadFigures, clock: WallClock) {
  if (!drying.isKnown) {
    const { whyNot, why } = drying
    const nothing = { water: null, readyAt: null, tooDryAfter: null, lawWeights: null }
    return { isKnown: false, whyNot, why, words: why, ...nothing, curve: [] }
  }
  const { water, readyAt, tooDryAfter, lawWeights, curve } = drying
  return {
    isKnown: true,
    whyNot: null,
    why: null,
    words: dryingWords(drying, { at, clock }),
    water,
    readyAt: momentSpan(readyAt, clock),
    tooDryAfter: tooDryAfter === undefined ? null : momentSpan(tooDryAfter, clock),
    lawWeights,
    curve: curve.map((point) => ({
      at: clock.time(point.at),
      hours: hours(point.hours),
      waterContentWetBasis: point.waterContentWetBasis,
    })),
  }
}

type Known = Extract<LoadFigures['drying'], { isKnown: true }>

function dryingWords({ water, readyAt, tooDryAfter }: Known, of: { at: Date; clock: WallClock }) {
  const { at, clock } = of
  const range = `${percentPoints(water.from)} to ${percentWords(water.to)}`
  const ready = momentWords(readyAt, {
    clock,
    at,
    before: 'Ready since about',
    after: 'Ready about',
  })
  const tooDry =
    tooDryAfter === undefined
      ? 'It comes to rest before it is too dry.'
      : momentWords(tooDryAfter, {
          clock,
          at,
          before: 'Too dry since about',
          after: 'Too dry after about',
        })
  return `${percentWords(water.median)} water (${range}). ${ready} ${tooDry}`
}

function momentWords(
  { median, from, to }: Span<Date | undefined>,
  of: { clock: WallClock; at: Date; before: string; after: string },
): string {
  const { clock, at, before, after } = of
  const said = (moment: Date | undefined, beside?: Date) =>
    moment === undefined ? 'more than a year away' : clock.words(moment, beside)
  const lead = median !== undefined && median <= at ? before : after
  return `${lead} ${said(median)} (${said(from, median)} to ${said(to, from)}).`
}

function momentSpan({ median, from, to }: Span<Date | undefined>, clock: WallClock): MomentSpan {
  return { median: clock.timeOr(median), from: clock.timeOr(from), to: clock.timeOr(to) }
}
