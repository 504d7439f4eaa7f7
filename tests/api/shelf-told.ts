import { expect } from 'vitest'
import type { Answered, Body, Pottery } from './pottery.ts'

/** A line of an entry, as far as the tests of the shelf look into it. */
export interface Line {
  readonly place: string
  readonly materialId: string | null
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
}

export interface HeldOnShelf extends Line {
  readonly holdingId: string
  readonly costLayers: Readonly<Record<string, string>>
}

export function lineAt(answer: Body, place: string, materialId?: string): Line | undefined {
  const { lines } = answer['entry'] as { lines: Line[] }
  return lines.find(
    (line) => line.place === place && (materialId === undefined || line.materialId === materialId),
  )
}

export const madeBy = (answer: Body) => answer['made'] as Readonly<Record<string, unknown>>
export const cautionsIn = (answer: Body) => JSON.stringify(answer['cautions'])

export async function onShelf({ ask }: Pottery, materialId: string): Promise<HeldOnShelf> {
  const { body } = await ask(
    'GET',
    `/v1/holdings?place=materials&materialId=${materialId}&nonEmpty=false`,
  )
  const [held] = body['items'] as HeldOnShelf[]
  if (held === undefined) throw new Error(`${materialId} was never on the shelf`)
  return held
}

/** Empties the shelf of some materials, so that each test begins at nothing. */
export async function clearShelf({ does }: Pottery, ...materialIds: string[]): Promise<void> {
  for (const materialId of materialIds) {
    await does('count-material', { materialId, nothingLeft: true })
  }
}

export function receives({ does }: Pottery, materials: readonly object[], freight?: string) {
  return does('receive-materials', { materials, ...(freight === undefined ? {} : { freight }) })
}

/** Insists that an act is refused and leaves nothing behind. */
export async function refusedAct(pottery: Pottery, act: string, body: object): Promise<Answered> {
  const before = await pottery.entries()
  const answer = await pottery.ask('POST', `/v1/acts/${act}`, { body })
  expect(await pottery.entries()).toBe(before)
  return answer
}
