import { sql } from 'drizzle-orm'
import { ALL_CLAY, type AnyLayer } from '../../shared/cost-layer.ts'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { standardUncertaintyOfDoubt } from '../../shared/doubt.ts'
import { surely, unsureSum, type HowSure } from '../../shared/how-sure.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import type { Month } from '../../shared/month.ts'
import {
  costPerPieceOf,
  partedWith,
  pieceCost,
  type CostStep,
  type Deliveries,
  type Packed,
  type PieceCost,
  type RunSold,
} from '../../shared/piece-cost.ts'
import { untoldOf, untoldWords } from '../../shared/piece-cost-fired.ts'
import { runsTogether, wentFrom } from '../../shared/run-flows.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { deliveriesOf } from '../deliveries.ts'
import { packedOf } from '../packed.ts'
import { endOf, inSnapshot, startOf } from '../report-reading.ts'
import { readRunFlows, type MonthsAsked, type NamedRunFlows } from '../run-flows.ts'
import { findForm, findStudio, type StudioFacts } from '../studio.ts'
import { entriesTrail } from '../trail-links.ts'

export interface PieceCostAsked {
  readonly studioId: string
  readonly formId?: string | undefined
  /** The months in which pieces were sold, both ends included. */
  readonly from?: Month | undefined
  readonly to?: Month | undefined
}

interface PartedWith {
  readonly pieces: Decimal
  readonly cost: Decimal
  readonly costPerSoldPiece: Decimal | null
}

interface FormCost {
  readonly formId: string
  readonly formName: string
  /** Empty where nothing was sold. */
  readonly steps: readonly CostStep[]
  readonly costPerSoldPiece: Decimal | null
  readonly costPerSoldPieceShown: string | null
  /** What of it is clay, glaze, firing energy, wear and packaging; null where nothing was sold. */
  readonly costByLayer: Readonly<Record<AnyLayer, Decimal>> | null
  readonly costByLayerShown: Readonly<Record<AnyLayer, string>> | null
  /** Of the cost of a sold piece; null where nothing was sold. */
  readonly sure: HowSure | null
  readonly words: string
  readonly soldPieces: Decimal
  readonly soldFirsts: Decimal
  readonly soldSeconds: Decimal
  readonly soldCost: Decimal
  readonly soldCostUncertainty: Decimal
  readonly revenue: Decimal
  readonly brokenInShop: PartedWith
  readonly givenAway: PartedWith
  readonly kept: PartedWith
  readonly trail: string
}

interface Report {
  readonly studioId: string
  readonly currency: string
  readonly from: Month | null
  readonly to: Month | null
  readonly forms: readonly FormCost[]
}

export type PieceCostReport = Written<Report>

/**
 * What a sold piece of each form cost in clay, glaze, fire, wear and packaging, from the price of the bag to what it
 * really took.
 *
 * Labour is not in the books and not in the figure; what was never told of a glaze or a fire is named.
 *
 * Units: money at ledger scale and as printed; pieces.
 * Refuses: `studio_not_found`, `form_not_found`.
 */
export function pieceCostReport(db: Database, asked: PieceCostAsked): Promise<PieceCostReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, formId, from, to } = asked
    const studio = await findStudio(ledger, studioId)
    if (formId !== undefined) await findForm(ledger, studioId, formId)
    const months: MonthsAsked = { studioId, timeZone: studio.timeZone, from, to }
    const made = await readRunFlows(ledger, { ...months, from: undefined, formId })
    const sold = await readRunFlows(ledger, { ...months, formId })
    const runs = made.map((run, index) => ({ made: run, sold: sold[index] ?? run }))
    const deliveries = await deliveriesOf(ledger, { ...months, from: undefined })
    const revenues = await revenuesOf(ledger, months)
    const packed = await packedOf(ledger, months)
    const formIds = [...new Set(made.map((run) => run.formId))]
    const report: Report = {
      studioId,
      currency: studio.currency,
      from: from ?? null,
      to: to ?? null,
      forms: formIds.map((id) =>
        formCost(
          runs.filter((run) => run.made.formId === id),
          {
            ...{ studio, deliveries, asked },
            revenue: revenues.get(id) ?? ZERO,
            packed: packed.get(id) ?? UNPACKED,
          },
        ),
      ),
    }
    return written(report)
  })
}

const UNPACKED: Packed = { cost: surely(ZERO), costLayers: ALL_CLAY }

const NONE_SOLD = {
  steps: [],
  costPerSoldPiece: null,
  costPerSoldPieceShown: null,
  costByLayer: null,
  costByLayerShown: null,
  sure: null,
  words: 'Nothing of this form was sold in that time.',
}

function soldCosted(
  { steps, costPerPiece, costPerPieceShown, ...rest }: PieceCost,
  runs: readonly { made: NamedRunFlows }[],
) {
  return {
    ...{ steps, ...rest },
    costPerSoldPiece: costPerPiece,
    costPerSoldPieceShown: costPerPieceShown,
    words: untoldWords(untoldOf(runs.map((run) => run.made))),
  }
}

interface Around {
  readonly studio: StudioFacts
  readonly deliveries: ReadonlyMap<string, Deliveries>
  readonly revenue: Decimal
  readonly packed: Packed
  readonly asked: PieceCostAsked
}

function formCost(
  runs: readonly { made: NamedRunFlows; sold: NamedRunFlows }[],
  around: Around,
): FormCost {
  const { formId, formName } = (runs[0] as { made: NamedRunFlows }).made
  const together = runsTogether(runs.map((run) => run.sold))
  const sold = partedWith(together, 'sell')
  const costed = pieceCost(
    runs.map((run) => runSold(run, around.deliveries)),
    around.packed,
    minorUnitDigits(around.studio.currency),
  )
  const soldRuns = runs.filter((run) => partedWith(run.sold, 'sell').pieces.greaterThan(0))
  const moved = unsureSum([{ amount: sold.cost, doubt: sold.costDoubt }, around.packed.cost])
  const beside = (kind: 'give_away' | 'keep' | 'break_in_shop'): PartedWith => {
    const { pieces, cost } = partedWith(together, kind)
    return { pieces, cost, costPerSoldPiece: costPerPieceOf(cost, sold.pieces) }
  }
  const ofGrade = (grade: 'first' | 'second') =>
    wentFrom(together, { kinds: ['sell'], grade }).pieces
  return {
    formId,
    formName,
    ...(costed === null ? NONE_SOLD : soldCosted(costed, soldRuns)),
    soldPieces: sold.pieces,
    soldFirsts: ofGrade('first'),
    soldSeconds: ofGrade('second'),
    soldCost: moved.amount,
    soldCostUncertainty: standardUncertaintyOfDoubt(moved.doubt),
    revenue: around.revenue,
    brokenInShop: beside('break_in_shop'),
    givenAway: beside('give_away'),
    kept: beside('keep'),
    trail: entriesTrail({
      formId,
      flow: 'sold',
      fromMonth: around.asked.from,
      toMonth: around.asked.to,
    }),
  }
}

function runSold(
  { made, sold }: { made: NamedRunFlows; sold: NamedRunFlows },
  deliveries: ReadonlyMap<string, Deliveries>,
): RunSold {
  const { pieces, cost, costLayers, costDoubt } = partedWith(sold, 'sell')
  const ofGrade = (grade: 'first' | 'second') => wentFrom(sold, { kinds: ['sell'], grade }).pieces
  return {
    made,
    soldPieces: pieces,
    soldByGrade: { first: ofGrade('first'), second: ofGrade('second') },
    soldLayers: costLayers,
    soldCost: { amount: cost, doubt: costDoubt },
    deliveries: deliveries.get(made.bodyId) ?? null,
  }
}

/** Grain: one row a form: what was paid for its pieces, less what was taken back. */
async function revenuesOf(ledger: Transaction, { studioId, timeZone, from, to }: MonthsAsked) {
  const rows = await ledger.execute<{ formId: string; revenue: string }>(sql`
    select s.form_id as "formId",
           sum(s.price_each * case when e.reverses_entry_id is null then s.pieces else -s.pieces end)
             as "revenue"
      from sale s
      join entry e on e.studio_id = s.studio_id and s.entry_id in (e.entry_id, e.reverses_entry_id)
     where s.studio_id = ${studioId}
       ${from === undefined ? sql`` : sql`and e.happened_at >= ${startOf(from, timeZone)}`}
       ${to === undefined ? sql`` : sql`and e.happened_at < ${endOf(to, timeZone)}`}
     group by 1`)
  return new Map(rows.map(({ formId, revenue }) => [formId, decimal(revenue)]))
}
