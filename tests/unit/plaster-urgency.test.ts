import { describe, expect, test } from 'vitest'
import { driestFirst, mostUrgentFirst, slabStanding } from '../../shared/plaster-urgency.ts'

const slab = (name: string, act: string | null, ready: string | null) => ({
  name,
  advice: act === null ? null : { act },
  readyAt: ready === null ? null : { median: ready },
})

describe('how a slab stands', () => {
  test.each([
    ['lift_and_wet', 'too_dry'],
    ['lift', 'ready'],
    ['weigh', 'ask_the_scale'],
    ['move_to_dry_bat', 'bat_is_tired'],
    ['turn', 'to_turn'],
    ['leave', 'drying'],
    [null, 'drying'],
  ])('advised %s it is %s', (act, standing) => {
    expect(slabStanding(slab('', act, null))).toBe(standing)
  })
})

test('what spoils comes first, then what is ready, then by when it will be', () => {
  const slabs = [
    slab('later', 'leave', '2026-05-15T07:00:00+01:00'),
    slab('unknown', 'leave', null),
    slab('sooner', 'leave', '2026-05-15T06:30:00+01:00'),
    slab('turn', 'turn', '2026-05-16T07:00:00+01:00'),
    slab('scale', 'weigh', null),
    slab('tired', 'move_to_dry_bat', null),
    slab('ready', 'lift', '2026-05-14T07:00:00+01:00'),
    slab('spoils', 'lift_and_wet', '2026-05-14T12:00:00+01:00'),
  ]
  expect(mostUrgentFirst(slabs).map(({ name }) => name)).toEqual([
    ...['spoils', 'ready', 'scale', 'tired', 'turn', 'sooner', 'later', 'unknown'],
  ])
  expect(slabs[0]?.name).toBe('later')
})

test('a bat that nothing lay on comes first, then the one that was emptied longest ago', () => {
  const bats = [
    { name: 'yesterday', emptySince: '2026-05-13T18:00:00+01:00' },
    { name: 'last week', emptySince: '2026-05-06T18:00:00+01:00' },
    { name: 'new', emptySince: null },
  ]
  expect(driestFirst(bats).map(({ name }) => name)).toEqual(['new', 'last week', 'yesterday'])
})
