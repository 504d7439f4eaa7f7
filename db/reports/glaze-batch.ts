import { and, eq, inArray } from 'drizzle-orm'
import { present } from '../../shared/assert.ts'
import { Decimal, decimal, toLedgerScale, ZERO } from '../../shared/decimal.ts'
import {
  batchWeighedOut,
  glazeForRuns,
  glazeOfDryGrams,
  glazeOfVolume,
  USUAL_CARRIED_OFF_FRACTION,
  USUAL_DIPPING_GRAMS_PER_MILLILITRE,
  type BatchIngredient,
  type GlazeForRuns,
  type GlazeSlurry,
} from '../../shared/glaze-batch.ts'
import type { StatedHazard } from '../../shared/material-hazards.ts'
import { proportionalPart } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import { waterDensityGramsPerMillilitre } from '../../shared/slurry.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { knownGlazeOfForm } from '../glaze-learned.ts'
import { findGlaze, findRecipe, natureOfMix, type Recipe } from '../glaze-recipes.ts'
import { pointingAt } from '../readings.ts'
import { inSnapshot } from '../report-reading.ts'
import { holding } from '../schema.ts'
import { findRun, findVessel } from '../studio.ts'
import { shelfOf, type Shelf } from '../shelf-of-powders.ts'

/** How much glaze is wanted: by its dry mass, by its volume, or for runs of pots. */
export interface BatchAsked {
  readonly studioId: string
  readonly glazeId: string
  readonly versionNo?: number | undefined
  readonly gramsPerMillilitre?: string | undefined
  readonly dryGrams?: string | undefined
  readonly millilitres?: string | undefined
  readonly runIds?: readonly string[] | undefined
  readonly carriedOffFraction?: string | undefined
  /** The bucket whose glaze serves first. */
  readonly vesselId?: string | undefined
}

interface WeighOutLine extends BatchIngredient {
  readonly name: string
  readonly isAddition: boolean
  /** On the shelf, dry. */
  readonly haveDryGrams: Decimal
  readonly missingDryGrams: Decimal
  readonly isEnough: boolean
  readonly cost: Decimal | null
  readonly hazards: readonly StatedHazard[]
}

interface RunLine {
  readonly runId: string
  readonly formId: string
  readonly pieces: Decimal
  readonly dryGramsPerPiece: Decimal
  readonly standardUncertaintyGrams: Decimal
  readonly words: string
}

interface Batch extends GlazeSlurry {
  readonly materialId: string
  readonly versionNo: number
  readonly gramsPerMillilitre: Decimal
  readonly ingredients: readonly WeighOutLine[]
  readonly waterFromPowdersGrams: Decimal
  readonly waterToAddGrams: Decimal
  readonly waterTooMuchGrams: Decimal
  readonly isEnough: boolean
  /** Of all powders, where the shelf has them all. */
  readonly cost: Decimal | null
  readonly forRuns:
    | (GlazeForRuns & { readonly inBucketDryGrams: Decimal; readonly runs: readonly RunLine[] })
    | null
  readonly words: string
}

export type WeighOut = Written<Batch>

/**
 * What to weigh out for so much glaze, whether the shelf has it, and what it costs.
 *
 * Units: grams, millilitres, g/mL, money at ledger scale.
 * Refuses: `material_not_found`, `material_must_be_of_the_kind`, `glaze_recipe_not_found`,
 * `run_not_found`, `vessel_not_found`, `stage_must_hold_the_pieces`, `glaze_per_piece_must_be_known`,
 * `density_must_exceed_water`, `density_must_be_below_solids`.
 */
export function weighOut(db: Database, asked: BatchAsked): Promise<WeighOut> {
  const { studioId, glazeId, versionNo } = asked
  return inSnapshot(db, async (ledger) => {
    const glaze = await findGlaze(ledger, studioId, { glazeId, pointer: '/id' })
    const recipe = await findRecipe(ledger, studioId, { glaze, versionNo })
    const { forRuns, leftOut } = await runsAsked(ledger, asked)
    const gramsPerMillilitre = decimal(
      asked.gramsPerMillilitre ?? USUAL_DIPPING_GRAMS_PER_MILLILITRE,
    )
    const wanted = await pointingAt('/gramsPerMillilitre', () =>
      wantedOf(asked, { recipe, forRuns, gramsPerMillilitre }),
    )
    const parts = recipe.parts.map((part) => ({ ...part.ingredient, ...part }))
    const batch = batchWeighedOut(wanted, parts)
    const ids = recipe.parts.map(({ materialId }) => materialId)
    const ingredients = linesOf(recipe, batch.ingredients, await shelfOf(ledger, studioId, ids))
    const isEnough = ingredients.every((line) => line.isEnough)
    const short = ingredients.filter((line) => !line.isEnough).map(({ name }) => name)
    return written({
      ...batch,
      ...{ materialId: glazeId, versionNo: recipe.versionNo, gramsPerMillilitre, forRuns },
      ...{ ingredients, isEnough, cost: costOf(ingredients) },
      words: [shelfWords(short), ...leftOut].join(' '),
    })
  })
}

function shelfWords(short: readonly string[]): string {
  if (short.length === 0) return 'The shelf has it all.'
  return `The shelf has too little of ${short.join(', ')}.`
}

function wantedOf(
  asked: BatchAsked,
  known: { recipe: Recipe; forRuns: Batch['forRuns']; gramsPerMillilitre: Decimal },
): GlazeSlurry {
  const { recipe, forRuns, gramsPerMillilitre } = known
  const densities = {
    densityGramsPerMillilitre: gramsPerMillilitre,
    waterGramsPerMillilitre: waterDensityGramsPerMillilitre(decimal(ROOM_CELSIUS)),
    solidsGramsPerMillilitre: natureOfMix(recipe.parts).grainGramsPerMillilitre,
  }
  if (asked.millilitres !== undefined) return glazeOfVolume(decimal(asked.millilitres), densities)
  return glazeOfDryGrams(forRuns?.toMakeDryGrams ?? decimal(asked.dryGrams ?? '0'), densities)
}

const ROOM_CELSIUS = 20

function linesOf(
  recipe: Recipe,
  ingredients: readonly BatchIngredient[],
  shelf: Shelf,
): WeighOutLine[] {
  return recipe.parts.map(({ materialId, ingredient, isAddition }, index) => {
    const line = present(ingredients[index], 'each part is weighed out')
    const stock = shelf.get(materialId) ?? { dryGrams: ZERO, cost: ZERO }
    const missing = Decimal.max(line.dryGrams.minus(stock.dryGrams), ZERO)
    const share = { part: line.dryGrams, whole: stock.dryGrams }
    return {
      ...{ ...line, name: ingredient.name, isAddition, hazards: ingredient.hazards },
      haveDryGrams: stock.dryGrams,
      missingDryGrams: missing,
      isEnough: missing.isZero(),
      cost: stock.dryGrams.isZero() ? null : proportionalPart({ amount: stock.cost, ...share }),
    }
  })
}

function costOf(lines: readonly WeighOutLine[]): Decimal | null {
  let sum = ZERO
  for (const { cost, dryGrams } of lines) {
    if (cost === null && !dryGrams.isZero()) return null
    sum = sum.plus(cost ?? ZERO)
  }
  return sum
}

interface RunsAsked {
  readonly forRuns: Batch['forRuns']
  /** Words about pots that carry glaze already. */
  readonly leftOut: readonly string[]
}

async function runsAsked(ledger: Transaction, asked: BatchAsked): Promise<RunsAsked> {
  const { studioId, runIds, glazeId, vesselId } = asked
  if (runIds === undefined) return { forRuns: null, leftOut: [] }
  const runs: RunLine[] = []
  const leftOut: string[] = []
  for (const runId of runIds) {
    const waiting = await waitingOf(ledger, { studioId, runId })
    if (waiting.glazed.greaterThan(0)) leftOut.push(leftOutWords(runId, waiting.glazed))
    if (waiting.pieces.isZero()) continue
    runs.push(await runLine(ledger, { studioId, glazeId, runId, ...waiting }))
  }
  if (runs.length === 0) {
    const detail = `No pots wait for glaze. ${leftOut.join(' ')}`
    throw new Refusal('stage_must_hold_the_pieces', detail, { pointer: '/runIds' })
  }
  const inBucketDryGrams =
    vesselId === undefined ? ZERO : await inBucketOf(ledger, { studioId, glazeId, vesselId })
  const carriedOffFraction = decimal(asked.carriedOffFraction ?? USUAL_CARRIED_OFF_FRACTION)
  const forRuns = {
    ...glazeForRuns(runs, { dryGrams: inBucketDryGrams, carriedOffFraction }),
    ...{ inBucketDryGrams, runs },
  }
  return { forRuns, leftOut }
}

function leftOutWords(runId: string, glazed: Decimal): string {
  const are = glazed.equals(1) ? 'pot' : 'pots'
  return `Left out: ${glazed.toFixed()} ${are} of '${runId}' in bisque, which carry glaze already.`
}

interface Waiting {
  readonly formId: string
  readonly pieces: Decimal
  /** In bisque, with glaze on them. */
  readonly glazed: Decimal
}

/** The pots of a run that wait for glaze. Refuses a run that has none in greenware or bisque. */
async function waitingOf(
  ledger: Transaction,
  of: { studioId: string; runId: string },
): Promise<Waiting> {
  const { studioId, runId } = of
  const { formId } = await findRun(ledger, studioId, runId)
  const rows = await ledger
    .select({ pieces: holding.pieces, glazeGrams: holding.materialGrams })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, studioId),
        eq(holding.runId, runId),
        inArray(holding.place, ['greenware', 'bisque']),
      ),
    )
  const piecesOf = (isGlazed: boolean) =>
    rows
      .filter(({ glazeGrams }) => decimal(glazeGrams).greaterThan(0) === isGlazed)
      .reduce((sum, row) => sum.plus(row.pieces), ZERO)
  const [pieces, glazed] = [piecesOf(false), piecesOf(true)]
  if (pieces.plus(glazed).isZero()) {
    const detail = `No pots of '${runId}' wait for glaze: none is in greenware or bisque.`
    throw new Refusal('stage_must_hold_the_pieces', detail, { pointer: '/runIds' })
  }
  return { formId, pieces, glazed }
}

/** The pots of a run that wait, and what a piece of their form takes. */
async function runLine(
  ledger: Transaction,
  of: Waiting & { studioId: string; glazeId: string; runId: string },
): Promise<RunLine> {
  const { studioId, glazeId, runId, formId, pieces } = of
  const each = await knownGlazeOfForm(ledger, studioId, { formId, glazeId, pointer: '/runIds' })
  const { dryGramsPerPiece, standardUncertaintyGrams, words } = each
  return {
    ...{ runId, formId, pieces, words },
    dryGramsPerPiece: toLedgerScale(dryGramsPerPiece),
    standardUncertaintyGrams,
  }
}

async function inBucketOf(
  ledger: Transaction,
  of: { studioId: string; glazeId: string; vesselId: string },
): Promise<Decimal> {
  await findVessel(ledger, of.studioId, of.vesselId)
  const [row] = await ledger
    .select({ dryGrams: holding.materialGrams })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, of.studioId),
        eq(holding.place, 'glaze_bucket'),
        eq(holding.materialId, of.glazeId),
        eq(holding.vesselId, of.vesselId),
      ),
    )
  return decimal(row?.dryGrams ?? '0')
}
