import { sql } from 'drizzle-orm'
import { moneyAccount, type MoneyAccount } from '../../shared/money-accounted.ts'
import type { Database } from '../connection.ts'
import { moneyMoved } from '../money-moved.ts'
import { inSnapshot } from '../report-reading.ts'

/** Where a studio's money came from and where it is. */
export interface StudioMoney {
  readonly studioId: string
  readonly studioName: string
  readonly currency: string
  readonly account: MoneyAccount
}

/**
 * The money of every studio from the lines alone: what came in, and that all of it is in stock, out of the door or
 * lost by name.
 */
export function moneyOfStudios(db: Database): Promise<StudioMoney[]> {
  return inSnapshot(db, async (ledger) => {
    const studios = await ledger.execute<{ studioId: string; name: string; currency: string }>(
      sql`select studio_id as "studioId", name, currency from studio order by studio_id`,
    )
    const all: StudioMoney[] = []
    for (const { studioId, name, currency } of studios) {
      const account = moneyAccount(await moneyMoved(ledger, studioId))
      all.push({ studioId, studioName: name, currency, account })
    }
    return all
  })
}
