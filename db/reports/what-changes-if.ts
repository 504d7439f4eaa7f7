import { and, eq } from 'drizzle-orm'
import { ALL_CLAY } from '../../shared/cost-layer.ts'
import { costBeforeChange } from '../../shared/cost-before-change.ts'
import { Decimal, decimal, ONE, ZERO } from '../../shared/decimal.ts'
import { surely } from '../../shared/how-sure.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import type { Month } from '../../shared/month.ts'
import { partedWith, pieceCost, type RunSold } from '../../shared/piece-cost.ts'
import { runsTogether, wentFrom, type RunFlows } from '../../shared/run-flows.ts'
import {
  effectsOf,
  pricesThatKeepMargin,
  totalOf,
  type Change,
  type Effects,
  type PieceCostByLayer,
  type PricesThatKeep,
} from '../../shared/what-changes-if.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { packedOf } from '../packed.ts'
import { inSnapshot } from '../report-reading.ts'
import { readRunFlows, type MonthsAsked } from '../run-flows.ts'
import { form } from '../schema.ts'
import { findForm, findStudio } from '../studio.ts'
import { entriesTrail } from '../trail-links.ts'

export interface WhatIfAsked {
  readonly studioId: string
  readonly formId: string
  readonly from?: Month | undefined
  readonly to?: Month | undefined
  readonly change: Change
}

interface Report {
  readonly studioId: string
  readonly currency: string
  readonly formId: string
  /** Null where none of it was sold in that time. */
  readonly before: (PieceCostByLayer & { readonly total: Decimal }) | null
  readonly effects: Effects | null
  readonly prices: PricesThatKeep | null
  readonly words: string
  readonly trail: string
}

export type WhatIfReport = Written<Report>

/**
 * What a sold piece of a form would cost if prices, yields or the filling of the kiln changed.
 *
 * Units: money a piece. Refuses: `studio_not_found`, `form_not_found`.
 */
export function whatIfReport(db: Database, asked: WhatIfAsked): Promise<WhatIfReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, formId, from, to, change } = asked
    const { currency, timeZone } = await findStudio(ledger, studioId)
    await findForm(ledger, studioId, formId)
    const digits = minorUnitDigits(currency)
    const months = { studioId, timeZone, formId, from, to }
    const before = await costBefore(ledger, months, digits)
    const trail = entriesTrail({ formId, flow: 'sold', fromMonth: from, toMonth: to })
    const named = { studioId, currency, formId, trail }
    if (before === null) {
      const words = 'Nothing of this form was sold in that time.'
      return written<Report>({ ...named, before: null, effects: null, prices: null, words })
    }
    const effects = effectsOf(before, withinReach(change, before))
    const total = totalOf(before)
    const price = await priceOf(ledger, studioId, formId)
    const after = effects.together.total
    const prices =
      price === null ? null : pricesThatKeepMargin({ price, before: total, after }, digits)
    const words = prices?.words ?? 'No price is said of this form, so none can be worked out anew.'
    return written<Report>({ ...named, before: { ...before, total }, effects, prices, words })
  })
}

/** What a sold piece cost; null where none was sold. */
async function costBefore(
  ledger: Transaction,
  months: MonthsAsked & { readonly formId: string },
  digits: number,
): Promise<PieceCostByLayer | null> {
  const sold = await readRunFlows(ledger, months)
  const made = await readRunFlows(ledger, { ...months, from: undefined })
  const packed = (await packedOf(ledger, months)).get(months.formId)
  const runs = made
    .map((run, index) => soldOf(run, sold[index] ?? run))
    .filter(({ soldPieces }) => soldPieces.greaterThan(0))
  const costed = pieceCost(runs, packed ?? UNPACKED, digits)
  if (costed === null) return null
  return costBeforeChange(costed, runsTogether(runs.map((run) => run.made)))
}

const UNPACKED = { cost: surely(ZERO), costLayers: ALL_CLAY }

function soldOf(made: RunFlows, sold: RunFlows): RunSold {
  const { pieces, cost, costLayers, costDoubt } = partedWith(sold, 'sell')
  const ofGrade = (grade: 'first' | 'second') => wentFrom(sold, { kinds: ['sell'], grade }).pieces
  return {
    ...{ made, soldPieces: pieces, soldLayers: costLayers, deliveries: null },
    soldByGrade: { first: ofGrade('first'), second: ofGrade('second') },
    soldCost: { amount: cost, doubt: costDoubt },
  }
}

async function priceOf(ledger: Transaction, studioId: string, formId: string) {
  const [row] = await ledger
    .select({ price: form.price })
    .from(form)
    .where(and(eq(form.studioId, studioId), eq(form.formId, formId)))
  return row === undefined || row.price === null ? null : decimal(row.price)
}

/** No more comes through than all of it, and never nothing. */
function withinReach(change: Change, { yieldAfterBisque }: PieceCostByLayer): Change {
  const { yieldAfterBisqueRise } = change
  if (yieldAfterBisqueRise === undefined) return change
  const wanted = yieldAfterBisque.plus(yieldAfterBisqueRise)
  const least = decimal('0.01')
  const reached = Decimal.min(ONE, Decimal.max(least, wanted))
  return { ...change, yieldAfterBisqueRise: reached.minus(yieldAfterBisque) }
}
