import type { z } from '@hono/zod-openapi'

/** What is wrong between several fields, and at which of them. */
export interface FaultBetween {
  readonly message: string
  readonly path?: string[]
}

/**
 * A rule about several fields together, asked once each of them is sound by itself: what is said of a
 * mass that is no number would only confuse.
 */
export function together<Said>(faultOf: (said: Said) => FaultBetween | undefined) {
  return (said: Said, context: z.core.$RefinementCtx<Said>): void => {
    if (context.issues.length > 0) return
    const fault = faultOf(said)
    if (fault !== undefined) context.addIssue({ code: 'custom', ...fault })
  }
}

/** Only finished pots have a grade, and they all do. */
export function faultOfGrade(pots: {
  isFinished: boolean
  grade: unknown
}): FaultBetween | undefined {
  if (pots.isFinished === (pots.grade !== undefined)) return undefined
  const message = pots.isFinished
    ? 'Finished pots are firsts or seconds: which?'
    : 'Only finished pots have a grade. Leave it out.'
  return { message, path: ['grade'] }
}

/** Clay that joins a lot makes no new one that could be named. */
export function faultOfGoal(
  said: Partial<Record<'intoLotId' | 'newLotId' | 'label', unknown>>,
): FaultBetween | undefined {
  if (said.intoLotId === undefined) return undefined
  const field = (['newLotId', 'label'] as const).find((name) => said[name] !== undefined)
  if (field === undefined) return undefined
  const message = 'The clay joins intoLotId, so there is no new lot to name. Leave one of them out.'
  return { message, path: [field] }
}

/** How much it is, is said in one of some ways. */
export function faultOfOneWay<Way extends string>(
  said: Partial<Record<Way, unknown>>,
  ways: readonly Way[],
): FaultBetween | undefined {
  const taken = ways.filter((way) => said[way] !== undefined)
  if (taken.length === 1) return undefined
  const extra = taken[1]
  return {
    message: `Say how much it is in one way: ${ways.join(' or ')}.`,
    ...(extra === undefined ? {} : { path: [extra] }),
  }
}

/** Bags are as heavy as their label says, or as they were weighed. */
export function faultOfBags(
  said: Partial<Record<'bagMass' | 'reading', unknown>>,
): FaultBetween | undefined {
  if ((said.bagMass === undefined) !== (said.reading === undefined)) return undefined
  return {
    message:
      'Say how much it is in one way: bagMass (as on the label) or reading (all bags weighed).',
  }
}

/** Months run forwards: the first is not after the last. */
export function faultOfMonths(asked: {
  readonly from?: string | undefined
  readonly to?: string | undefined
}): FaultBetween | undefined {
  const { from, to } = asked
  if (from === undefined || to === undefined || from <= to) return undefined
  return { message: `The last month is before the first, ${from}.`, path: ['to'] }
}
