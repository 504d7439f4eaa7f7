import type { FormThrown } from '../../../db/reports/throwing.ts'
import { gramsFrom, type Mass } from '../../../shared/units.ts'
import { massOfGrams } from '../begun-with.ts'
import type { Voice } from '../voice.ts'

/** The ball that a form is cut from: as the last time, else as the catalogue has it. */
export function ballOf({ lastBallMass, ballGrams }: FormThrown): Mass | undefined {
  return lastBallMass ?? massOfGrams(ballGrams)
}

/** How a form was cut the last time: `36 × 420 g, 12 Mar 2026`. */
export function cutWords(form: FormThrown, voice: Voice): string {
  const ball = ballOf(form)
  const size = ball === undefined ? '' : voice.mass(gramsFrom(ball))
  const cut = form.lastBalls === null ? size : `${String(form.lastBalls)} × ${size}`
  const when = form.lastThrownAt === null ? 'not thrown yet' : voice.day(form.lastThrownAt)
  return [cut, when].filter((words) => words !== '').join(' · ')
}
