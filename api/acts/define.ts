import type { z } from '@hono/zod-openapi'
import type { Act, Circumstances } from '../../db/perform.ts'
import { labelText, momentText, noteText } from '../schemas.ts'

/** An act as the API offers it: what is to be said, in which words, with an example that holds. */
export interface DefinedAct {
  /** As in the address: receive-delivery. */
  readonly name: string
  readonly group: ActGroup
  readonly summary: string
  readonly description: string
  readonly schema: z.ZodType<Circumstances>
  readonly example: unknown
  readonly act: Act<Circumstances>
}

export type ActGroup =
  'Clay comes in' | 'Making' | 'Reclaim' | 'Materials and glaze' | 'Firing and after' | 'The books'

interface Definition<Said extends Circumstances> extends Omit<
  DefinedAct,
  'name' | 'schema' | 'act' | 'example'
> {
  readonly act: Act<Said>
  readonly schema: z.ZodType<Said>
  /** Checked against the schema by the compiler here and by the suite over every route. */
  readonly example: Said
}

/** What comes with every act. */
export const circumstances = {
  happenedAt: momentText(
    'When it happened; now where it is not said. Not in the future.',
  ).optional(),
  by: labelText('Who did it.', 'Ines').optional(),
  note: noteText('Anything that a reader should know later.').optional(),
}

/**
 * An act with the schema of what is said for it.
 *
 * Acts of all kinds stand in one list, so what exactly each of them is told is known here and nowhere
 * after: an act is only ever given what its own schema has let through.
 */
export function defineAct<Said extends Circumstances>(definition: Definition<Said>): DefinedAct {
  return {
    ...definition,
    name: definition.act.kind.replaceAll('_', '-'),
    act: definition.act as unknown as Act<Circumstances>,
  }
}
