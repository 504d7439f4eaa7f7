import { z } from '@hono/zod-openapi'

type RawIssue = z.core.$ZodRawIssue

/** What a value must be, by the name that the schema library has for it. */
const WANTED: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object with named fields',
}

/**
 * What is wrong with a value and what would be right, in plain words.
 *
 * The schema library's own sentences speak of types; these speak to whoever fills the field in.
 */
export function wordsFor(issue: RawIssue): string | undefined {
  if (issue.code === 'invalid_type') return wordsForType(issue)
  if (issue.code === 'unrecognized_keys') return wordsForKeys(issue)
  if (issue.code === 'invalid_value') return wordsForValue(issue)
  if (issue.code === 'too_small') return wordsForBound(issue, 'at least', issue.minimum)
  if (issue.code === 'too_big') return wordsForBound(issue, 'at most', issue.maximum)
  if (issue.code === 'invalid_union') return wordsForUnion(issue)
  return undefined
}

function wordsForType(issue: RawIssue & { expected?: unknown }): string {
  const wanted = WANTED[String(issue.expected)] ?? String(issue.expected)
  if (issue.input === undefined) return `This field is missing. It must be ${wanted}.`
  if (issue.expected === 'int') return `It must be ${wanted}, without a fraction.`
  return `This is ${kindOf(issue.input)}; it must be ${wanted}.`
}

function kindOf(value: unknown): string {
  if (value === null) return 'null'
  if (Array.isArray(value)) return 'a list'
  const kind = typeof value
  return WANTED[kind] ?? kind
}

/** The fields that there are: the name that was meant is mostly among them. */
function wordsForKeys(issue: RawIssue): string {
  const shape = issue.inst instanceof z.ZodObject ? Object.keys(issue.inst.shape as object) : []
  return `is not a field here. The fields are: ${shape.join(', ')}.`
}

function wordsForValue(issue: RawIssue & { values?: unknown }): string {
  const values = Array.isArray(issue.values) ? issue.values.map(String) : []
  const missing = issue.input === undefined ? 'This field is missing. ' : ''
  const wanted = values.length === 1 ? values.join('') : `one of: ${values.join(', ')}`
  return `${missing}It must be ${wanted}.`
}

function wordsForBound(
  issue: RawIssue & { origin?: unknown },
  bound: 'at least' | 'at most',
  limit: number | bigint,
): string {
  if (issue.origin === 'string') return `It must have ${bound} ${String(limit)} characters.`
  if (issue.origin === 'array') return `This list must have ${bound} ${String(limit)} items.`
  return `It must be ${bound} ${String(limit)}.`
}

function wordsForUnion(issue: RawIssue & { options?: unknown }): string {
  if (!Array.isArray(issue.options)) return 'This is none of the forms that it may have.'
  return `It must be one of: ${issue.options.map(String).join(', ')}.`
}

z.config({ customError: wordsFor })
