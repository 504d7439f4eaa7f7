import { monthOf, type Month } from '../../shared/month.ts'
import { Refusal } from '../../shared/refusal.ts'
import { sql } from 'drizzle-orm'
import type { Act, Circumstances } from '../perform.ts'
import { monthClosing } from '../schema.ts'

export interface CloseMonthSaid extends Circumstances {
  readonly month: Month
}

/**
 * The books of a month are closed, and of every month before it. From then on nothing is dated into
 * them; what turns out to be wrong is corrected in an open month.
 */
export const closeMonth: Act<CloseMonthSaid> = {
  kind: 'close_month',
  async write(book, said) {
    const { studio, happenedAt, entryId } = book.facts
    // Taken before anything is read, and alone: posting shares it, so nobody slips in meanwhile.
    await book.ledger.execute(
      sql`select pg_advisory_xact_lock(hashtextextended('month closing of ' || ${book.studioId}, 0))`,
    )
    if (said.month >= monthOf(happenedAt, studio.timeZone)) {
      throw new Refusal(
        'month_must_be_over',
        `${said.month} is not over yet on the studio's wall. Close it when it is.`,
        { pointer: '/month' },
      )
    }
    const [last] = await book.ledger
      .select({ month: sql<string | null>`max(${monthClosing.month})` })
      .from(monthClosing)
      .where(sql`${monthClosing.studioId} = ${book.studioId}`)
    const closedUpTo = last?.month ?? ''
    if (closedUpTo >= said.month) {
      throw new Refusal(
        'month_must_be_open',
        `${said.month} is closed already, with all up to ${closedUpTo}.`,
        {
          pointer: '/month',
        },
      )
    }
    await book.ledger
      .insert(monthClosing)
      .values({ studioId: book.studioId, month: said.month, entryId })
    return { month: said.month }
  },
}
