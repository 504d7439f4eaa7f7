/**
 * Where a checked value comes from, and how well we know that it stands there: seen at its source, seen
 * in a copy, written down from memory, or computed by us from the stated inputs.
 */
export interface Cited {
  readonly source: string
  readonly standing: 'seen' | 'second-hand' | 'from memory' | 'computed'
}
