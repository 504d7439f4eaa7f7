import { kg } from '../support/studio.ts'
import type { Pottery } from './pottery.ts'

/** What is told otherwise than it was, or not at all. */
interface Told {
  readonly bodyId?: string
  readonly turnings?: object
  readonly leatherHard?: string
  readonly benchCount?: string | null
  readonly weighsPots?: boolean
  readonly weighsFired?: boolean
  /** How many bags are opened, and not weighed. */
  readonly bags?: number
  readonly bucketWeighs?: string
}

const on = (day: number, hour = 10) =>
  `2026-05-${String(day).padStart(2, '0')}T${String(hour).padStart(2, '0')}:00:00+01:00`
export const wet = (content: string) => ({ content, basis: 'wet', standing: 'measured' })
const named = ({ bodyId = 'buff' }: Told) => ({
  bodyId,
  bagsId: `${bodyId}-bags`,
  benchId: `${bodyId}-bench`,
  runId: `${bodyId}-plates`,
  vesselId: bodyId === 'buff' ? 'bucket-1' : 'bucket-2',
  slopsId: bodyId === 'buff' ? 'basin-1' : 'basin-2',
})

/**
 * A May in which twenty plates are made, and nothing of it is wrong but what is told so.
 *
 * 32 kg of balls at 20.5 % water are 25.44 kg dry. 1.20 kg of slops at 62 % leave 24.984 kg, less some
 * 50 g on hands: 24.934 kg, which is 29.86 kg leather-hard at 16.5 %. 4.00 kg of turnings, 3.34 kg dry,
 * and some 65 g past the bucket leave 21.527 kg: 25.78 kg; 19.805 kg when 8 % went in the fire.
 */
export async function makePlates(pottery: Pottery, told: Told = {}): Promise<void> {
  await throwPlates(pottery, told)
  await turnPlates(pottery, told)
  await weighTheRest(pottery, told)
}

async function throwPlates({ does }: Pottery, told: Told): Promise<void> {
  const { bodyId, bagsId, benchId, runId, slopsId } = named(told)
  const delivered = { bodyId, lotId: bagsId, bags: 4, bagMass: kg('12.5'), price: '60.00' }
  await does('receive-delivery', {
    happenedAt: on(4),
    clays: [{ ...delivered, water: wet('0.205') }],
  })
  await does('open-bag', {
    ...{ happenedAt: on(5), lotId: bagsId, bags: told.bags ?? 4, newLotId: benchId },
    ...(told.bags === undefined ? { reading: { net: kg('50.00') } } : {}),
  })
  await does('throw', {
    ...{ happenedAt: on(12), formId: 'plate', runId, label: `Plates of ${bodyId}` },
    from: [{ lotId: benchId, balls: 20, ballMass: kg('1.60') }],
  })
  await does('collect-slops', {
    ...{ happenedAt: on(12, 12), runIds: [runId], vesselId: slopsId, state: 'slops' },
    ...{ reading: { net: kg('1.20') }, water: wet('0.62') },
  })
}

async function turnPlates({ does }: Pottery, told: Told): Promise<void> {
  const { runId, vesselId } = named(told)
  const water = wet(told.leatherHard ?? '0.165')
  const weigh = async (hour: number, net: string) => {
    if (told.weighsPots === false) return
    const pots = { runId, place: 'greenware', reading: { net: kg(net) }, water }
    await does('weigh-run', { happenedAt: on(14, hour), ...pots })
  }
  await weigh(9, '29.86')
  const turnings = told.turnings ?? { net: kg('4.00') }
  await does('turn', { happenedAt: on(14), runId, vesselId, water, turnings })
  await weigh(11, '25.78')
}

async function weighTheRest(pottery: Pottery, told: Told): Promise<void> {
  const { does } = pottery
  const { bodyId, benchId, runId, vesselId } = named(told)
  const fired = told.weighsFired === false ? {} : { reading: { net: kg('19.80') } }
  await does('bisque', { happenedAt: on(25), runs: [{ runId, ...fired }] })
  if (told.bucketWeighs !== undefined) {
    await does('weigh-scrap', {
      ...{ happenedAt: on(14, 18), vesselId, bodyId, state: 'turnings', water: wet('0.165') },
      reading: { net: kg(told.bucketWeighs) },
    })
  }
  if (told.benchCount === null) return
  const { body } = await pottery.ask('GET', `/v1/holdings?place=bench&lotId=${benchId}`)
  const [bench] = body['items'] as { holdingId: string }[]
  await does('count', {
    ...{ happenedAt: on(31), holdingId: bench?.holdingId, water: wet('0.205') },
    reading: { net: kg(told.benchCount ?? '18.00') },
  })
}
