import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { faces } from '../support/arbitraries.ts'
import { Doing } from './commands.ts'
import { FreshStudios, KINDS, SECOND } from './fresh-studios.ts'

const RUNS = 6
const COMMANDS_MAX = 100

/** Closing a month ends too much to be frequent; pots have a long way to go, and much goes wrong. */
const DRAWN = [
  ...KINDS.filter((kind) => kind !== 'close_month'),
  ...KINDS,
  ...['throw', 'throw', 'turn', 'lose', 'bisque', 'glaze_fire', 'grade', 'pour', 'slake', 'lift'],
  ...['receive_materials', 'mix_glaze', 'glaze', 'glaze', 'glaze_fire', 'grade', 'sell'],
  ...['correct', 'correct'],
]

let studios: FreshStudios
beforeAll(async () => {
  studios = await FreshStudios.open()
})
afterAll(() => studios.close())

describe('any sequence of acts, sensible or foolish', () => {
  test(
    'adds up after each, and what was refused has left no trace',
    async () => {
      const commands = fc.commands(
        DRAWN.map((kind) => faces.map((shown) => new Doing(kind, shown))),
        { maxCommands: COMMANDS_MAX, size: 'max' },
      )
      await fc.assert(
        fc.asyncProperty(commands, async (sequence) => {
          const state = await studios.afterAGoodDay(true)
          await fc.asyncModelRun(() => state, sequence)
        }),
        { numRuns: RUNS, unbiased: true, interruptAfterTimeLimit: 100 * SECOND },
      )
    },
    150 * SECOND,
  )

  test('tries every kind of act, and every one of them is accepted at times', () => {
    console.log(studios.tally.table(KINDS))
    expect(KINDS.filter((kind) => studios.tally.accepted(kind) === 0)).toEqual([])
  })
})
