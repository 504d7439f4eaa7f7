import { openBooks } from '../../db/acts/open-books.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { g, kg, type TestStudio } from './studio.ts'

/** A morning of May. */
export const on = (day: number) => `2026-05-${String(day).padStart(2, '0')}T10:00:00Z`

/** A sample of 100 g of which so many are left when it is dry. */
export const sample = (dry: string) => ({ wetWithTin: g('100.00'), dryWithTin: g(dry) })

/** How a studio comes by clay to test: as the handbook has its water, 0.22, give or take 0.015. */
export function clayOf(studio: () => TestStudio) {
  return {
    /** Twenty kilograms of a clay on the bench. */
    open: async (lotId: string, day: number, bodyId = 'buff'): Promise<void> => {
      const clay = {
        ...{ what: 'clay' as const, bodyId, lotId },
        ...{ reading: { net: kg('20.000') }, cost: '40' },
      }
      await studio().does(openBooks, { happenedAt: on(day), items: [clay] })
    },
    /** Ten mugs of it. */
    mugs: async (runId: string, lotId: string, day: number): Promise<void> => {
      const from = [{ lotId, balls: 10, ballMass: g('400') }]
      await studio().does(throwRun, { happenedAt: on(day), formId: 'mug', runId, from })
    },
  }
}
