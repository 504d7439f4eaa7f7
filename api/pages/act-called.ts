import { present } from '../../shared/assert.ts'
import { ALL_ACTS } from '../acts/all-acts.ts'
import type { DefinedAct } from '../acts/define.ts'

/** The act of that name, as in its address under /v1/acts. */
export function actCalled(name: string): DefinedAct {
  return present(
    ALL_ACTS.find((defined) => defined.name === name),
    `there is an act ${name}`,
  )
}
