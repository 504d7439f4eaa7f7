import type { z } from '@hono/zod-openapi'
import './words-of-faults.ts'

/** One thing that is wrong with a request: in its body by pointer, elsewhere by the parameter's name. */
export interface Fault {
  readonly pointer?: string
  readonly parameter?: string
  readonly detail: string
}

/** A request that is not of the form that was asked for, with everything that is wrong with it. */
export class FaultOfForm extends Error {
  override readonly name = 'FaultOfForm'
  readonly faults: readonly Fault[]

  constructor(faults: readonly Fault[]) {
    super('fault of form')
    this.faults = faults
  }
}

type Issue = Pick<z.core.$ZodIssue, 'message' | 'path'> & { readonly keys?: readonly string[] }

/** Faults from what a schema found, each naming the very field: an unknown key names itself. */
export function faultsOf(issues: readonly z.core.$ZodIssue[], target: string): Fault[] {
  return issues.flatMap((issue: Issue) => {
    if (issue.keys === undefined) return [faultAt(issue.path, target, issue.message)]
    return issue.keys.map((key) => faultAt([...issue.path, key], target, `${key} ${issue.message}`))
  })
}

function faultAt(path: readonly PropertyKey[], target: string, detail: string): Fault {
  if (target === 'json') return { pointer: pointerTo(path), detail }
  return { parameter: path.map(String).join('.'), detail }
}

/** A JSON pointer in the form of a URI fragment. Source: RFC 6901, sections 3 and 6. */
export function pointerTo(path: readonly PropertyKey[]): string {
  const steps = path.map((step) => String(step).replaceAll('~', '~0').replaceAll('/', '~1'))
  return `#${steps.map((step) => `/${step}`).join('')}`
}
