import type { Context } from 'hono'
import { weighList, type WeighableThing } from '../../../db/reports/weigh-list.ts'
import { Refusal, type RefusalCode } from '../../../shared/refusal.ts'
import type { Environment } from '../../services.ts'

interface Meant {
  readonly isIt: (thing: WeighableThing) => boolean
  /** What is refused where it is not there. */
  readonly code: RefusalCode
  readonly words: string
}

/** The thing on the scale that an address means. Refuses: as is said, where it is not there. */
export async function thingWeighed(
  c: Context<Environment>,
  { isIt, code, words }: Meant,
): Promise<WeighableThing> {
  const things = await weighList(c.get('services').db, c.get('studioId'))
  const thing = things.find(isIt)
  if (thing === undefined) throw new Refusal(code, words)
  return thing
}
