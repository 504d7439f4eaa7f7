import { expect, test } from 'vitest'
import { massesInWords } from '../../shared/masses-in-words.ts'

test.each([
  [
    'There are 3200 g of dry clay here; 400.5 g were to leave.',
    'There are 7 lb 0.9 oz of dry clay here; 14.1 oz were to leave.',
  ],
  ['80 g less, give or take 210 g: not zero.', '2.8 oz less, give or take 7.4 oz: not zero.'],
  ['A bucket has 350 to 500 g.', 'A bucket has 12.3 oz to 1 lb 1.6 oz.'],
  ['-453.59237 g', '-1 lb 0.0 oz'],
  ['‘Mug 400 g’ weighs 400 g', '‘Mug 400 g’ weighs 14.1 oz'],
  ["“Mug 400 g”, 'jug 400 g'", "“Mug 400 g”, 'jug 400 g'"],
  ['0.1 mg/m³, 1600 g/l, 3 glazes, 12 kg', '0.1 mg/m³, 1600 g/l, 3 glazes, 12 kg'],
])('%s', (sentence, inPounds) => {
  expect(massesInWords(sentence, 'pounds_ounces')).toBe(inPounds)
  expect(massesInWords(sentence, 'metric')).toBe(sentence)
})
