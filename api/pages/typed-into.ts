import type { Context } from 'hono'
import { FaultOfForm } from '../faults.ts'
import type { Environment } from '../services.ts'
import { Typed } from './typed.ts'

/** What was typed into a form that was sent. A body that is no form was sent by no page of ours. */
export async function typedInto(c: Context<Environment>): Promise<Typed> {
  try {
    return new Typed(await c.req.formData())
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    throw new FaultOfForm([{ detail: 'This is not a form as a page sends it.' }])
  }
}
