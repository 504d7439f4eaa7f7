import { asc, eq, gt } from 'drizzle-orm'
import { present } from '../shared/assert.ts'
import { Refusal } from '../shared/refusal.ts'
import type { SecondsCostRule } from '../shared/seconds-cost.ts'
import type { Jurisdiction } from '../shared/silica.ts'
import type { TradeSpeech } from '../shared/trade-words.ts'
import type { DateOrder } from '../shared/written-day.ts'
import type { MassSystem } from '../shared/written-mass.ts'
import type { PageAsked } from './catalogue.ts'
import type { Database } from './connection.ts'
import type { Services } from './perform.ts'
import { inLedger } from './posting.ts'
import { studio } from './schema.ts'

export interface StudioView {
  readonly studioId: string
  readonly name: string
  readonly currency: string
  readonly timeZone: string
  readonly jurisdiction: Jurisdiction
  /** Makers are compared with each other only where the studio asked for it. */
  readonly comparesMakers: boolean
  readonly createdAt: string
  /** How its pages write masses and days, and whose form of the trade's words they use. */
  readonly massUnits: MassSystem
  readonly dateOrder: DateOrder
  readonly tradeWords: TradeSpeech
  /** How firsts and seconds share what they cost, and what a second fetches of a first's price. */
  readonly secondsCostRule: SecondsCostRule
  readonly secondsPriceFraction: string
  /** What an hour is to be worth: compared with, never part of a cost. */
  readonly hourlyFigure: string | null
}

/** What of a studio may be left out when it is entered: the database knows what is usual. */
type Ways =
  | 'comparesMakers'
  | 'massUnits'
  | 'dateOrder'
  | 'tradeWords'
  | 'secondsCostRule'
  | 'secondsPriceFraction'
  | 'hourlyFigure'

export type NewStudio = Omit<StudioView, 'studioId' | 'createdAt' | Ways> & {
  readonly [Way in Ways]?: StudioView[Way] | undefined
} & { readonly studioId?: string | undefined }

/** What of a studio may change. Currency and clock may not: what is recorded was recorded in them. */
export type StudioChanges = {
  readonly [Field in 'name' | 'jurisdiction' | Ways]?: StudioView[Field] | undefined
}

/** Enters a studio. Refuses: `name_must_be_new`. */
export async function createStudio(services: Services, said: NewStudio): Promise<StudioView> {
  const studioId = said.studioId ?? services.newId()
  const [row] = await inLedger(services.db, (ledger) =>
    ledger
      .insert(studio)
      .values({
        ...said,
        studioId,
        createdAt: services.now(),
      })
      .returning(),
  )
  return shown(present(row, 'what was entered is there'))
}

/** Changes a studio. Refuses: `studio_not_found`. */
export async function changeStudio(
  services: Services,
  studioId: string,
  changes: StudioChanges,
): Promise<StudioView> {
  const { name, jurisdiction, comparesMakers, massUnits, dateOrder, tradeWords } = changes
  const { secondsCostRule, secondsPriceFraction, hourlyFigure } = changes
  const [row] = await inLedger(services.db, (ledger) =>
    ledger
      .update(studio)
      .set({
        ...{ name, jurisdiction, comparesMakers, massUnits, dateOrder, tradeWords },
        ...{ secondsCostRule, secondsPriceFraction, hourlyFigure },
      })
      .where(eq(studio.studioId, studioId))
      .returning(),
  )
  return shown(row ?? notThere(studioId))
}

/** The studios, by id. */
export async function listStudios(db: Database, page: PageAsked): Promise<StudioView[]> {
  const rows = await db
    .select()
    .from(studio)
    .where(page.after === undefined ? undefined : gt(studio.studioId, page.after))
    .orderBy(asc(studio.studioId))
    .limit(page.limit)
  return rows.map(shown)
}

/** The studio of that id. Refuses: `studio_not_found`. */
export async function viewStudio(db: Database, studioId: string): Promise<StudioView> {
  const [row] = await db.select().from(studio).where(eq(studio.studioId, studioId))
  return shown(row ?? notThere(studioId))
}

/**
 * The studio that is meant: the one that was named, or the only one there is.
 *
 * Refuses: `studio_not_found`, `studio_must_be_named`.
 */
export async function studioMeant(db: Database, named: string | undefined): Promise<string> {
  if (named !== undefined) return (await viewStudio(db, named)).studioId
  const [only, other] = await listStudios(db, { limit: 2 })
  if (only !== undefined && other === undefined) return only.studioId
  throw new Refusal(
    'studio_must_be_named',
    only === undefined
      ? 'There is no studio yet. Enter one by POST /v1/studios.'
      : 'There are several studios. Name the one that is meant in the header Studio-Id.',
  )
}

function notThere(studioId: string): never {
  throw new Refusal('studio_not_found', `There is no studio '${studioId}'.`, {
    facts: { id: studioId },
  })
}

function shown(row: typeof studio.$inferSelect): StudioView {
  return {
    ...row,
    jurisdiction: row.jurisdiction as Jurisdiction,
    massUnits: row.massUnits as MassSystem,
    dateOrder: row.dateOrder as DateOrder,
    tradeWords: row.tradeWords as TradeSpeech,
    secondsCostRule: row.secondsCostRule as SecondsCostRule,
    createdAt: row.createdAt.toISOString(),
  }
}
