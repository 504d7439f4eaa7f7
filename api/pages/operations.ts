import type { ApiDescription } from '../openapi.ts'
import type { Described } from './reference-fields.ts'

export interface Parameter {
  readonly name: string
  readonly in: string
  readonly required?: boolean
  readonly description?: string
  readonly schema?: Described
}

export interface Operation {
  readonly operationId?: string
  readonly summary?: string
  readonly description?: string
  readonly tags?: readonly string[]
  readonly parameters?: readonly Parameter[]
  readonly requestBody?: {
    readonly content?: Readonly<Record<string, { schema?: Described; example?: unknown }>>
  }
  readonly responses?: Readonly<Record<string, { readonly description?: string }>>
}

export interface Route {
  readonly method: string
  readonly path: string
  readonly operation: Operation
}

/** Every route of the description, in its order. */
export function routesOf(description: ApiDescription): Route[] {
  const paths = (description.paths ?? {}) as Readonly<
    Record<string, Readonly<Record<string, Operation>>>
  >
  return Object.entries(paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(([method, operation]) => ({
      method: method.toUpperCase(),
      path,
      operation,
    })),
  )
}

/** What a route takes as its body, with an example of it. */
export function bodyOf({ operation }: Route) {
  return operation.requestBody?.content?.['application/json']
}
