import { expect, test } from 'vitest'
import { voiceOf } from '../../api/pages/voice.ts'
import type { StudioView } from '../../db/catalogue-studios.ts'
import { decimal } from '../../shared/decimal.ts'

const STUDIO: StudioView = {
  studioId: 'mill-lane',
  name: 'Mill Lane',
  currency: 'GBP',
  timeZone: 'Europe/London',
  jurisdiction: 'GB',
  comparesMakers: false,
  createdAt: '2026-01-01T00:00:00.000Z',
  massUnits: 'metric',
  dateOrder: 'day_month_year',
  tradeWords: 'UK',
  secondsCostRule: 'like_firsts',
  secondsPriceFraction: '0.5',
  hourlyFigure: null,
}
const NOW = new Date('2026-07-14T23:30:00Z')

test('a British studio', () => {
  const voice = voiceOf(STUDIO, NOW)
  expect([voice.mass('12460'), voice.mass(decimal(460)), voice.mass('12460', 3)]).toEqual([
    ...['12.46 kg', '460 g', '12.460 kg'],
  ])
  expect(voice.massSure('12460', '61')).toBe('12.46 kg ± 0.12')
  expect([voice.money('3.2'), voice.share('0.124'), voice.share(0.5, 0)]).toEqual([
    ...['£3.20', '12.4 %', '50 %'],
  ])
  // Half past eleven at Greenwich is past midnight on a summer's wall.
  expect([voice.day(NOW), voice.day('2026-07-14'), voice.day(NOW.toISOString())]).toEqual([
    ...['15 Jul 2026', '14 Jul 2026', '15 Jul 2026'],
  ])
  expect([voice.moment(NOW), voice.month('2026-10')]).toEqual([
    ...['15 Jul 2026, 00:30', 'October 2026'],
  ])
  expect([voice.word('turnings'), voice.words('The jug is turned.')]).toEqual([
    ...['turnings', 'The jug is turned.'],
  ])
})

test('an American one', () => {
  const voice = voiceOf(
    {
      ...STUDIO,
      currency: 'USD',
      timeZone: 'America/New_York',
      massUnits: 'pounds_ounces',
      dateOrder: 'month_day_year',
      tradeWords: 'US',
    },
    NOW,
  )
  expect([voice.mass('12460'), voice.massSure('12460', '61'), voice.money('-3.2')]).toEqual([
    ...['27 lb 7.5 oz', '27 lb 7.5 oz ± 4.2 oz', '-$3.20'],
  ])
  expect([voice.day(NOW), voice.moment(NOW)]).toEqual(['Jul 14, 2026', 'Jul 14, 2026, 19:30'])
  expect([voice.word('turnings'), voice.words('The jug is turned.')]).toEqual([
    ...['trimmings', 'The pitcher is trimmed.'],
  ])
  expect(voice.words('The jug weighs 460 g.')).toBe('The pitcher weighs 1 lb 0.2 oz.')
})
