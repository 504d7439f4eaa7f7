import { and, eq } from 'drizzle-orm'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { Refusal } from '../shared/refusal.ts'
import type { SecondsCostRule } from '../shared/seconds-cost.ts'
import type { Jurisdiction } from '../shared/silica.ts'
import type { Transaction } from './connection.ts'
import { bat, body, form, lot, run, scale, studio, vessel } from './schema.ts'

export interface StudioFacts {
  readonly studioId: string
  readonly name: string
  readonly currency: string
  readonly timeZone: string
  readonly jurisdiction: Jurisdiction
  readonly comparesMakers: boolean
  /** How firsts and seconds share what they cost, and what a second fetches of a first's price. */
  readonly secondsCostRule: SecondsCostRule
  readonly secondsPriceFraction: Decimal
  /** What an hour is to be worth: compared with, never part of a cost. */
  readonly hourlyFigure: Decimal | undefined
}

export interface BodyFacts {
  readonly bodyId: string
  readonly name: string
  readonly isBlend: boolean
  readonly lossOnIgnitionFraction: Decimal
  readonly grainGramsPerMillilitre: Decimal
  readonly dustThresholdWetBasis: Decimal | undefined
  readonly moisture: Readonly<
    Record<string, { waterContentWetBasis: string; standardUncertainty: string } | undefined>
  >
}

/** The studio of that id. Refuses: `studio_not_found`. */
export async function findStudio(ledger: Transaction, studioId: string): Promise<StudioFacts> {
  const [row] = await ledger.select().from(studio).where(eq(studio.studioId, studioId))
  if (row === undefined) throw new Refusal('studio_not_found', 'There is no such studio.')
  return {
    ...row,
    jurisdiction: row.jurisdiction as Jurisdiction,
    secondsCostRule: row.secondsCostRule as SecondsCostRule,
    secondsPriceFraction: decimal(row.secondsPriceFraction),
    hourlyFigure: row.hourlyFigure === null ? undefined : decimal(row.hourlyFigure),
  }
}

/** The clay of that id, of this studio. Refuses: `body_not_found`. */
export async function findBody(
  ledger: Transaction,
  studioId: string,
  bodyId: string,
): Promise<BodyFacts> {
  const [row] = await ledger
    .select()
    .from(body)
    .where(and(eq(body.studioId, studioId), eq(body.bodyId, bodyId)))
  if (row === undefined) throw missing('body_not_found', 'clay body', bodyId)
  const threshold = row.dustThresholdWetBasis
  return {
    bodyId,
    name: row.name,
    isBlend: row.isBlend,
    lossOnIgnitionFraction: decimal(row.lossOnIgnitionFraction),
    grainGramsPerMillilitre: decimal(row.grainGramsPerMillilitre),
    dustThresholdWetBasis: threshold === null ? undefined : decimal(threshold),
    moisture: row.moisture as BodyFacts['moisture'],
  }
}

/** The form of that id, of this studio. Refuses: `form_not_found`. */
export async function findForm(ledger: Transaction, studioId: string, formId: string) {
  const [row] = await ledger
    .select()
    .from(form)
    .where(and(eq(form.studioId, studioId), eq(form.formId, formId)))
  if (row === undefined) throw missing('form_not_found', 'form', formId)
  return row
}

/** The vessel of that id, of this studio. Refuses: `vessel_not_found`. */
export async function findVessel(ledger: Transaction, studioId: string, vesselId: string) {
  const [row] = await ledger
    .select()
    .from(vessel)
    .where(and(eq(vessel.studioId, studioId), eq(vessel.vesselId, vesselId)))
  if (row === undefined) throw missing('vessel_not_found', 'vessel', vesselId)
  return row
}

/** The scale of that id, of this studio. Refuses: `scale_not_found`. */
export async function findScale(ledger: Transaction, studioId: string, scaleId: string) {
  const [row] = await ledger
    .select()
    .from(scale)
    .where(and(eq(scale.studioId, studioId), eq(scale.scaleId, scaleId)))
  if (row === undefined) throw missing('scale_not_found', 'scale', scaleId)
  return row
}

/** The plaster bat of that id, of this studio. Refuses: `bat_not_found`. */
export async function findBat(ledger: Transaction, studioId: string, batId: string) {
  const [row] = await ledger
    .select()
    .from(bat)
    .where(and(eq(bat.studioId, studioId), eq(bat.batId, batId)))
  if (row === undefined) throw missing('bat_not_found', 'plaster bat', batId)
  return row
}

/** The lot of that id, of this studio. Refuses: `lot_not_found`. */
export async function findLot(ledger: Transaction, studioId: string, lotId: string) {
  const [row] = await ledger
    .select()
    .from(lot)
    .where(and(eq(lot.studioId, studioId), eq(lot.lotId, lotId)))
  if (row === undefined) throw missing('lot_not_found', 'lot of clay', lotId)
  return row
}

/** The run of that id, of this studio. Refuses: `run_not_found`. */
export async function findRun(ledger: Transaction, studioId: string, runId: string) {
  const [row] = await ledger
    .select()
    .from(run)
    .where(and(eq(run.studioId, studioId), eq(run.runId, runId)))
  if (row === undefined) throw missing('run_not_found', 'run', runId)
  return row
}

function missing(code: ConstructorParameters<typeof Refusal>[0], thing: string, id: string) {
  return new Refusal(code, `There is no ${thing} '${id}' in this studio.`, { facts: { id } })
}
