import { wallTime, wallWords, wallWordsBeside } from '../shared/studio-clock.ts'

/** Moments as the clock on the studio's wall shows them. */
export interface WallClock {
  readonly time: (moment: Date) => string
  readonly timeOr: (moment: Date | undefined) => string | null
  readonly words: (moment: Date, beside?: Date) => string
}

/** The clock of a studio in that time zone. Units: as `wallTime` and `wallWords`. */
export function wallClock(timeZone: string): WallClock {
  const time = (moment: Date) => wallTime(moment, timeZone)
  return {
    time,
    timeOr: (moment) => (moment === undefined ? null : time(moment)),
    words: (moment, beside) =>
      beside === undefined
        ? wallWords(moment, timeZone)
        : wallWordsBeside(moment, beside, timeZone),
  }
}
