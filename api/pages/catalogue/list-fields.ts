import { HAZARDS } from '../../../shared/material-hazards.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import type { Choice } from '../fields.tsx'

/** Fields of a thing that are lists in the books: each is laid out as rows with names of their own. */
export type ListKind = 'hazards' | 'price_steps' | 'packing'

/** So many rows a price list has on a page; one that is longer is kept by the API. */
export const PRICE_ROWS = 6

export const statementField = (code: string) => `statement-${code}`
export const fromField = (row: number) => `from-${String(row)}`
export const eachField = (row: number) => `each-${String(row)}`
export const packingField = (materialId: string) => `packing-${materialId}`

interface Hazard {
  readonly hazard: string
  readonly statement?: string
  readonly percentage?: string
}
interface Step {
  readonly atLeast: string
  readonly pricePerUnit: string
}
interface Packed {
  readonly materialId: string
  readonly perPiece: string
}

/** What was typed into the rows of a list, as the books would have it. */
export function readList(kind: ListKind, typed: Typed, choices: readonly Choice[]): unknown {
  if (kind === 'hazards') return readHazards(typed)
  if (kind === 'price_steps') return readSteps(typed)
  return readPacking(typed, choices)
}

function readHazards(typed: Typed): Hazard[] {
  const chosen = typed.all('hazards')
  return HAZARDS.filter(({ code }) => chosen.includes(code)).map(({ code }) =>
    saidOnly({ hazard: code, statement: typed.text(statementField(code)) } as Hazard),
  )
}

function readSteps(typed: Typed): Partial<Step>[] {
  return Array.from({ length: PRICE_ROWS }, (_, row) => ({
    atLeast: typed.decimal(fromField(row)),
    pricePerUnit: typed.decimal(eachField(row)),
  }))
    .filter(({ atLeast, pricePerUnit }) => atLeast !== undefined || pricePerUnit !== undefined)
    .map((step) => saidOnly(step) as Partial<Step>)
}

function readPacking(typed: Typed, choices: readonly Choice[]): Packed[] {
  return choices.flatMap(({ value }) => {
    const perPiece = typed.decimal(packingField(value))
    return perPiece === undefined ? [] : [{ materialId: value, perPiece }]
  })
}

/** A list of the books as it would have been typed. */
export function listAsTyped(kind: ListKind, value: unknown): [string, string][] {
  if (kind === 'hazards') {
    return (value as Hazard[]).flatMap(({ hazard, statement }) => [
      ['hazards', hazard] as [string, string],
      ...(statement === undefined ? [] : [[statementField(hazard), statement] as [string, string]]),
    ])
  }
  if (kind === 'price_steps') {
    return (value as Step[])
      .slice(0, PRICE_ROWS)
      .flatMap(({ atLeast, pricePerUnit }, row) => [
        [fromField(row), atLeast] as [string, string],
        [eachField(row), pricePerUnit] as [string, string],
      ])
  }
  return (value as Packed[]).map(({ materialId, perPiece }) => [packingField(materialId), perPiece])
}

/** A list of the books in words, for its history. */
export function listInWords(kind: ListKind, value: unknown, voice: Voice): string {
  const rows = wordsOf(kind, value, voice)
  return rows.length === 0 ? 'nothing' : rows.join(', ')
}

function wordsOf(kind: ListKind, value: unknown, voice: Voice): string[] {
  if (kind === 'hazards') {
    return (value as Hazard[]).map(({ hazard, statement }) => {
      const name = HAZARDS.find(({ code }) => code === hazard)?.name ?? hazard
      return statement === undefined ? name : `${name} (${statement})`
    })
  }
  if (kind === 'price_steps') {
    return (value as Step[]).map(
      ({ atLeast, pricePerUnit }) => `${voice.money(pricePerUnit)} each from ${atLeast}`,
    )
  }
  return (value as Packed[]).map(({ materialId, perPiece }) => `${perPiece} of ${materialId}`)
}

/** Where the faults of a list stand on its page, by what the books call what is wrong. */
export function fieldsOfList(
  name: string,
  kind: ListKind,
  choices: readonly Choice[],
): [string, string][] {
  if (kind === 'hazards') return [[`/${name}`, 'hazards']]
  if (kind === 'packing') {
    const first = choices[0]?.value
    return first === undefined ? [] : [[`/${name}`, packingField(first)]]
  }
  const rows = Array.from({ length: PRICE_ROWS }, (_, row): [string, string][] => [
    [`/${name}/${String(row)}`, fromField(row)],
    [`/${name}/${String(row)}/atLeast`, fromField(row)],
    [`/${name}/${String(row)}/pricePerUnit`, eachField(row)],
  ])
  return [[`/${name}`, fromField(0)], ...rows.flat()]
}
