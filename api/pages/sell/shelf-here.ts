import type { Context } from 'hono'
import { shelfReport, type ShelfRow } from '../../../db/reports/shelf.ts'
import { GRADES } from '../../../shared/place.ts'
import { Refusal } from '../../../shared/refusal.ts'
import type { Environment } from '../../services.ts'

/** Finished pots of the form and grade that the address names; none of them where the shelf has none. */
export async function shelfHere(c: Context<Environment>): Promise<ShelfRow> {
  const { formId = '', grade: asked } = c.req.param() as { formId?: string; grade?: string }
  const rows = await shelfReport(c.get('services').db, c.get('studioId'))
  const grade = GRADES.find((one) => one === asked)
  const there = rows.find((row) => row.formId === formId && row.grade === grade)
  if (there !== undefined) return there
  const ofForm = rows.find((row) => row.formId === formId)
  if (ofForm !== undefined && grade !== undefined) return { ...ofForm, grade, pieces: '0' }
  throw new Refusal('form_not_found', 'Nothing of that form is on the shelf.')
}
