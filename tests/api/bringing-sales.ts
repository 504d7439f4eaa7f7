import { carriedFields, plain, sendForm, type Fields } from './forms-of-pages.ts'
import type { Answered, Pottery } from './pottery.ts'

export const IMPORT = '/books/sales/import'
export const SHOP = { where: 'Harbour market' }

type File = string | Uint8Array<ArrayBuffer>

export const bytes = (text: string, letters: BufferEncoding = 'utf8') =>
  new Uint8Array(Buffer.from(text, letters))

/** So many mugs on the shelf since the beginning of March. */
export async function shelve(pottery: Pottery, mugs: number): Promise<void> {
  const at = (day: string, said: object) => ({ ...said, happenedAt: `2026-03-${day}T09:00:00Z` })
  const kg = (value: string) => ({ value, unit: 'kg' })
  const clay = { bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }
  await pottery.does('receive-delivery', at('01', { clays: [clay] }))
  await pottery.does('open-bag', at('01', { lotId: 'd1', bags: 4, newLotId: 'o1' }))
  const balls = { lotId: 'o1', balls: mugs, ballMass: kg('0.400') }
  await pottery.does('throw', at('02', { formId: 'mug', runId: 'r1', from: [balls] }))
  await pottery.does('bisque', at('03', { runs: [{ runId: 'r1' }] }))
  await pottery.does('glaze-fire', at('04', { runs: [{ runId: 'r1' }] }))
  const grades = { runId: 'r1', firsts: mugs, seconds: 0, wasters: 0 }
  await pottery.does('grade', at('05', grades))
}

/** Presses a button of a page: its fields as they stand, with what is said otherwise. */
export function press(
  pottery: Pottery,
  page: Answered,
  said: Fields & { step: string },
): Promise<Answered> {
  return sendForm(pottery, IMPORT, { ...carriedFields(page.text), ...said })
}

/** Brings a file in, or pastes its text. */
export const bring = (pottery: Pottery, file: File) =>
  sendForm(pottery, IMPORT, {
    [typeof file === 'string' ? 'pasted' : 'file']: file,
    step: 'columns',
  })

/** As far as the page that says what will be recorded. */
export async function toPreview(pottery: Pottery, file: File, said: Fields = SHOP) {
  const pieces = await press(pottery, await bring(pottery, file), { ...said, step: 'pieces' })
  return press(pottery, pieces, { step: 'preview' })
}

/** All the way. */
export async function record(pottery: Pottery, file: File) {
  return press(pottery, await toPreview(pottery, file), { step: 'record' })
}

/** The sales in the books, the newest first. */
export async function sold(pottery: Pottery) {
  const { body } = await pottery.ask('GET', '/v1/sales?limit=200')
  return (body['items'] as Record<string, unknown>[]).map((sale) => ({
    pieces: sale['pieces'],
    priceEach: sale['priceEach'],
    day: String(sale['happenedAt']).slice(0, 10),
    channel: sale['channel'],
    grade: sale['grade'],
  }))
}

/** A figure among the counts of the last page. */
export function counted({ text }: Answered, name: string): number {
  return Number(new RegExp(`<dt>${name}</dt><dd>(\\d+)`).exec(text)?.[1])
}

/** The rows to mend, as the last page carries them. */
export function csvIn({ text }: Answered): string {
  return plain(/<textarea name="csv"[^>]*>\n?([\s\S]*?)<\/textarea>/.exec(text)?.[1] ?? '')
}
