import { eq } from 'drizzle-orm'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { holding, studio } from '../../db/schema.ts'
import { decimal } from '../../shared/decimal.ts'
import { allowanceOfRun } from '../../shared/loss-allowance.ts'
import { openKilnPottery, pots, type KilnPottery, type Shown } from './kiln-pottery.ts'

let pottery: KilnPottery
beforeAll(async () => {
  pottery = await openKilnPottery()
})
afterAll(() => pottery.close())

const day = (number: number) => `2026-05-${String(number).padStart(2, '0')}T10:00:00Z`

/** Thirty mugs at 1.00 each, bisque-fired on a day. */
async function thirty(runId: string, happenedAt: string): Promise<void> {
  await pots(pottery, { runId, pieces: 30, kilograms: '12.00', cost: '30.00', happenedAt })
  await pottery.does('bisque', { happenedAt, runs: [{ runId }] })
}

const lose = (runId: string, pieces: number, more: object): Promise<Shown> =>
  pottery.does('lose', { runId, pieces, stage: 'bisque_firing', cause: 'cracked', ...more })

const costAt = async (place: string, runId: string, grade?: string) =>
  (await pottery.studio.holds({ place, runId, ...(grade === undefined ? {} : { grade }) })).cost

const LOST_BEFORE = [1, 2, 0, 2]
const USUAL = Number(
  allowanceOfRun({
    pieces: decimal(30),
    earlier: LOST_BEFORE.map((lost) => ({ entered: decimal(30), lost: decimal(lost) })),
    otherForms: { entered: decimal(0), lost: decimal(0) },
  }).allowedPieces,
)

test('a usual loss is borne by the survivors, one beyond it is not', async () => {
  for (const [index, lost] of LOST_BEFORE.entries()) {
    await thirty(`run-${String(index)}`, day(index + 1))
    if (lost > 0) await lose(`run-${String(index)}`, lost, { happenedAt: day(index + 1) })
  }
  // Two of thirty left their 2.00 to the 28 that stayed: these still cost 30.00.
  expect(await costAt('bisque', 'run-3')).toBe('30')
  await thirty('burst', day(10))
  const entry = await lose('burst', 26, { happenedAt: day(10) })
  expect(USUAL).toBeGreaterThanOrEqual(2)
  expect(USUAL).toBeLessThan(10)
  const beyond = 26 - USUAL
  expect(entry.losses[0]).toMatchObject({
    ...{ pieces: 26, abnormalPieces: beyond },
    ...{ costLeft: String(USUAL), costAbnormal: String(beyond) },
  })
  expect(entry.losses[0]?.['usualWords']).toBe(
    `120 fired, 5 lost: up to ${String(USUAL)} of 30 are what usually happens; 26 of 30 lost: ${String(beyond)} are beyond it`,
  )
  expect(entry.lines.find(({ place }) => place === 'abnormal')?.cost).toBe(String(beyond))
  expect(await costAt('bisque', 'burst')).toBe(String(4 + USUAL))
})

test('what was beyond the usual does not make the next disaster usual', async () => {
  await thirty('again', day(12))
  const entry = await lose('again', 26, { happenedAt: day(12) })
  expect(entry.losses[0]?.['abnormalPieces']).toBeGreaterThan(10)
  expect(String(entry.losses[0]?.['usualWords'])).toContain('beyond the usual')
})

test('what was lost before of the run has used up its share', async () => {
  await thirty('twice', day(14))
  await lose('twice', 10, { happenedAt: day(14) })
  const entry = await lose('twice', 2, { happenedAt: day(15) })
  expect(entry.losses[0]).toMatchObject({ abnormalPieces: 2, costLeft: '0' })
})

test('a loss that is taken back is nobody’s loss', async () => {
  await thirty('put-right', day(16))
  const { entryId } = await lose('put-right', 26, { happenedAt: day(16) })
  await pottery.does('correct', { entryId })
  expect(await costAt('bisque', 'put-right')).toBe('30')
  const entry = await lose('put-right', 2, { happenedAt: day(17) })
  expect(entry.losses[0]).toMatchObject({ abnormalPieces: 0, costLeft: '2' })
})

test('where none survives, what is usual is waste and what is beyond it stands apart', async () => {
  await thirty('none', day(18))
  const entry = await lose('none', 30, { happenedAt: day(18) })
  const [loss] = entry.losses
  const at = (place: string) => entry.lines.find((line) => line.place === place)?.cost
  expect(at('abnormal')).toBe(loss?.['costAbnormal'])
  expect(Number(at('waste')) + Number(at('abnormal'))).toBe(30)
  expect(loss?.['costLeft']).toBe('0')
})

test('wasters of a grading are judged alike, and so are pots that somebody drops', async () => {
  await thirty('wasted', day(20))
  await pottery.does('glaze-fire', { happenedAt: day(21), runs: [{ runId: 'wasted' }] })
  const graded = await pottery.does('grade', {
    ...{ happenedAt: day(22), runId: 'wasted', firsts: 10, seconds: 0, wasters: 20 },
  })
  expect(graded.losses[0]?.['abnormalPieces']).toBeGreaterThan(0)
  const dropped = await pottery.does('lose', {
    ...{ runId: 'wasted', pieces: 9, stage: 'handling', cause: 'the shelf came down' },
    ...{ grade: 'first', happenedAt: day(23) },
  })
  // The wasters have used up what is usual of the run.
  expect(dropped.losses[0]).toMatchObject({ abnormalPieces: 9, costLeft: '0' })
  expect(String(dropped.losses[0]?.['usualWords'])).toContain('29 of 30 lost: 9 are beyond it')
})

async function graded(runId: string): Promise<[firsts: string, seconds: string]> {
  await pots(pottery, { runId, pieces: 14, kilograms: '5.60', cost: '14.00', at: 'bisque' })
  await pottery.does('glaze-fire', {
    runs: [{ runId }],
    firing: { kilnId: 'electric', kilowattHours: '50' },
  })
  await pottery.does('grade', { runId, firsts: 12, seconds: 2, wasters: 0 })
  const cost = (grade: string) => costAt('finished', runId, grade)
  return [await cost('first'), await cost('second')]
}

/** 14.00 of clay, 14.00 of fire and 2.40 of wear on fourteen pots. */
test('a second costs like a first, or as much of it as its price is', async () => {
  expect(await graded('alike')).toEqual(['26.057143', '4.342857'])
  await pottery.studio.services.db
    .update(studio)
    .set({ secondsCostRule: 'by_price', secondsPriceFraction: '0.5' })
    .where(eq(studio.studioId, 'mill-lane'))
  // Thirteen parts, twelve of them firsts: 12.923077 + 12.923077 + 2.215385.
  expect(await graded('priced')).toEqual(['28.061539', '2.338461'])
  const rows = await pottery.studio.services.db
    .select()
    .from(holding)
    .where(eq(holding.runId, 'priced'))
  const seconds = rows.find(({ grade }) => grade === 'second')
  expect(seconds?.costLayers).toEqual({ fire: '1.076923', wear: '0.184615' })
})
