import { Refusal } from '../../shared/refusal.ts'
import type { RefusalCode } from '../../shared/refusal.ts'

/** The code with which an act was refused, or what came instead. */
export function refusedWith(act: () => unknown): RefusalCode | string {
  try {
    act()
    return 'nothing was refused'
  } catch (error) {
    if (error instanceof Refusal) return error.code
    throw error
  }
}
