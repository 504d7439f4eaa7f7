import { and, eq, ne } from 'drizzle-orm'
import { foundHolding } from '../../db/holdings.ts'
import { holding, line } from '../../db/schema.ts'
import { standardUncertaintyOfDoubt, type Doubt } from '../../shared/doubt.ts'
import { kindOfSource } from '../../shared/doubt-source.ts'
import { NOTHING, type Held } from '../../shared/quantity.ts'
import type { TestStudio } from './studio.ts'

/** What a holding has with all that makes it unsure; nothing where there is none. */
export async function heldIn(
  { services, studioId }: TestStudio,
  where: Partial<typeof holding.$inferSelect>,
): Promise<Held> {
  const sames = Object.entries(where).map(([column, value]) =>
    eq(holding[column as 'place'], value as string),
  )
  const [row] = await services.db
    .select()
    .from(holding)
    .where(and(eq(holding.studioId, studioId), ...sames))
  return row === undefined ? NOTHING : foundHolding(row).held
}

/** Every holding inside with what it has, however many zeros the database writes behind it. */
export async function allHeld({ services, studioId }: TestStudio) {
  const rows = await services.db
    .select()
    .from(holding)
    .where(and(eq(holding.studioId, studioId), eq(holding.isInside, true)))
    .orderBy(holding.holdingId)
  return rows.map(foundHolding)
}

/** Every line but those of one entry. */
export async function linesBeside({ services, studioId }: TestStudio, entryId: string) {
  return services.db
    .select()
    .from(line)
    .where(and(eq(line.studioId, studioId), ne(line.entryId, entryId)))
    .orderBy(line.entryId, line.lineNo)
}

/** How unsure by all sources together, as a number. */
export const unsureBy = (doubt: Doubt) => standardUncertaintyOfDoubt(doubt).toNumber()

/** The sources of a kind. */
export const sourcesOf = (doubt: Doubt, kind: string) =>
  [...doubt.keys()].filter((source) => kindOfSource(source) === kind)
