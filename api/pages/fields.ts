import type { ApiDescription } from '../openapi.ts'

/** As much of JSON Schema as our own description uses. */
export interface Described {
  readonly $ref?: string
  readonly type?: string | readonly string[]
  readonly description?: string
  readonly example?: unknown
  readonly enum?: readonly unknown[]
  readonly const?: unknown
  readonly properties?: Readonly<Record<string, Described>>
  readonly required?: readonly string[]
  readonly items?: Described
  readonly allOf?: readonly Described[]
  readonly anyOf?: readonly Described[]
  readonly oneOf?: readonly Described[]
}

/** A row of the table of fields. */
export interface FieldRow {
  readonly name: string
  readonly kind: string
  readonly isRequired: boolean
  readonly description: string
}

const DEPTH_MAX = 3

/** Fields of a described body, those inside others after them by their whole path. */
export function fieldRows(description: ApiDescription, schema: Described): FieldRow[] {
  return rowsBelow(description, schema, { path: '', depth: 0 })
}

function rowsBelow(
  description: ApiDescription,
  schema: Described,
  at: { path: string; depth: number },
): FieldRow[] {
  const { properties = {}, required = [] } = resolved(description, schema)
  return Object.entries(properties).flatMap(([name, field]) => {
    const path = at.path === '' ? name : `${at.path}.${name}`
    const whole = resolved(description, field)
    const row = {
      name: path,
      kind: kindOf(description, field),
      isRequired: required.includes(name),
      description: field.description ?? whole.description ?? '',
    }
    const inner = innerOf(description, whole)
    const isNamed = refOf(field) !== undefined || refOf(whole.items ?? {}) !== undefined
    if (inner === undefined || at.depth >= DEPTH_MAX || (isNamed && at.depth > 0)) return [row]
    const isList = whole.items !== undefined
    const below = { path: isList ? `${path}[]` : path, depth: at.depth + 1 }
    return [row, ...rowsBelow(description, inner, below)]
  })
}

function innerOf(description: ApiDescription, schema: Described): Described | undefined {
  const inner = schema.items ?? schema
  return resolved(description, inner).properties === undefined ? undefined : inner
}

function kindOf(description: ApiDescription, field: Described): string {
  const name = refOf(field)
  const whole = resolved(description, field)
  if (whole.items !== undefined) return `list of ${kindOf(description, whole.items)}`
  if (name !== undefined) return name
  if (whole.enum !== undefined) return whole.enum.map(String).join(' | ')
  if (whole.const !== undefined) return String(whole.const)
  const choices = whole.oneOf ?? whole.anyOf
  if (choices !== undefined) return choices.map((one) => kindOf(description, one)).join(' | ')
  return [whole.type ?? 'any'].flat().join(' | ')
}

/** The name of what a field refers to, also where a description of its own is wrapped around it. */
function refOf(field: Described): string | undefined {
  const found = field.$ref ?? field.allOf?.find((part) => part.$ref !== undefined)?.$ref
  return found?.split('/').at(-1)
}

function resolved(description: ApiDescription, field: Described): Described {
  const name = refOf(field)
  if (name === undefined) return field
  const schemas = description.components?.schemas as Readonly<Record<string, Described>> | undefined
  return schemas?.[name] ?? field
}
