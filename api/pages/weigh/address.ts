import type { WeighableThing } from '../../../db/reports/weigh-list.ts'

/** The page on which a thing is weighed. A bat's printed code leads to whatever lies on it. */
export function weighAddress({ kind, id, batId }: WeighableThing): string {
  if (kind === 'load' && batId !== null) return `/weigh/bat/${batId}`
  return `/weigh/${kind === 'load' ? 'lot' : kind}/${id}`
}
