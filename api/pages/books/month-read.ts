import type { Context } from 'hono'
import { monthReport, type BodySheet, type MonthReport } from '../../../db/reports/month.ts'
import { monthStreamReport, type MonthStreamReport } from '../../../db/reports/month-stream.ts'
import { pieceCostReport, type PieceCostReport } from '../../../db/reports/piece-cost.ts'
import { yieldReport, type YieldReport } from '../../../db/reports/yield.ts'
import { monthOf, type Month } from '../../../shared/month.ts'
import type { Written } from '../../../shared/written.ts'
import type { Environment } from '../../services.ts'
import type { Voice } from '../voice.ts'

/** All that a month's sheet is made of. */
export interface MonthRead {
  readonly month: Month
  /** The latest month there can be: the one that the studio's wall shows. */
  readonly latest: Month
  readonly report: MonthReport
  /** The sheet that is shown: of all clays together, or of the one that was chosen. */
  readonly sheet: Written<BodySheet>
  readonly stream: MonthStreamReport
  readonly costs: PieceCostReport
  readonly yields: YieldReport
}

/** What each part of the sheet is given. */
export interface SheetProps {
  readonly read: MonthRead
  readonly voice: Voice
}

/** The month that the studio's wall shows. */
export function latestOf(c: Context<Environment>): Month {
  const { now, studio } = c.get('voice')
  return monthOf(now, studio.timeZone)
}

/** Reads what the sheet of a month, of all clays or of the one that the address names, is made of. */
export async function readMonth(c: Context<Environment>, month: Month): Promise<MonthRead> {
  const { db } = c.get('services')
  const studioId = c.get('studioId')
  const bodyId = c.req.query('bodyId')
  const [report, stream, costs, yields] = await Promise.all([
    monthReport(db, { studioId, month }),
    monthStreamReport(db, { studioId, month, bodyId }),
    pieceCostReport(db, { studioId, from: month, to: month }),
    yieldReport(db, { studioId, to: month }),
  ])
  const sheet =
    bodyId === undefined
      ? report
      : (report.bodies.find((one) => one.bodyId === bodyId) ??
        (await monthReport(db, { studioId, month, bodyId })))
  return { month, latest: latestOf(c), report, sheet, stream, costs, yields }
}
