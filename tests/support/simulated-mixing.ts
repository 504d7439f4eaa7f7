/** Clay that was truly there, and as the books have it; shares are dry grams a wet gram. */
interface Mixed {
  trueDry: number
  trueShare: number
}

interface Booked {
  readonly bookDry: number
  readonly bookShare: number
}

/** Clay comes to other clay. */
export function mix(goal: Mixed, arriving: { trueDry: number; trueShare: number }): void {
  const wet = goal.trueDry / goal.trueShare + arriving.trueDry / arriving.trueShare
  goal.trueDry += arriving.trueDry
  if (wet > 0) goal.trueShare = goal.trueDry / wet
}

/** The dry share by the books of both together. */
export function mixedShare(goal: Booked, arriving: { dry: number; share: number }): number {
  const wet = goal.bookDry / goal.bookShare + arriving.dry / arriving.share
  return wet > 0 ? (goal.bookDry + arriving.dry) / wet : arriving.share
}
