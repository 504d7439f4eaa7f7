import { describe, expect, test } from 'vitest'
import { ballsFrom } from '../../shared/balls.ts'
import { boardStage, type PotsOnBoard } from '../../shared/board-stage.ts'
import { decimal } from '../../shared/decimal.ts'
import { piecesLeft, piecesTogether } from '../../shared/pieces-left.ts'
import { turningHabitWords, turningsByHabit } from '../../shared/turning-habit.ts'

const NOW = new Date('2026-06-15T12:00:00Z')
const ago = (hours: number) => new Date(NOW.getTime() - hours * 3_600_000)

const board = (pots: Partial<PotsOnBoard> & { thrown: number; worked?: number }): PotsOnBoard => ({
  now: NOW,
  thrownAt: ago(pots.thrown),
  workedAt: ago(pots.worked ?? pots.thrown),
  isTurned: false,
  isTurnedUsually: true,
  weighed: null,
  ...pots,
})

const weighed = (water: string, hours: number) => ({
  at: ago(hours),
  waterContentWetBasis: decimal(water),
})

describe('what a board waits for', () => {
  test.each([
    [board({ thrown: 0.5 }), 'just_thrown', 'just now'],
    [board({ thrown: 5.9 }), 'just_thrown', '5 hours ago'],
    [board({ thrown: 6 }), 'to_turn', 'Leather-hard by now'],
    [board({ thrown: 30 }), 'to_turn', '30 hours ago, not turned. Turn it soon'],
    [board({ thrown: 30, isTurnedUsually: false }), 'drying', 'about a week'],
    [board({ thrown: 30, worked: 2, isTurned: true }), 'drying', '2 hours ago'],
    [board({ thrown: 240, worked: 60, isTurned: true }), 'drying', '2 days ago'],
    [board({ thrown: 240, worked: 168, isTurned: true }), 'for_bisque', 'likely bone-dry'],
    [board({ thrown: 240 }), 'for_bisque', '10 days ago: likely bone-dry'],
  ])('goes by the hours and says that this is a guess (%#)', (pots, stage, words) => {
    const found = boardStage(pots)
    expect([found.stage, found.isGuess]).toEqual([stage, true])
    expect(found.words).toContain(words)
  })

  test.each([
    [board({ thrown: 80, isTurned: true, weighed: weighed('0.02', 1) }), 'for_bisque', '2.0 %'],
    [board({ thrown: 80, isTurned: true, weighed: weighed('0.03', 1) }), 'for_bisque', 'bone-dry'],
    [board({ thrown: 80, isTurned: true, weighed: weighed('0.081', 1) }), 'drying', '8.1 % water'],
    [board({ thrown: 80, weighed: weighed('0.08', 1) }), 'drying', 'Too dry to turn'],
  ])('goes by the scale where that tells it (%#)', (pots, stage, words) => {
    const found = boardStage(pots)
    expect([found.stage, found.isGuess]).toEqual([stage, false])
    expect(found.words).toContain(words)
  })

  test('a weigh-in that is a week old, or of soft pots, leaves it to the hours', () => {
    const old = boardStage(board({ thrown: 400, isTurned: true, weighed: weighed('0.1', 170) }))
    expect([old.stage, old.isGuess]).toEqual(['for_bisque', true])
    const soft = boardStage(board({ thrown: 20, weighed: weighed('0.18', 1) }))
    expect([soft.stage, soft.isGuess]).toEqual(['to_turn', true])
  })
})

describe('what is reckoned beside the wheel', () => {
  test('balls are whole, and none comes of nothing', () => {
    const balls = (wet: string, ball: string) =>
      ballsFrom({ wetGrams: decimal(wet), ballGrams: decimal(ball) })
    expect([balls('4199', '420'), balls('4200', '420'), balls('100', '0')]).toEqual([9, 10, 0])
  })

  test('turnings by habit are as wet as they fall', () => {
    const wet = turningsByHabit({
      dryGrams: decimal('8500'),
      turnedOffFraction: decimal('0.1'),
      waterContentWetBasis: decimal('0.15'),
    })
    expect(wet.toFixed()).toBe('1000')
  })

  test('a share is within habit up to its limits, and a limit below nothing is none', () => {
    const habit = {
      centreFraction: decimal('0.05'),
      lowerLimitFraction: decimal('-0.01'),
      upperLimitFraction: decimal('0.11'),
    }
    expect(turningHabitWords(decimal('0.11'), habit)).toBe('Within habit: 0.0 % to 11.0 %.')
    expect(turningHabitWords(decimal('0.12'), habit)).toContain('More than by habit')
    const narrow = { ...habit, lowerLimitFraction: decimal('0.04') }
    expect(turningHabitWords(decimal('0.03'), narrow)).toContain('Less than by habit')
  })

  test('pieces that are told apart leave the others, and never less than none', () => {
    expect([piecesLeft(20, [2, 1]), piecesLeft(2, [3]), piecesLeft(2, [Number.NaN])]).toEqual([
      17, 0, 0,
    ])
    expect(piecesTogether([3, 4])).toBe(7)
  })
})
