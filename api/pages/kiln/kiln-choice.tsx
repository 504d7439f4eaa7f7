import type { Context } from 'hono'
import { kilnsKnown, type KilnsKnown } from '../../../db/reports/kilns.ts'
import type { KilnKind } from '../../../shared/kiln-load.ts'
import type { Environment } from '../../services.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField } from '../fields.tsx'
import type { Typed } from '../typed.ts'

/** The kilns of the studio, for a fire of that kind. */
export function kilnsFor(c: Context<Environment>, kind: KilnKind): Promise<KilnsKnown> {
  const { db, now } = c.get('services')
  return kilnsKnown(db, { studioId: c.get('studioId'), kind, now: now() })
}

/** The kiln that is meant: as touched; where there is but one, that. */
export function kilnOf({ kilns }: Pick<KilnsKnown, 'kilns'>, typed: Typed): string | undefined {
  const [only, ...others] = kilns
  return typed.text('kilnId') ?? (others.length === 0 ? only?.kilnId : undefined)
}

interface KilnChoiceProps extends KilnsKnown {
  readonly chosen: string | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** Which kiln it goes into: the last one that was loaded, until another is touched. */
export function KilnChoice({ kilns, lastKilnId, chosen, typed, faults }: KilnChoiceProps) {
  if (kilns.length < 2) return null
  return (
    <ChoiceField
      name="kilnId"
      label="Into which kiln"
      choices={kilns.map(({ kilnId, name }) => ({ value: kilnId, name }))}
      usual={chosen ?? lastKilnId ?? undefined}
      typed={typed}
      faults={faults}
    />
  )
}
