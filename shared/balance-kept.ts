import type { BookedEntry, BookedEstimate } from './balance-book.ts'
import type { SourceOrigin } from './balance-walk.ts'
import { doubtOfWater } from './water-doubt.ts'
import { doubtOfSum, NO_DOUBT, type Doubt } from './doubt.ts'
import { kindOfSource, SOURCE_WORDS, type SourceKind } from './doubt-source.ts'
import type { DryMassMethod } from './dry-mass.ts'

interface Told {
  readonly entry: BookedEntry
  readonly estimate: BookedEstimate
}

interface Sources {
  readonly sources: Map<string, SourceOrigin>
}

/** A line says what an estimate rests on where both are as unsure, but for the rounding of the ledger. */
const AS_UNSURE = 0.02

/** The kind of source that a figure for all that rest on it has in the ledger. */
const SHARED_KIND: Partial<Record<DryMassMethod, SourceKind>> = {
  studio_tests: 'moisture',
  body_figure: 'moisture',
  default_for_state: 'moisture',
  dry_test: 'test',
  stated_water_content: 'said',
}

/**
 * What a balance makes of a doubt that the ledger keeps: by source, grams too many.
 *
 * The ledger counts a source up where the clay holds more water and so is less; a balance asks what makes
 * a reading too heavy.
 *
 * Units: grams. Source: the definition of either.
 */
export function partsKept(doubt: Doubt): Map<string, number> {
  return new Map([...doubt].map(([source, one]) => [source, -one.toNumber()]))
}

/** A source of which nothing else is known than its name is never suspected. Units: none. Source: our choice. */
export function keepUnnamed({ sources }: Sources, source: string): void {
  if (sources.has(source)) return
  const label = `What the books began with: ${SOURCE_WORDS[kindOfSource(source)]}`
  sources.set(source, { label, entryId: null, state: null, isNeverNamed: true })
}

/**
 * What the water of an estimate rests on by the ledger: what is of its entry alone, and what others share.
 *
 * A line that brings clay says all of it. Where a whole was weighed the line is a difference from what the
 * books had before: of that, what is of this entry alone is the reading's, and so is the name of the
 * figure, but not how much it adds, which is the rest. Nothing where the line does not tell.
 *
 * Units: grams too many. Source: GUM, JCGM 100:2008, 5.1.2 (from memory): what is independent adds up
 * in quadrature.
 */
export function waterKept(
  walk: Sources,
  told: Told,
  asked: { readonly water: number; readonly state: string },
): ReadonlyMap<string, number> | undefined {
  const kept = partsKept(lineDoubt(told))
  if (kept.size === 0) return undefined
  const whole = Math.hypot(...kept.values())
  if (Math.abs(whole - asked.water) <= AS_UNSURE * asked.water) return kept
  const own = [...kept].filter(([source]) => isOf(told.entry, source))
  const ofEntry = Math.hypot(...own.map(([, part]) => part))
  if (ofEntry > asked.water * (1 + AS_UNSURE)) return undefined
  const rest = Math.sqrt(Math.max(0, asked.water ** 2 - ofEntry ** 2))
  if (rest <= AS_UNSURE * asked.water) return new Map(own)
  const shared = sharedFigure(walk, kept, { told, state: asked.state })
  return shared === undefined ? undefined : new Map([...own, [shared, rest]])
}

/** Nothing where several estimates went into one line. */
function lineDoubt({ entry, estimate: { holdingId } }: Told): Doubt {
  const estimates = entry.estimates.filter((one) => one.holdingId === holdingId)
  if (estimates.length > 1) return NO_DOUBT
  const lines = entry.lines.filter((one) => one.holdingId === holdingId)
  return doubtOfWater(doubtOfSum(lines.map(({ dryDoubt }) => dryDoubt)))
}

function isOf({ entryId }: BookedEntry, source: string): boolean {
  return source.split('|').includes(entryId)
}

/** The figure of that kind and state: of this line, or where it fell out of the line, of the month. */
function sharedFigure(
  { sources }: Sources,
  kept: ReadonlyMap<string, number>,
  { told, state }: { told: Told; state: string },
): string | undefined {
  const kind = SHARED_KIND[told.estimate.method]
  const isFigure = (source: string) => {
    const [ofKind, ofState] = source.split('|')
    return ofKind === kind && (kind === 'test' || ofState === state) && !isOf(told.entry, source)
  }
  const ofLine = [...kept.keys()].filter(isFigure)
  const found =
    ofLine.length > 0 || kind !== 'moisture' ? ofLine : [...sources.keys()].filter(isFigure)
  return found.length === 1 ? found[0] : undefined
}
