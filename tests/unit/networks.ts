import fc from 'fast-check'
import type { Rows } from '../../shared/linear-algebra.ts'

/** A network that clay could flow through, with flows that obey its balances. */
export interface FeasibleNetwork {
  readonly balances: Rows
  readonly trueFlows: readonly number[]
  readonly variances: readonly number[]
  readonly errors: readonly number[]
}

/**
 * A chain through up to six nodes, from outside and back there, with further flows between any two of
 * them: what each brings somewhere is carried back along the chain, so that all nodes stay in balance.
 */
export const feasibleNetwork: fc.Arbitrary<FeasibleNetwork> = fc
  .integer({ min: 2, max: 6 })
  .chain((nodes) =>
    fc.record({
      nodes: fc.constant(nodes),
      through: fc.double({ min: 1, max: 100, noNaN: true }),
      // Further flows: from a node to another, or to and from the outside, which has no balance.
      extra: fc.array(
        fc.record({
          from: fc.integer({ min: 0, max: nodes }),
          to: fc.integer({ min: 0, max: nodes }),
          amount: fc.double({ min: 0.5, max: 50, noNaN: true }),
        }),
        { maxLength: 8 },
      ),
      seed: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), {
        minLength: 24,
        maxLength: 24,
      }),
      spread: fc.array(fc.double({ min: 0.01, max: 10, noNaN: true }), {
        minLength: 24,
        maxLength: 24,
      }),
    }),
  )
  .map(({ nodes, through, extra, seed, spread }) => {
    const outside = nodes
    const rings = extra.filter(({ from, to }) => from !== to)
    // The chain passes all nodes; every ring adds its flow there and carries it back along the chain.
    const ends = [
      ...Array.from({ length: nodes + 1 }, (_, index) => ({
        from: index === 0 ? outside : index - 1,
        to: index === nodes ? outside : index,
        amount: rings.reduce(
          (sum, ring) => sum + (passes(ring, { index, nodes }) ? ring.amount : 0),
          through,
        ),
      })),
      ...rings,
    ]
    return {
      balances: Array.from({ length: nodes }, (_, node) =>
        ends.map(({ from, to }) => (to === node ? 1 : 0) - (from === node ? 1 : 0)),
      ),
      trueFlows: ends.map(({ amount }) => amount),
      variances: ends.map((_, index) => spread[index] ?? 1),
      errors: ends.map((_, index) => seed[index] ?? 0),
    }
  })

/** Whether what a ring brought from one node to another has to pass a link of the chain to get back. */
function passes(
  { from, to }: { from: number; to: number },
  { index, nodes }: { index: number; nodes: number },
): boolean {
  // Link number `index` leads to node `index`; the last leads outside, which counts as node `nodes`.
  for (let node = to; node !== from; node = node === nodes ? 0 : node + 1) {
    const next = node === nodes ? 0 : node + 1
    if (next === index) return true
  }
  return false
}
