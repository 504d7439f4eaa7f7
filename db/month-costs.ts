import { sql } from 'drizzle-orm'
import { ALL_CLAY, layersOfSum, layersRead } from '../shared/cost-layer.ts'
import { decimal, ZERO } from '../shared/decimal.ts'
import { minorUnitDigits } from '../shared/money.ts'
import {
  formCostOfMonth,
  monthCosts,
  type FormCostOfMonth,
  type MonthCosts,
} from '../shared/month-costs.ts'
import type { Month } from '../shared/month.ts'
import { partedWith } from '../shared/piece-cost.ts'
import { runsTogether } from '../shared/run-flows.ts'
import type { Transaction } from './connection.ts'
import { packedOf } from './packed.ts'
import { endOf, startOf } from './report-reading.ts'
import { readRunFlows } from './run-flows.ts'
import type { StudioFacts } from './studio.ts'
import { entriesTrail } from './trail-links.ts'
import { moneyMoved } from './money-moved.ts'

interface FormOfMonth extends FormCostOfMonth {
  readonly formId: string
  readonly formName: string
  readonly trail: string
}

/** What a month cost: of all clays and materials together, by layer; and what was sold, form by form. */
export interface MonthCostsRead extends MonthCosts {
  readonly forms: readonly FormOfMonth[]
  readonly trail: string
}

/** Reads what a month of a studio cost. Units: money, exact and as printed. */
export async function readMonthCosts(
  ledger: Transaction,
  studio: StudioFacts,
  month: Month,
): Promise<MonthCostsRead> {
  const { studioId, timeZone, currency } = studio
  const digits = minorUnitDigits(currency)
  const [from, to] = [startOf(month, timeZone), endOf(month, timeZone)]
  const moved = await moneyMoved(
    ledger,
    studioId,
    sql`and e.happened_at >= ${from} and e.happened_at < ${to}`,
  )
  return {
    ...monthCosts({ opening: await stockBefore(ledger, studio, month), moved }, digits),
    forms: await formsOf(ledger, studio, month),
    trail: entriesTrail({ month }),
  }
}

/** Grain: one row: what the studio held of money before a month began. */
async function stockBefore(ledger: Transaction, { studioId, timeZone }: StudioFacts, month: Month) {
  const [row] = await ledger.execute<{ cost: string; costLayers: unknown }>(sql`
    select coalesce(sum(l.cost), 0) as "cost",
           doubts_summed(array_agg(l.cost_layers)) as "costLayers"
      from line l
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
     where l.studio_id = ${studioId} and h.is_inside and e.happened_at < ${startOf(month, timeZone)}`)
  return { cost: decimal(row?.cost ?? '0'), costLayers: layersRead(row?.costLayers) }
}

async function formsOf(
  ledger: Transaction,
  { studioId, timeZone, currency }: StudioFacts,
  month: Month,
): Promise<FormOfMonth[]> {
  const months = { studioId, timeZone, from: month, to: month }
  const runs = await readRunFlows(ledger, months)
  const packed = await packedOf(ledger, months)
  const formIds = [...new Set(runs.map((run) => run.formId))]
  return formIds.flatMap((formId) => {
    const mine = runs.filter((run) => run.formId === formId)
    const sold = partedWith(runsTogether(mine), 'sell')
    if (!sold.pieces.greaterThan(0)) return []
    const boxes = packed.get(formId)
    const costed = formCostOfMonth(
      {
        pieces: sold.pieces,
        firedGrams: sold.dryGrams.plus(sold.materialGrams),
        cost: sold.cost.plus(boxes?.cost.amount ?? ZERO),
        costLayers: layersOfSum([sold.costLayers, boxes?.costLayers ?? ALL_CLAY]),
      },
      minorUnitDigits(currency),
    )
    const trail = entriesTrail({ formId, flow: 'sold', month })
    return [{ formId, formName: mine[0]?.formName ?? formId, ...costed, trail }]
  })
}
