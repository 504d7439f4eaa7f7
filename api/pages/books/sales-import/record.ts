import { performAct } from '../../../../db/perform.ts'
import type { SellSaid } from '../../../../db/acts/sell.ts'
import { Refusal } from '../../../../shared/refusal.ts'
import type { KnownSale } from '../../../../shared/sales-identity.ts'
import { momentOfWallTime } from '../../../../shared/written-day.ts'
import { describeCause } from '../../../cause.ts'
import { FaultOfForm, faultsOf } from '../../../faults.ts'
import { PROBLEM_KINDS } from '../../../problem-kinds.ts'
import type { ApiServices } from '../../../services.ts'
import { actCalled } from '../../act-called.ts'
import type { Voice } from '../../voice.ts'
import type { SalePlanned } from './planned.ts'

/** A sale that the books did not take, and why. */
export interface SaleRefused {
  readonly sale: KnownSale
  readonly detail: string
}

export interface Outcome {
  readonly recorded: readonly KnownSale[]
  /** Recorded meanwhile by somebody else. */
  readonly knownMeanwhile: readonly KnownSale[]
  readonly refused: readonly SaleRefused[]
}

const ORDER_CHARACTERS_MAX = 100
const NAME_CHARACTERS_MAX = 200
const NOT_TRIED = 'Not tried, because something went wrong before it. Bring it again.'

/**
 * Records sales one by one, each for itself: what one of them is refused does not touch the others.
 *
 * A fault of ours ends it; the rest is said not to have been tried.
 */
export async function recordSales(
  services: ApiServices,
  voice: Voice,
  job: { planned: readonly SalePlanned[]; by: string | undefined },
): Promise<Outcome> {
  const recorded: KnownSale[] = []
  const knownMeanwhile: KnownSale[] = []
  const refused: SaleRefused[] = []
  let isBroken = false
  for (const { sale, key } of job.planned) {
    if (isBroken) {
      refused.push({ sale, detail: NOT_TRIED })
      continue
    }
    try {
      const isRetry = await recordOne(services, voice, { sale, key, by: job.by })
      ;(isRetry ? knownMeanwhile : recorded).push(sale)
    } catch (error) {
      if (error instanceof Refusal && error.code === 'key_must_keep_its_content') {
        knownMeanwhile.push(sale)
        continue
      }
      isBroken = !(error instanceof Refusal || error instanceof FaultOfForm)
      if (isBroken) services.log.error('defect', { cause: describeCause(error) })
      refused.push({ sale, detail: wordsOf(error) })
    }
  }
  return { recorded, knownMeanwhile, refused }
}

async function recordOne(
  services: ApiServices,
  voice: Voice,
  one: { sale: KnownSale; key: string; by: string | undefined },
): Promise<boolean> {
  const { act, schema } = actCalled('sell')
  const read = schema.safeParse(saidOf(one.sale, voice, one.by))
  if (!read.success) throw new FaultOfForm(faultsOf(read.error.issues, 'json'))
  const occasion = { studioId: voice.studio.studioId, idempotencyKey: one.key }
  return (await performAct(services, occasion, { act, said: read.data })).isRetry
}

/** The act as the books are told it: at the end of its day, so that what was made that day is there. */
function saidOf(sale: KnownSale, voice: Voice, by: string | undefined): SellSaid {
  const { formId, grade, pieces, priceEach, channel } = sale
  const end = momentOfWallTime(`${sale.day}T23:59`, voice.studio.timeZone) ?? voice.now
  const happenedAt = (end > voice.now ? voice.now : end).toISOString()
  const order = sale.order === '' ? '' : `order ${sale.order.slice(0, ORDER_CHARACTERS_MAX)}, `
  const note = `From a file of sales: ${order}“${sale.name.slice(0, NAME_CHARACTERS_MAX)}”`
  return {
    ...{ formId, grade, pieces, channel, happenedAt, note },
    priceEach: priceEach.toFixed(),
    ...(by === undefined ? {} : { by }),
  }
}

function wordsOf(error: unknown): string {
  if (error instanceof FaultOfForm) return error.faults.map(({ detail }) => detail).join(' ')
  if (error instanceof Refusal) return `${PROBLEM_KINDS[error.code].title}. ${error.message}`
  return 'Something went wrong here, and nothing was recorded of it. Bring it again.'
}
