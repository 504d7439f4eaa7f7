import { and, eq, gt, or } from 'drizzle-orm'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import type { Mass } from '../../shared/units.ts'
import type { Database } from '../connection.ts'
import { foundHolding, type FoundHolding } from '../holdings.ts'
import {
  performAct,
  type Act,
  type ActAnswer,
  type Circumstances,
  type Services,
} from '../perform.ts'
import { holding } from '../schema.ts'

/** The two who work in the demo studio. */
export type Potter = 'Ines' | 'Tobin'

/** Somebody at work in the demo studio on one day: acts in the order in which the clock goes. */
export interface Hand {
  readonly services: Services
  readonly studioId: string
  /** Days since the demo's first day. */
  readonly day: number
  readonly does: <Said extends Circumstances>(
    when: readonly [time: string, by: Potter],
    act: Act<Said>,
    said: Said,
  ) => Promise<ActAnswer>
  /** What a place holds, for the reading that a scale would give. */
  readonly holds: (where: { place: string; [column: string]: string }) => Promise<FoundHolding>
  /** The same, or nothing where no clay is. */
  readonly finds: (where: {
    place: string
    [column: string]: string
  }) => Promise<FoundHolding | undefined>
  /** A fixed wobble about one, other for every name and day, so that readings are not all alike. */
  readonly wobble: (name: string, by: number) => Decimal
  /** The same on every day. */
  readonly wobbleOf: (name: string, by: number) => Decimal
}

/** The moment of a day of the demo. */
export function momentAt(firstDay: Date, day: number, time: string): string {
  const date = new Date(firstDay.getTime() + day * 24 * 60 * 60 * 1000)
  return `${date.toISOString().slice(0, 10)}T${time}:00Z`
}

/** A hand for one day. */
export function handFor(
  services: Services,
  studioId: string,
  when: { firstDay: Date; day: number },
): Hand {
  const { firstDay, day } = when
  return {
    services,
    studioId,
    day,
    does: async ([time, by], act, said) => {
      const happenedAt = momentAt(firstDay, day, time)
      const deed = { act, said: { ...said, by, happenedAt } }
      return (await performAct(services, { studioId }, deed)).answer
    },
    holds: async (where) => {
      const found = await clayAt(services.db, studioId, where)
      if (found === undefined) {
        throw new Error(`The demo looked for clay where none is: ${where.place}`)
      }
      return found
    },
    finds: (where) => clayAt(services.db, studioId, where),
    wobbleOf: (name, by) => decimal(1).plus(decimal(by).times(between(name))),
    wobble: (name, by) => decimal(1).plus(decimal(by).times(between(`${name} ${String(day)}`))),
  }
}

async function clayAt(
  db: Database,
  studioId: string,
  where: { place: string; [column: string]: string },
): Promise<FoundHolding | undefined> {
  const { place, ...rest } = where
  const sames = Object.entries(rest).map(([column, value]) => eq(holding[column as 'place'], value))
  const [row] = await db
    .select()
    .from(holding)
    .where(
      and(
        eq(holding.studioId, studioId),
        eq(holding.place, place),
        or(gt(holding.dryGrams, '0'), gt(holding.materialGrams, '0'), gt(holding.pieces, '0')),
        ...sames,
      ),
    )
    .orderBy(holding.holdingId)
  return row === undefined ? undefined : foundHolding(row)
}

/** A number from −1 to 1 that a name always gives. */
function between(name: string): Decimal {
  let hash = 2166136261
  for (const character of name) {
    hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 16777619) >>> 0
  }
  return decimal(hash % 2001)
    .minus(1000)
    .dividedBy(1000)
}

/** A mass as a scale of ten grams would show it. */
export function kilograms(grams: Decimal): Mass {
  return { value: grams.dividedBy(1000).toFixed(2), unit: 'kg' }
}

/** What clay of some dry mass weighs at a water content, as a scale would show it. */
export function weighsWet(dryGrams: Decimal, waterContentWetBasis: string): Mass {
  return kilograms(dryGrams.dividedBy(decimal(1).minus(waterContentWetBasis)))
}
