import type { DemoRun } from './week.ts'

type Pattern = Omit<DemoRun, 'runId' | 'lotId' | 'lost' | 'graded'>

const BUFF = { scrapVesselId: 'red-lid-bucket', slopsVesselId: 'blue-pail' }
const WHITE = { scrapVesselId: 'white-bucket', slopsVesselId: 'white-pail' }

const PATTERNS: Readonly<Record<string, Pattern>> = {
  mug: {
    ...BUFF,
    formId: 'mug',
    by: 'Ines',
    balls: 36,
    ballKilograms: '0.420',
    turnedOffFraction: 0.06,
    priceEach: '19.00',
  },
  plate: {
    ...BUFF,
    formId: 'dinner-plate',
    by: 'Tobin',
    balls: 14,
    ballKilograms: '1.60',
    turnedOffFraction: 0.19,
    priceEach: '34.00',
  },
  planter: {
    ...BUFF,
    formId: 'planter',
    by: 'Ines',
    balls: 6,
    ballKilograms: '2.40',
    turnedOffFraction: 0.05,
    priceEach: '42.00',
  },
  bowl: {
    ...WHITE,
    formId: 'foot-ring-bowl',
    by: 'Tobin',
    balls: 12,
    ballKilograms: '0.90',
    turnedOffFraction: 0.17,
    priceEach: '27.00',
  },
}

/** From here on the plates are turned thinner than they were, so that there is a drift to be seen. */
const THINNER_PLATES = { fromWeek: 12, turnedOffFraction: 0.24 }

/** A shelf breaks in the glaze kiln: more mugs are lost than is usual, and the books tell them apart. */
const SHELF_GAVE_WAY_IN_WEEK = 10

/** How a run of some week fares: fixed by its week, so that the demo tells the same story every time. */
function fate(name: string, week: number): Pick<DemoRun, 'lost' | 'graded'> {
  const often = (every: number, rest: number) => (week % every === rest ? 1 : 0)
  const plates = name === 'plate' ? 1 : 0
  const isUnderTheShelf = name === 'mug' && week === SHELF_GAVE_WAY_IN_WEEK
  return {
    lost: { wheel: often(2, 0), drying: plates * (1 + often(3, 1)), bisque: often(4, 2) },
    graded: isUnderTheShelf
      ? { seconds: 2, wasters: 14, cause: 'a kiln shelf gave way' }
      : { seconds: 1 + often(2, 1), wasters: often(3, 0) },
  }
}

/** What is thrown in a week, from which lot each. */
export function runsOfWeek(week: number, lots: { buff: string; white: string }): DemoRun[] {
  const names = ['mug', 'plate', ...(week % 2 === 0 ? ['bowl'] : ['planter'])]
  return names.flatMap((name) => {
    const pattern = PATTERNS[name]
    if (pattern === undefined) return []
    const lotId = name === 'bowl' ? lots.white : lots.buff
    const { fromWeek, turnedOffFraction } = THINNER_PLATES
    const isThinner = name === 'plate' && week >= fromWeek
    return [
      {
        ...pattern,
        ...(isThinner ? { turnedOffFraction } : {}),
        ...fate(name, week),
        runId: `${name}-week-${String(week + 1)}`,
        lotId,
      },
    ]
  })
}
