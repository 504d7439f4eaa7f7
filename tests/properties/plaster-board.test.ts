import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { plasterBoard } from '../../db/reports/plaster.ts'
import { faces } from '../support/arbitraries.ts'
import { TEST_NOW } from '../support/studio.ts'
import { Doing } from './commands.ts'
import { FreshStudios, SECOND } from './fresh-studios.ts'
import { clayAt, viewStudio } from './view.ts'

const RUNS = 6
const COMMANDS_MAX = 60
const KINDS = [
  'pour',
  'weigh_on_plaster',
  'move_load',
  'lift',
  'slake',
  'count',
  'discard',
  'correct',
]

let studios: FreshStudios
beforeAll(async () => {
  studios = await FreshStudios.open()
})
afterAll(() => studios.close())

test(
  'after any acts on plaster the board answers, with a row for each load that lies there',
  async () => {
    const commands = fc.commands(
      [...KINDS, ...KINDS.slice(0, 4), ...KINDS.slice(0, 3)].map((kind) =>
        faces.map((shown) => new Doing(kind, shown)),
      ),
      { maxCommands: COMMANDS_MAX, size: 'max' },
    )
    await fc.assert(
      fc.asyncProperty(commands, async (doings) => {
        const { real, model } = await studios.afterAGoodDay()
        await fc.asyncModelRun(() => ({ model, real }), doings)
        const { studioId, services } = real
        const { loads, emptyBats } = await plasterBoard(services.db, { studioId, now: TEST_NOW })
        const lying = clayAt(await viewStudio(services.db, studioId), 'plaster')
        const held = Object.fromEntries(lying.map((one) => [one.lotId, one.dryGrams.toFixed()]))
        expect(Object.fromEntries(loads.map((one) => [one.lotId, one.dryGrams]))).toEqual(held)
        expect(loads.length + emptyBats.length).toBe(2)
        for (const { isKnown, why, readyAt } of loads) {
          expect(isKnown ? readyAt : why).not.toBeNull()
        }
      }),
      { numRuns: RUNS, endOnFailure: true },
    )
  },
  240 * SECOND,
)
