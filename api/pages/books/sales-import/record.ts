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
import type { Progress } from './progress.ts'

/** After so long a page is shown, and a press goes on: no browser waits for minutes. */
const PRESS_MILLISECONDS_MAX = 15_000
const ORDER_CHARACTERS_MAX = 100
const NAME_CHARACTERS_MAX = 200
const NOT_TRIED = 'Not tried, because something went wrong before it. Bring it again.'

/**
 * Records sales one by one, each for itself: what one of them is refused does not touch the others.
 *
 * Gives how far it came; there is more to do where that is not the end. After a fault of ours the rest is
 * said not to have been tried.
 */
export async function recordSales(
  services: ApiServices,
  voice: Voice,
  job: {
    planned: readonly SalePlanned[]
    isWanted: (one: SalePlanned) => boolean
    by: string | undefined
    progress: Progress
  },
): Promise<Progress> {
  const { planned, isWanted, by } = job
  const begun = services.now().getTime()
  const done = new Tally(job.progress)
  let isBroken = false
  for (let place = done.from; place < planned.length; place += 1) {
    if (services.now().getTime() - begun > PRESS_MILLISECONDS_MAX) return done.upTo(place)
    const one = planned[place]
    if (one === undefined || !isWanted(one)) continue
    if (isBroken) {
      done.refuse(place, NOT_TRIED)
      continue
    }
    try {
      const isRetry = await recordOne(services, voice, { ...one, by })
      done.take(place, isRetry)
    } catch (error) {
      if (error instanceof Refusal && error.code === 'key_must_keep_its_content') {
        done.take(place, true)
        continue
      }
      isBroken = !(error instanceof Refusal || error instanceof FaultOfForm)
      if (isBroken) services.log.error('defect', { cause: describeCause(error) })
      done.refuse(place, wordsOf(error))
    }
  }
  return done.upTo(planned.length)
}

/** What has come of the sales, by their places; equal words are kept once. */
class Tally {
  readonly from: number
  readonly #recorded: number[]
  readonly #knownMeanwhile: number[]
  readonly #refused: [number, number][]
  readonly #words: string[]

  constructor(progress: Progress) {
    this.from = progress.from
    this.#recorded = [...progress.recorded]
    this.#knownMeanwhile = [...progress.knownMeanwhile]
    this.#refused = [...progress.refused]
    this.#words = [...progress.words]
  }

  take(place: number, isRetry: boolean): void {
    ;(isRetry ? this.#knownMeanwhile : this.#recorded).push(place)
  }

  refuse(place: number, words: string): void {
    if (!this.#words.includes(words)) this.#words.push(words)
    this.#refused.push([place, this.#words.indexOf(words)])
  }

  upTo(from: number): Progress {
    return {
      from,
      recorded: this.#recorded,
      knownMeanwhile: this.#knownMeanwhile,
      refused: this.#refused,
      words: this.#words,
    }
  }
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
