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

interface Place {
  readonly path: string
  readonly depth: number
}

const DEPTH_MAX = 3

/** Fields of a described body, those inside others after them by their whole path. */
export function fieldRows(description: ApiDescription, schema: Described): FieldRow[] {
  return rowsBelow(description, schema, { path: '', depth: 0 })
}

/** What bodies are made of and the description names, each once; a whole body is told at its route. */
export function namedParts(description: ApiDescription, schemas: readonly Described[]) {
  const found = new Map<string, Described>()
  for (const schema of schemas) addParts(description, resolved(description, schema), found)
  for (const schema of schemas) found.delete(refOf(schema) ?? '')
  return [...found].map(([name, schema]) => ({ name, schema }))
}

function addParts(
  description: ApiDescription,
  schema: Described,
  found: Map<string, Described>,
): void {
  const { properties = {}, items } = schema
  const inner = [...Object.values(properties), ...(items === undefined ? [] : [items])]
  for (const choice of choicesOf(schema))
    addParts(description, resolved(description, choice), found)
  for (const field of inner) {
    const name = refOf(field)
    const whole = resolved(description, field)
    if (name !== undefined && found.has(name)) continue
    if (name !== undefined) found.set(name, whole)
    addParts(description, whole, found)
  }
}

function rowsBelow(description: ApiDescription, schema: Described, at: Place): FieldRow[] {
  const { properties = {}, required = [] } = resolved(description, schema)
  return Object.entries(properties).flatMap(([name, field]) => {
    const path = at.path === '' ? name : `${at.path}.${name}`
    const row = {
      name: path,
      kind: kindOf(description, field),
      isRequired: required.includes(name),
      description: wordsOf(description, field),
    }
    return [row, ...rowsInside(description, field, { path, depth: at.depth })]
  })
}

/** A field's own words, which stand beside what it refers to; those of what it is where it has none. */
function wordsOf(description: ApiDescription, field: Described): string {
  const own = field.description ?? field.allOf?.find((part) => part.description)?.description
  return own ?? resolved(description, field).description ?? ''
}

function rowsInside(description: ApiDescription, field: Described, at: Place): FieldRow[] {
  const whole = resolved(description, field)
  const path = whole.items === undefined ? at.path : `${at.path}[]`
  const inner = whole.items ?? field
  const below = { path, depth: at.depth + 1 }
  const choices = choicesOf(resolved(description, inner))
  if (choices.length > 0) return choiceRows(description, choices, below)
  const isNamed = refOf(field) !== undefined || refOf(whole.items ?? {}) !== undefined
  if (at.depth >= DEPTH_MAX || (isNamed && at.depth > 0)) return []
  return rowsBelow(description, inner, below)
}

/** Every form that a value may have: one with a name has its fields told, others only how they begin. */
function choiceRows(
  description: ApiDescription,
  choices: readonly Described[],
  at: Place,
): FieldRow[] {
  return choices.flatMap((choice) => {
    const whole = resolved(description, choice)
    const [name, first] = Object.entries(whole.properties ?? {})[0] ?? []
    if (name === undefined || first === undefined) return []
    const row = {
      name: `${at.path}, ${name}: ${kindOf(description, first)}`,
      kind: refOf(choice) ?? 'object',
      isRequired: false,
      description: wordsOf(description, first),
    }
    const isNamed = refOf(choice) !== undefined
    return [row, ...(isNamed ? rowsBelow(description, choice, { ...at, depth: DEPTH_MAX }) : [])]
  })
}

function choicesOf(schema: Described): readonly Described[] {
  const choices = schema.oneOf ?? schema.anyOf ?? []
  return choices.filter((choice) => choice.type !== 'null')
}

function kindOf(description: ApiDescription, field: Described): string {
  const name = refOf(field)
  const whole = resolved(description, field)
  if (whole.items !== undefined) return `list of ${kindOf(description, whole.items)}`
  if (name !== undefined) return name
  if (whole.enum !== undefined) return whole.enum.map(String).join(' | ')
  if (whole.const !== undefined) return String(whole.const)
  const choices = choicesOf(whole)
  if (choices.length > 0) {
    return [...new Set(choices.map((one) => kindOf(description, one)))].join(' | ')
  }
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
