import { and, asc, eq, gt, sql } from 'drizzle-orm'
import type { PgColumn, PgTable } from 'drizzle-orm/pg-core'
import { present } from '../shared/assert.ts'
import { Refusal, type RefusalCode } from '../shared/refusal.ts'
import type { Database, Transaction } from './connection.ts'
import { findMaterial, refuseOtherKinds } from './materials.ts'
import { refuseWrongPacking, type PackingPart } from './packing.ts'
import type { Services } from './perform.ts'
import { inLedger } from './posting.ts'
import { pointingAt } from './readings.ts'
import { bat, body, catalogueHistory, form, kiln, material, scale, vessel } from './schema.ts'

/** What is known of one thing of the catalogue: its fields by name, decimals as text. */
export type CatalogueItem = Readonly<Record<string, unknown>>

/** One version of a thing: what it was, from when. */
export interface CatalogueVersion {
  readonly versionNo: number
  readonly changedAt: string
  readonly facts: CatalogueItem
}

export interface PageAsked {
  readonly limit: number
  /** The last id of the page before. */
  readonly after?: string | undefined
}

/** A kind of thing that a studio has, each with its history. */
export interface Catalogue {
  readonly create: (
    services: Services,
    studioId: string,
    said: CatalogueItem,
  ) => Promise<CatalogueItem>
  readonly change: (
    services: Services,
    which: { studioId: string; id: string },
    changes: CatalogueItem,
  ) => Promise<CatalogueItem>
  readonly find: (db: Database, studioId: string, id: string) => Promise<CatalogueItem>
  readonly list: (db: Database, studioId: string, page: PageAsked) => Promise<CatalogueItem[]>
  readonly history: (db: Database, studioId: string, id: string) => Promise<CatalogueVersion[]>
}

interface Source {
  readonly table: PgTable
  readonly studioId: PgColumn
  readonly id: PgColumn
  readonly idName: string
  /** As the history names it. */
  readonly resource: string
  readonly code: RefusalCode
  readonly thing: string
  /** What only the ledger knows to be wrong with what is said. */
  readonly refuse?: (ledger: Transaction, studioId: string, said: CatalogueItem) => Promise<void>
}

export const bodies = catalogueOf({
  table: body,
  studioId: body.studioId,
  id: body.bodyId,
  idName: 'bodyId',
  resource: 'body',
  code: 'body_not_found',
  thing: 'clay body',
})

export const forms = catalogueOf({
  table: form,
  studioId: form.studioId,
  id: form.formId,
  idName: 'formId',
  resource: 'form',
  code: 'form_not_found',
  thing: 'form',
  refuse: async (ledger, studioId, { packing = [] }) =>
    refuseWrongPacking(ledger, studioId, packing as readonly PackingPart[]),
})

export const vessels = catalogueOf({
  table: vessel,
  studioId: vessel.studioId,
  id: vessel.vesselId,
  idName: 'vesselId',
  resource: 'vessel',
  code: 'vessel_not_found',
  thing: 'vessel',
})

export const scales = catalogueOf({
  table: scale,
  studioId: scale.studioId,
  id: scale.scaleId,
  idName: 'scaleId',
  resource: 'scale',
  code: 'scale_not_found',
  thing: 'scale',
})

export const bats = catalogueOf({
  table: bat,
  studioId: bat.studioId,
  id: bat.batId,
  idName: 'batId',
  resource: 'bat',
  code: 'bat_not_found',
  thing: 'plaster bat',
})

export const materials = catalogueOf({
  table: material,
  studioId: material.studioId,
  id: material.materialId,
  idName: 'materialId',
  resource: 'material',
  code: 'material_not_found',
  thing: 'material',
})

export const kilns = catalogueOf({
  table: kiln,
  studioId: kiln.studioId,
  id: kiln.kilnId,
  idName: 'kilnId',
  resource: 'kiln',
  code: 'kiln_not_found',
  thing: 'kiln',
  refuse: async (ledger, studioId, { fuelMaterialId }) => {
    if (typeof fuelMaterialId !== 'string') return
    const pointer = '/fuelMaterialId'
    const find = () => findMaterial(ledger, studioId, fuelMaterialId)
    refuseOtherKinds(await pointingAt(pointer, find), ['fuel'], pointer)
  },
})

/**
 * The five things that can be done with one kind of thing. Nothing is ever removed, because old entries
 * name it; the history is written by the database itself.
 *
 * Refuses: the kind's own `…_not_found`, `name_must_be_new`.
 */
function catalogueOf(source: Source): Catalogue {
  return {
    create: (services, studioId, said) => create(source, { services, studioId, said }),
    change: (services, which, changes) => change(source, { services, which, changes }),
    find: (db, studioId, id) => find(source, db, { studioId, id }),
    list: (db, studioId, page) => list(source, db, { studioId, page }),
    history: (db, studioId, id) => history(source, db, { studioId, id }),
  }
}

async function create(
  source: Source,
  made: { services: Services; studioId: string; said: CatalogueItem },
): Promise<CatalogueItem> {
  const { services, studioId, said } = made
  const id = said[source.idName] ?? services.newId()
  const facts = { ...said, [source.idName]: id, studioId, changedAt: services.now() }
  const rows = await inLedger(services.db, async (ledger) => {
    await source.refuse?.(ledger, studioId, said)
    return ledger
      .insert(source.table)
      .values(facts as never)
      .returning()
  })
  return shown(present(rows[0] as CatalogueItem | undefined, 'what was entered is there'))
}

async function change(
  source: Source,
  changed: {
    services: Services
    which: { studioId: string; id: string }
    changes: CatalogueItem
  },
): Promise<CatalogueItem> {
  const { services, which, changes } = changed
  const facts = { ...changes, changedAt: services.now() }
  const rows = await inLedger(services.db, async (ledger) => {
    await source.refuse?.(ledger, which.studioId, changes)
    return ledger
      .update(source.table)
      .set(facts as never)
      .where(isOne(source, which))
      .returning()
  })
  return shown(rows[0] ?? notThere(source, which.id))
}

async function find(
  source: Source,
  db: Database,
  which: { studioId: string; id: string },
): Promise<CatalogueItem> {
  const [row] = await db.select().from(source.table).where(isOne(source, which))
  return shown(row ?? notThere(source, which.id))
}

async function list(
  source: Source,
  db: Database,
  asked: { studioId: string; page: PageAsked },
): Promise<CatalogueItem[]> {
  const { studioId, page } = asked
  const isAfter = page.after === undefined ? undefined : gt(source.id, page.after)
  const rows = await db
    .select()
    .from(source.table)
    .where(and(eq(source.studioId, studioId), isAfter))
    .orderBy(asc(source.id))
    .limit(page.limit)
  return rows.map(shown)
}

/** Numbers in the history leave the database as text: a JSON number would lose its last digits. */
const factsAsText = sql<Record<string, unknown>>`(
  select jsonb_object_agg(key, case when jsonb_typeof(value) = 'number' then to_jsonb(value #>> '{}') else value end)
    from jsonb_each(${catalogueHistory.facts}))`

async function history(
  source: Source,
  db: Database,
  which: { studioId: string; id: string },
): Promise<CatalogueVersion[]> {
  const { versionNo, changedAt } = catalogueHistory
  const rows = await db
    .select({ versionNo, changedAt, facts: factsAsText })
    .from(catalogueHistory)
    .where(
      and(
        eq(catalogueHistory.studioId, which.studioId),
        eq(catalogueHistory.resource, source.resource),
        eq(catalogueHistory.resourceId, which.id),
      ),
    )
    .orderBy(asc(versionNo))
  if (rows.length === 0) notThere(source, which.id)
  return rows.map((row) => ({
    versionNo: row.versionNo,
    changedAt: row.changedAt.toISOString(),
    facts: Object.fromEntries(
      Object.entries(row.facts).map(([name, value]) => [inOneWord(name), value]),
    ),
  }))
}

function inOneWord(columnName: string): string {
  return columnName.replaceAll(/_(.)/g, (_, letter: string) => letter.toUpperCase())
}

function isOne(source: Source, which: { studioId: string; id: string }) {
  return and(eq(source.studioId, which.studioId), eq(source.id, which.id))
}

function notThere(source: Source, id: string): never {
  throw new Refusal(source.code, `There is no ${source.thing} '${id}' in this studio.`, {
    facts: { id },
  })
}

function shown(row: CatalogueItem): CatalogueItem {
  const { studioId: _studio, changedAt, ...facts } = row
  return { ...facts, changedAt: (changedAt as Date).toISOString() }
}
