import { z } from '@hono/zod-openapi'
import { isIdKey, isMomentKey } from '../db/page-keys.ts'
import { isMonth } from '../shared/month.ts'
import './words-of-faults.ts'

export const NOTE_CHARACTERS_MAX = 500
export const LABEL_CHARACTERS_MAX = 120
export const PIECES_MAX = 1_000_000
export const BAGS_MAX = 10_000
const PAGE_ITEMS_MAX = 200
const PAGE_ITEMS_USUALLY = 50

/** Control characters and halves of characters: neither can be kept, and nobody types them. */
const UNKEEPABLE = /[\p{Cs}\p{Cc}]/u
const UNKEEPABLE_IN_NOTES = /[\p{Cs}]|(?![\n\r\t])\p{Cc}/u
const UNKEEPABLE_WORDS = 'It must be readable text, without control characters.'

const ID_FORM = 'small letters, digits and hyphens, at most 64, beginning with a letter or digit.'
const ID_WORDS = `An id is made of ${ID_FORM}`
const MOMENT_WORDS =
  'A moment is written as 2026-03-14T09:30:00+01:00, or with Z for UTC, between 1900 and 2999.'
const MONTH_WORDS = 'A month is written as 2026-03.'

/** Text of a certain form; whoever leaves it out, or sends a number, is told that form too. */
function textOfForm(words: string) {
  return z.string({
    error: ({ input }) =>
      input === undefined ? `This field is missing. ${words}` : `It must be text. ${words}`,
  })
}

/** An id: short, lower case, fit for an address and for chalk on a bucket. */
export function idText(description: string, example = 'bucket-1') {
  return textOfForm(ID_WORDS)
    .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, { error: ID_WORDS })
    .openapi({ description: `${description} In ${ID_FORM}`, example })
}

/** A few words on one line: a name, a label, a cause. */
export function labelText(description: string, example: string) {
  return z
    .string()
    .max(LABEL_CHARACTERS_MAX)
    .refine((text) => /\S/.test(text), { error: 'It must say something; this is empty.' })
    .refine((text) => !UNKEEPABLE.test(text), { error: UNKEEPABLE_WORDS })
    .openapi({ description, example })
}

export function noteText(description: string) {
  return z
    .string()
    .max(NOTE_CHARACTERS_MAX)
    .refine((text) => !UNKEEPABLE_IN_NOTES.test(text), { error: UNKEEPABLE_WORDS })
    .openapi({ description, example: 'Second weigh-in, the first was still in the bag.' })
}

/** A moment with its offset, because the wall of the studio and the phone may disagree. */
export function momentText(description: string) {
  return textOfForm(MOMENT_WORDS)
    .refine(isMoment, { error: MOMENT_WORDS })
    .openapi({ description, format: 'date-time', example: '2026-03-14T09:30:00+01:00' })
}

/** True for a moment as an act takes it. */
export function isMoment(text: string): boolean {
  const { success } = z.iso.datetime({ offset: true }).safeParse(text)
  const year = Number(text.slice(0, 4))
  return success && year >= 1900 && year < 3000
}

export function monthText(description: string) {
  return textOfForm(MONTH_WORDS)
    .refine((text) => isMonth(text) && Number(text.slice(0, 4)) >= 1900, { error: MONTH_WORDS })
    .openapi({ description, example: '2026-03' })
}

/** A whole number of things. */
export function countOf(description: string, limits: { atLeast?: number; atMost?: number } = {}) {
  return z
    .int()
    .min(limits.atLeast ?? 1)
    .max(limits.atMost ?? PIECES_MAX)
    .openapi({ description, example: 12 })
}

/** The studio that is meant, where there are several. */
export const studioHeader = z.object({
  'studio-id': idText(
    'The studio that is meant. May be left out where there is exactly one.',
    'wrenfold-yard',
  ).optional(),
})

/** One page of a list in order of ids: how many, and from where on. */
export const pageQuery = pageQueryOf(isIdKey, 'bucket-1')

/** One page of a list in order of time, the newest first. */
export const timedPageQuery = pageQueryOf(isMomentKey, '2026-03-14T08:30:00.000000Z|0199c1de')

function pageQueryOf(isKey: (key: string) => boolean, exampleKey: string) {
  const cursor = cursorText(isKey, cursorOf(exampleKey))
  return z.strictObject({ limit: limitText().optional(), cursor: cursor.optional() })
}

function limitText() {
  return z
    .string()
    .regex(/^\d{1,3}$/, { error: `It must be a whole number from 1 to ${String(PAGE_ITEMS_MAX)}.` })
    .transform(Number)
    .pipe(z.int().min(1).max(PAGE_ITEMS_MAX))
    .openapi({
      type: 'integer',
      description: `How many at most, 1 to ${String(PAGE_ITEMS_MAX)}; ${String(PAGE_ITEMS_USUALLY)} where it is not said.`,
      example: 50,
    })
}

/** How many of a list to show, where nobody said. */
export function pageItems(limit: number | undefined): number {
  return limit ?? PAGE_ITEMS_USUALLY
}

function cursorText(isKey: (key: string) => boolean, example: string) {
  return z
    .string()
    .refine((cursor) => isCursor(cursor, isKey), {
      error: 'It must be a cursor as an earlier page gave it.',
    })
    .openapi({
      description: 'Where to go on: nextCursor of the page before.',
      pattern: '^[A-Za-z0-9_-]{1,400}$',
      example,
    })
}

/** True for a cursor that a page of such a list can have given, letter by letter. */
function isCursor(cursor: string, isKey: (key: string) => boolean): boolean {
  const key = keyOfCursor(cursor)
  return isKey(key) && cursorOf(key) === cursor
}

/** A cursor is the last key of a page, wrapped so that nobody builds on what is in it. */
export function cursorOf(lastKey: string): string {
  return Buffer.from(lastKey, 'utf8').toString('base64url')
}

/** The key in a cursor. */
export function keyOfCursor(cursor: string): string
export function keyOfCursor(cursor: string | undefined): string | undefined
export function keyOfCursor(cursor: string | undefined): string | undefined {
  return cursor === undefined ? undefined : Buffer.from(cursor, 'base64url').toString('utf8')
}

/** A page of a list as it is answered. */
export function pageOf<Item extends z.ZodType>(item: Item) {
  return z.object({
    items: z.array(item),
    nextCursor: z
      .string()
      .nullable()
      .openapi({ description: 'The cursor of the next page; null on the last.', example: null }),
  })
}
