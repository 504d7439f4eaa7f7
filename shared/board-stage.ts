import { decimal, type Decimal } from './decimal.ts'
import { percentWords } from './percent.ts'

/** What a board of unfired pots waits for, in the order in which it passes. */
export const BOARD_STAGES = ['just_thrown', 'to_turn', 'drying', 'for_bisque'] as const
export type BoardStage = (typeof BOARD_STAGES)[number]

/** What the books know of a board. They are told when a pot was worked on, and not how it dries. */
export interface PotsOnBoard {
  readonly now: Date
  readonly thrownAt: Date
  /** When it was last thrown, turned or joined to. */
  readonly workedAt: Date
  readonly isTurned: boolean
  /** Whether its form is turned at all. */
  readonly isTurnedUsually: boolean
  /** The last weigh-in of these pots since they were worked on. */
  readonly weighed: { readonly at: Date; readonly waterContentWetBasis: Decimal } | null
}

export interface StageFound {
  readonly stage: BoardStage
  /** True where the hours alone tell it. */
  readonly isGuess: boolean
  readonly words: string
}

const HOUR_MILLISECONDS = 60 * 60 * 1000
const DAY_HOURS = 24

/** Leather-hard comes 6 to 24 hours after throwing where nothing covers it. */
const LEATHER_HARD_HOURS = { from: 6, to: 24 }
/** A mixed board is dry after about 7 days; mugs after 3, large pots after 21. */
const DRYING_DAYS = 7
/** Below this, clay is stiffer than a tool turns well. */
const TURNS_ABOVE_WET_BASIS = decimal('0.12')
/** Bone-dry clay holds 1 to 3 % of water from the air. */
const BONE_DRY_WET_BASIS = decimal('0.03')

/**
 * What a board waits for: by its last weigh-in where that tells it, by the hours otherwise.
 *
 * Units: hours, days, fractions of the wet mass.
 * Source: handbook, section 1, stages leather-hard, turning and drying; common practice, no source.
 */
export function boardStage(pots: PotsOnBoard): StageFound {
  return stageByScale(pots) ?? stageByHours(pots)
}

function stageByScale(pots: PotsOnBoard): StageFound | undefined {
  const { weighed } = pots
  if (weighed === null) return undefined
  const share = percentWords(weighed.waterContentWetBasis)
  const words = `${share} water when it was weighed ${agoWords(pots, weighed.at)}`
  if (weighed.waterContentWetBasis.lessThanOrEqualTo(BONE_DRY_WET_BASIS)) {
    return { stage: 'for_bisque', isGuess: false, words: `${words}: bone-dry.` }
  }
  if (daysSince(pots, weighed.at) >= DRYING_DAYS) return undefined
  if (waitsForTool(pots) && weighed.waterContentWetBasis.greaterThan(TURNS_ABOVE_WET_BASIS)) {
    return undefined
  }
  const late = waitsForTool(pots) ? ' Too dry to turn.' : ''
  return { stage: 'drying', isGuess: false, words: `${words}.${late}` }
}

function stageByHours(pots: PotsOnBoard): StageFound {
  const { thrownAt, workedAt } = pots
  const hours = hoursSince(pots, thrownAt)
  const days = daysSince(pots, workedAt)
  if (!pots.isTurned && hours < LEATHER_HARD_HOURS.from) {
    const words = `Thrown ${agoWords(pots, thrownAt)}. Leather-hard after 6 to 24 hours uncovered.`
    return { stage: 'just_thrown', isGuess: true, words }
  }
  if (waitsForTool(pots) && days < DRYING_DAYS) {
    const late =
      hours > LEATHER_HARD_HOURS.to ? 'Turn it soon, unless it is wrapped.' : 'Leather-hard by now.'
    const words = `Thrown ${agoWords(pots, thrownAt)}, not turned. ${late}`
    return { stage: 'to_turn', isGuess: true, words }
  }
  if (days < DRYING_DAYS) {
    const words = `Worked on ${agoWords(pots, workedAt)}. Dry after about a week; mugs sooner, large pots later.`
    return { stage: 'drying', isGuess: true, words }
  }
  const words = `Worked on ${agoWords(pots, workedAt)}: likely bone-dry. Its weight tells for sure.`
  return { stage: 'for_bisque', isGuess: true, words }
}

function waitsForTool({ isTurned, isTurnedUsually }: PotsOnBoard): boolean {
  return !isTurned && isTurnedUsually
}

function hoursSince({ now }: PotsOnBoard, moment: Date): number {
  return (now.getTime() - moment.getTime()) / HOUR_MILLISECONDS
}

function daysSince(pots: PotsOnBoard, moment: Date): number {
  return hoursSince(pots, moment) / DAY_HOURS
}

function agoWords(pots: PotsOnBoard, moment: Date): string {
  const hours = Math.floor(hoursSince(pots, moment))
  if (hours < 1) return 'just now'
  const days = Math.floor(hours / DAY_HOURS)
  const [many, unit] = days >= 2 ? [days, 'days'] : [hours, hours === 1 ? 'hour' : 'hours']
  return `${String(many)} ${unit} ago`
}
