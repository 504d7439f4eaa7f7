import { OpenAPIHono } from '@hono/zod-openapi'
import { FaultOfForm, faultsOf } from './faults.ts'
import type { Environment } from './services.ts'

/** A router whose every fault of form is answered alike: the table of routes is made of these. */
export function newRouter(): OpenAPIHono<Environment> {
  return new OpenAPIHono<Environment>({
    defaultHook: (result) => {
      if (!result.success) throw new FaultOfForm(faultsOf(result.error.issues, result.target))
    },
  })
}
