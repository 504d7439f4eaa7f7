/**
 * What is left of some pieces when others are told apart; none where more were told than there are.
 *
 * Units: pieces. Source: arithmetic.
 */
export function piecesLeft(pieces: number, toldApart: readonly number[]): number {
  const left = pieces - piecesTogether(toldApart)
  return Number.isInteger(left) ? Math.max(0, left) : 0
}

/** Some counts together. Units: pieces. Source: arithmetic. */
export function piecesTogether(counts: readonly number[]): number {
  return counts.reduce((sum, count) => sum + Number(count), 0)
}
