import { expect } from 'vitest'
import { kg } from '../support/studio.ts'
import { openPottery, type Body, type Pottery } from './pottery.ts'

interface Span {
  readonly median: string
  readonly from: string
  readonly to: string
}

export interface Load {
  readonly [field: string]: unknown
  readonly lotId: string
  readonly isKnown: boolean
  readonly why: string | null
  readonly whyNot: string | null
  readonly words: string
  readonly water: Span
  readonly readyAt: Span
  readonly tooDryAfter: Span
  readonly advice: { act: string; words: string }
  readonly bat: Record<string, string | null>
  readonly weighIns: readonly Record<string, unknown>[]
  readonly pairs: readonly Record<string, unknown>[]
  readonly curve: readonly { hours: string; waterContentWetBasis: Span }[]
}

export const WATER = { content: '0.37137', basis: 'wet', standing: 'measured' }
const HOUR = 3_600_000

/** A pottery with two plaster bats, a full basin and a clock that the test moves on. */
export interface PlasterPottery {
  readonly pottery: Pottery
  /** Moves the clock on by so many hours. */
  readonly pass: (hours: number) => void
  /** Sets the clock to a time of the day of the tests. */
  readonly clock: (time: string) => void
  readonly pour: (lotId: string, batId?: string) => Promise<Body>
  readonly weigh: (lotId: string, kilograms: string, more?: object) => Promise<Body>
  readonly load: (lotId: string) => Promise<Load>
  readonly board: () => Promise<Board>
  /** Some loads that dried alike: weighed once on the way, and lifted at the target. */
  readonly passSomeWeeks: () => Promise<void>
}

export interface Board {
  readonly loads: Load[]
  readonly emptyBats: Record<string, string | null>[]
  readonly pastLoads: number
}

export async function openPlaster(): Promise<PlasterPottery> {
  let now = new Date('2026-05-14T11:20:00+01:00')
  const pottery = await openPottery({ now: () => now })
  await furnishPlaster(pottery)
  const pass = (hours: number) => void (now = new Date(now.getTime() + hours * HOUR))
  const pour = (lotId: string, batId = 'b') =>
    pottery.does('pour', {
      basinVesselId: 'basin-1',
      loads: [{ batId, lotId, reading: { net: kg('6.00') } }],
      water: WATER,
    })
  const weigh = (lotId: string, kilograms: string, more: object = {}) =>
    pottery.does('weigh-on-plaster', {
      lotId,
      reading: { net: kg(kilograms) },
      withPlaster: false,
      ...more,
    })
  const read = async (path: string) => {
    const { status, body } = await pottery.ask('GET', `/v1/reports/plaster${path}`)
    expect(status).toBe(200)
    return body
  }
  return {
    pottery,
    pass,
    clock: (time) => void (now = new Date(`2026-05-14T${time}:00+01:00`)),
    pour,
    weigh,
    load: async (lotId) => (await read(`/${lotId}`)) as unknown as Load,
    board: async () => (await read('')) as unknown as Board,
    passSomeWeeks: async () => {
      now = new Date('2026-04-02T09:00:00+01:00')
      for (const [index, kilograms] of ['5.38', '5.33', '5.42', '5.36'].entries()) {
        const lotId = `past-${String(index)}`
        await pour(lotId)
        pass(4)
        await weigh(lotId, kilograms)
        pass(4.5)
        await pottery.does('lift', { lotId, reading: { net: kg('4.87') } })
        pass(48)
      }
    },
  }
}

async function furnishPlaster({ ask, does }: Pottery): Promise<void> {
  for (const batId of ['b', 'c']) {
    const sizes = { dryGrams: '7100', lengthMillimetres: '320', widthMillimetres: '320' }
    await ask('POST', '/v1/bats', { body: { batId, name: `Bat ${batId}`, ...sizes } })
  }
  const basin = { what: 'basin', bodyId: 'buff', vesselId: 'basin-1', water: WATER }
  await does('open-books', {
    happenedAt: '2026-04-01T09:00:00+01:00',
    items: [{ ...basin, reading: { net: kg('400.00') } }],
  })
}

export const hoursFromPour = (moment: string, laidAt: unknown) =>
  (new Date(moment).getTime() - new Date(String(laidAt)).getTime()) / HOUR
