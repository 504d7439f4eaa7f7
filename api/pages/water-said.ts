import { fractionOfPoints } from '../../shared/percent.ts'
import type { Typed } from './typed.ts'

/** Water that somebody says of a clay, in per cent of its wet mass, as an act is told it. */
export function waterSaid(typed: Typed, name: string) {
  const points = typed.decimal(name)
  if (points === undefined) return undefined
  return { content: fractionOfPoints(points), basis: 'wet', standing: 'stated' } as const
}
