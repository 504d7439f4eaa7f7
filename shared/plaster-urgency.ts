import type { PlasterAct } from './plaster-advice.ts'

/** How a slab on plaster stands, as one word on a board says it; the first needs somebody soonest. */
export const SLAB_STANDINGS = [
  'too_dry',
  'ready',
  'ask_the_scale',
  'bat_is_tired',
  'to_turn',
  'drying',
] as const
export type SlabStanding = (typeof SLAB_STANDINGS)[number]

const STANDING_OF: Readonly<Record<PlasterAct, SlabStanding>> = {
  lift_and_wet: 'too_dry',
  lift: 'ready',
  weigh: 'ask_the_scale',
  move_to_dry_bat: 'bat_is_tired',
  turn: 'to_turn',
  leave: 'drying',
}

/** What of a slab tells how soon somebody has to come. */
export interface SlabAwaited {
  readonly advice: { readonly act: string } | null
  /** Moments by one clock, as ISO 8601. */
  readonly readyAt: { readonly median: string | null } | null
}

/**
 * How a slab stands, by what is advised; one of which nothing is advised just dries.
 *
 * Units: none. Source: as `plasterAdvice`.
 */
export function slabStanding({ advice }: Pick<SlabAwaited, 'advice'>): SlabStanding {
  return STANDING_OF[advice?.act as PlasterAct] ?? 'drying'
}

/**
 * The slabs in the order in which somebody has to come: what spoils, what is ready, what nobody can say
 * without the scale, what waits for a dry bat or a turn; then the one that is ready sooner.
 *
 * Shape: a new list of the same. Units: none. Source: our choice.
 */
export function mostUrgentFirst<Slab extends SlabAwaited>(slabs: readonly Slab[]): Slab[] {
  const rank = (slab: Slab) => SLAB_STANDINGS.indexOf(slabStanding(slab))
  return slabs.toSorted(
    (one, other) => rank(one) - rank(other) || readyTime(one) - readyTime(other),
  )
}

function readyTime({ readyAt }: SlabAwaited): number {
  const median = readyAt?.median ?? null
  return median === null ? Number.MAX_VALUE : new Date(median).getTime()
}

/**
 * Empty bats in the order in which they should be used: what nothing has lain on yet, then what was
 * emptied longest ago, for plaster takes days to dry.
 *
 * Shape: a new list of the same; of one moment, as they came. Units: moments by one clock, as ISO 8601.
 * Source: our choice; that a bat needs several days to dry is common practice.
 */
export function driestFirst<Bat extends { readonly emptySince: string | null }>(
  bats: readonly Bat[],
): Bat[] {
  const emptied = ({ emptySince }: Bat) =>
    emptySince === null ? 0 : new Date(emptySince).getTime()
  return bats.toSorted((one, other) => emptied(one) - emptied(other))
}
