import { describe, expect, test } from 'vitest'
import { inTradeWords, tradeWord } from '../../shared/trade-words.ts'

describe('a sentence of the program in American words', () => {
  test.each([
    ['The turnings of 14 May weighed 2.4 kg.', 'The trimmings of 14 May weighed 2.4 kg.'],
    ['Turnings, slops and off-cuts', 'Trimmings, slops and off-cuts'],
    ['TURNINGS', 'TRIMMINGS'],
    ['Weigh all pots after turning.', 'Weigh all pots after trimming.'],
    ['You turn more off than usual.', 'You trim more off than usual.'],
    ['No run has been turned yet.', 'No run has been trimmed yet.'],
    ['The turned-off share of each run', 'The trimmed-off share of each run'],
    ['one hundredth more turned off', 'one hundredth more trimmed off'],
    ['before it was first turned', 'before it was first trimmed'],
    ['20 g before turning, 18 g after', '20 g before trimming, 18 g after'],
    ['1 plate turned through', '1 plate trimmed through'],
    ['Fill the jug to the line.', 'Fill the pitcher to the line.'],
    ['Two wasters from the glost firing', 'Two discards from the glaze firing'],
    ['the glost kiln, and the glost', 'the glaze kiln, and the glaze'],
    ['bone-dry pots', 'bone dry pots'],
    ['Labour, litres and centimetres', 'Labor, liters and centimeters'],
    ['Plant pots in the mould', 'Planters in the mold'],
  ])('%s', (house, american) => {
    expect(inTradeWords(house, 'US')).toBe(american)
    expect(inTradeWords(house, 'UK')).toBe(house)
  })
})

describe('what stays as it is', () => {
  test.each([
    'Weigh them in turn.',
    'Each bat in its turn.',
    'Return the slops.',
    'It turns out to be dry.',
    'Turn the slab if it lets go by itself.',
    'Turn the bats about.',
    'when to turn, lift or move it',
    'To turn it over, let it dry first.',
    'half a turn of the wheel',
    'Wash the jugular.',
    'Wasted clay goes to waste.',
    'The bucket ‘White turnings’ is full.',
    'The bucket ‘Ann’s turnings and jugs’ is full.',
    "There is no vessel 'jug-bucket' in this studio.",
    '“Turned on Friday”',
  ])('%s', (sentence) => {
    expect(inTradeWords(sentence, 'US')).toBe(sentence)
  })
})

test('beside a name, the words of the program are put otherwise', () => {
  expect(inTradeWords('‘White turnings’ has the turnings of the jugs.', 'US')).toBe(
    '‘White turnings’ has the trimmings of the pitchers.',
  )
  expect(inTradeWords('The potters’ jug; the studio’s turnings', 'US')).toBe(
    'The potters’ pitcher; the studio’s trimmings',
  )
})

test('a word by itself', () => {
  expect(tradeWord('turnings', 'UK')).toBe('turnings')
  expect(tradeWord('turnings', 'US')).toBe('trimmings')
  expect(tradeWord('glostFiring', 'UK')).toBe('glost firing')
  expect(tradeWord('slops', 'US')).toBe('slops')
})
