import type { Context } from 'hono'
import { materials } from '../../../db/catalogue.ts'
import type { Environment } from '../../services.ts'
import type { Choice } from '../fields.tsx'
import type { ThingKind } from './kinds.ts'

/** A studio has tens of them. */
const MATERIALS_MAX = 500

/** The kind with what the studio has to choose from; a choice of nothing is left out. */
export async function withChoices(c: Context<Environment>, kind: ThingKind): Promise<ThingKind> {
  if (!kind.fields.some(({ choicesOf }) => choicesOf !== undefined)) return kind
  const { db } = c.get('services')
  const all = await materials.list(db, c.get('studioId'), { limit: MATERIALS_MAX })
  const fields = kind.fields.map((field) => {
    if (field.choicesOf === undefined) return field
    const choices = all
      .filter((item) => item['kind'] === field.choicesOf)
      .map((item): Choice => {
        const isCounted = item['keptBy'] === 'count'
        const hint = field.kind === 'packing' ? (isCounted ? 'pieces' : 'g') : undefined
        return { value: String(item['materialId']), name: String(item['name']), hint }
      })
    return { ...field, choices }
  })
  const isOffered = ({ kind: how, choicesOf, choices = [] }: (typeof fields)[number]) =>
    how !== 'choice' || choicesOf === undefined || choices.length > 0
  return { ...kind, fields: fields.filter(isOffered) }
}
