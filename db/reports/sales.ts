import { sql } from 'drizzle-orm'
import { doubtRead, standardUncertaintyOfDoubt } from '../../shared/doubt.ts'
import type { Month } from '../../shared/month.ts'
import type { Database } from '../connection.ts'
import { refuseUnknown } from '../entry-filters.ts'
import { momentKey, olderThan, pageFrom, type Page, type PageAsked } from '../page-keys.ts'
import { endOf, inSnapshot, isoText, startOf } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { trailTo, trailToAny } from '../trail-links.ts'

export interface SaleListed {
  readonly entryId: string
  readonly happenedAt: string
  readonly formId: string
  readonly formName: string
  readonly grade: string
  readonly pieces: number
  readonly priceEach: string
  readonly paid: string
  readonly channel: string
  /** What the pieces had cost in clay. */
  readonly cost: string
  /** One standard uncertainty of that. */
  readonly costUncertainty: string
  readonly runIds: readonly string[]
  readonly reversedByEntryId: string | null
  readonly links: {
    readonly entry: string
    readonly form: string
    readonly runs: readonly string[]
    readonly reversedBy: string | null
  }
}

type SaleRow = Omit<SaleListed, 'links' | 'costUncertainty'> & {
  key: string
  costDoubt: unknown
} & Record<string, unknown>

/**
 * Sales, the newest first, with what the pieces had cost. One that was taken back stays and says so.
 *
 * Grain: one row a sale. Refuses: `studio_not_found`, `form_not_found`.
 */
export function listSales(
  db: Database,
  asked: {
    studioId: string
    month?: Month | undefined
    formId?: string | undefined
    page: PageAsked
  },
): Promise<Page<SaleListed>> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, month, formId, page } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    await refuseUnknown(ledger, studioId, { formId })
    const rows = await ledger.execute<SaleRow>(sql`
      select s.entry_id as "entryId", ${isoText(sql`e.happened_at`)} as "happenedAt",
             s.form_id as "formId", f.name as "formName", s.grade as "grade", s.pieces as "pieces",
             s.price_each as "priceEach", s.price_each * s.pieces as "paid", s.channel as "channel",
             coalesce(-sum(l.cost), 0) as "cost",
             doubts_summed(array_agg(l.cost_doubt)) as "costDoubt",
             coalesce(array_agg(distinct h.run_id) filter (where h.run_id is not null), '{}') as "runIds",
             t.entry_id as "reversedByEntryId",
             ${momentKey(sql`e.happened_at`)} || '|' || e.entry_id as "key"
        from sale s
        join entry e on e.studio_id = s.studio_id and e.entry_id = s.entry_id
        join form f on f.studio_id = s.studio_id and f.form_id = s.form_id
        left join entry t on t.studio_id = s.studio_id and t.reverses_entry_id = s.entry_id
        join line l on l.studio_id = s.studio_id and l.entry_id = s.entry_id
        join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id and h.is_inside
       where s.studio_id = ${studioId}
         ${formId === undefined ? sql`` : sql`and s.form_id = ${formId}`}
         ${month === undefined ? sql`` : sql`and e.happened_at >= ${startOf(month, timeZone)} and e.happened_at < ${endOf(month, timeZone)}`}
         ${olderThan(page.after, { moment: sql`e.happened_at`, id: sql`e.entry_id` })}
       group by s.entry_id, e.happened_at, s.form_id, f.name, s.grade, s.pieces, s.price_each,
                s.channel, t.entry_id, e.entry_id
       order by e.happened_at desc, e.entry_id desc
       limit ${page.limit + 1}`)
    return pageFrom(rows, page, { key: (row) => row.key, item: viewSale })
  })
}

function viewSale({ key: _key, costDoubt, ...row }: SaleRow): SaleListed {
  return {
    ...row,
    costUncertainty: standardUncertaintyOfDoubt(doubtRead(costDoubt)).toFixed(),
    links: {
      entry: trailTo('entries', row.entryId),
      form: trailTo('forms', row.formId),
      runs: row.runIds.map((runId) => trailTo('runs', runId)),
      reversedBy: trailToAny('entries', row.reversedByEntryId),
    },
  }
}
