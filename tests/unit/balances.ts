import type { Rows } from '../../shared/linear-algebra.ts'

/** Balances written as `1 = 2 + 3`: what comes in on the left, what leaves on the right. */
export function balancesOf(lines: readonly string[], flows: number): Rows {
  return lines.map((line) => {
    const [comes = [], leaves = []] = line
      .split('=')
      .map((side) => side.split('+').map((name) => Number(name)))
    return Array.from({ length: flows }, (_, index) => {
      const flow = index + 1
      return (comes.includes(flow) ? 1 : 0) - (leaves.includes(flow) ? 1 : 0)
    })
  })
}
