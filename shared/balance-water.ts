import type { BookedEntry, BookedEstimate } from './balance-book.ts'
import { waterKept } from './balance-kept.ts'
import type { BalanceWalk } from './balance-walk.ts'
import { kindOfSource } from './doubt-source.ts'
import type { DryMassMethod } from './dry-mass.ts'
import { BATCH_PART_OF_PRIOR } from './moisture.ts'
import { SURE, type Wetness } from './wetness.ts'

const STATE_WORDS: Readonly<Record<string, string>> = {
  as_delivered: 'clay as it is delivered',
  wedged: 'wedged clay',
  off_cuts: 'off-cuts',
  slops: 'slops',
  throwing_water: 'throwing water',
  leather_hard: 'leather-hard pots',
  turnings: 'turnings',
  air_dry: 'air-dry clay',
  slurry: 'slurry',
  drawn_off: 'water drawn off',
}

export interface ReadingAsked {
  readonly id: string
  readonly label: string
  readonly entry: BookedEntry
  readonly estimate: BookedEstimate
  /** The holding that the clay came out of, where it is as wet as that. */
  readonly outOf?: string | null
  /** The state that it is taken to be in where the entry does not say. */
  readonly state: string
  /** How many balls or bags it is told in. */
  readonly count?: number | null
}

/** So many parts of what is doubtful, each under the name of what it rests on. */
export type Parts = ReadonlyMap<string, number>

/**
 * What the dry share of a reading rests on: as the ledger keeps it, and where the ledger does not tell,
 * by how it was come by.
 *
 * Units: dry grams. Source: GUM, JCGM 100:2008, 5.2 (from memory).
 */
export function waterParts(
  walk: BalanceWalk,
  asked: ReadingAsked,
  known: { dry: number; net: number; scale: number },
): Parts {
  const { estimate, outOf } = asked
  if (estimate.method === 'lot_water_content') {
    return absolute(
      outOf === undefined || outOf === null ? SURE : walk.wetness.of(outOf),
      known.dry,
    )
  }
  const unsure = estimate.standardUncertaintyGrams.toNumber()
  const water = Math.sqrt(Math.max(0, unsure ** 2 - known.scale ** 2))
  const isTold = estimate.weighingNo !== null || estimate.method === 'dry_test'
  if (water === 0 || !isTold) return new Map()
  const kept = waterKept(walk, asked, { water, state: asked.entry.state ?? asked.state })
  if (kept !== undefined) return namedKept(walk, asked, { kept, known })
  const { source, isUsual } = figureOf(walk, asked, known)
  if (!isUsual) return new Map([[source, water]])
  const batch = BATCH_PART_OF_PRIOR.toNumber() * water
  const ofBatch = `batch of ${asked.id}`
  nameBatch(walk, asked, ofBatch)
  return new Map([
    [source, Math.sqrt(water ** 2 - batch ** 2)],
    [ofBatch, batch],
  ])
}

function nameBatch(walk: BalanceWalk, { entry, label }: ReadingAsked, source: string): void {
  walk.sources.set(source, {
    label: `The water in ${lowered(label)}`,
    ...{ entryId: entry.entryId, state: null, isNeverNamed: true },
  })
}

/** What the ledger keeps, each under the ledger's name: the batch's own, and the figure that it rests on. */
function namedKept(
  walk: BalanceWalk,
  asked: ReadingAsked,
  { kept, known }: { kept: Parts; known: { dry: number; net: number } },
): Parts {
  for (const source of kept.keys()) {
    if (kindOfSource(source) === 'batch') nameBatch(walk, asked, source)
    else figureOf(walk, asked, { ...known, source })
  }
  return kept
}

/** The water content that a reading rests on, and whether it is one for all clay in its state. */
function figureOf(
  walk: BalanceWalk,
  asked: ReadingAsked,
  known: { dry: number; net: number; source?: string },
): { source: string; isUsual: boolean } {
  const { entry, estimate } = asked
  const content = (1 - known.dry / known.net).toFixed(4)
  const state = entry.state ?? asked.state
  const isUsual = USUAL_METHODS.includes(estimate.method)
  const { source: guessed, words } = isUsual
    ? {
        source: `usual ${state}`,
        words: `The usual water content of ${STATE_WORDS[state] ?? state}`,
      }
    : figureOfEntry(asked, content)
  const { source = guessed } = known
  // The first that rests on a figure gives it its name; what a month begins with gives it none.
  if (walk.sources.get(source)?.isNeverNamed !== false) {
    walk.sources.set(source, {
      label: words,
      entryId: isUsual ? null : entry.entryId,
      ...{ state, isNeverNamed: false },
    })
  }
  return { source, isUsual }
}

const USUAL_METHODS: readonly DryMassMethod[] = ['studio_tests', 'body_figure', 'default_for_state']

/** A figure of one entry, or of one day: one figure said twice on one day is one sample. */
function figureOfEntry(
  { entry, estimate, label }: ReadingAsked,
  content: string,
): { source: string; words: string } {
  const ofWhat = lowered(label)
  if (estimate.method === 'dry_test') {
    return { source: `test ${content}`, words: `The dry test behind ${ofWhat}` }
  }
  if (estimate.method === 'slurry_density') {
    return { source: `density ${entry.entryId}`, words: `The density behind ${ofWhat}` }
  }
  const isMeasured = estimate.standing === 'measured'
  return {
    source: `said ${content}${isMeasured ? ` on ${entry.day}` : ''}`,
    words: `The water content that was said for ${ofWhat}`,
  }
}

/** Parts of a dry mass in grams. Units: grams from parts. Source: arithmetic. */
export function absolute(wetness: Wetness, dry: number): Parts {
  return new Map([...wetness].map(([source, part]) => [source, part * dry]))
}

/** Grams as parts of a dry mass. Units: parts from grams. Source: arithmetic. */
export function relative(parts: Parts, dry: number): Wetness {
  return dry > 0 ? new Map([...parts].map(([source, part]) => [source, part / dry])) : SURE
}

/** A label as it stands within a sentence. Units: none. Source: spelling. */
export function lowered(label: string): string {
  return label.slice(0, 1).toLowerCase() + label.slice(1)
}
