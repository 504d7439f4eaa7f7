import { FaultOfForm } from '../faults.ts'
import { TYPED_FIELD } from './typed.ts'

/** Says at its field what a form cannot do without, in words shorter than those for a program. */
export function refuseMissing(field: string, detail: string): never {
  throw new FaultOfForm([{ pointer: `#${TYPED_FIELD}${field}`, detail }])
}
