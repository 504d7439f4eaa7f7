import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { glazePerPiece, type GlazingHow, type PastGlazing } from '../../shared/glaze-per-piece.ts'

const glazing = (
  pieces: number,
  dryGrams: string,
  more: { uncertainty?: string; how?: GlazingHow } = {},
): PastGlazing => ({
  pieces: decimal(pieces),
  dryGrams: decimal(dryGrams),
  standardUncertaintyGrams: decimal(more.uncertainty ?? '0'),
  how: more.how ?? 'pieces',
})
const said = (dryGrams: string, uncertainty?: string) => ({
  dryGramsPerPiece: decimal(dryGrams),
  standardUncertaintyGrams: uncertainty === undefined ? undefined : decimal(uncertainty),
})
const learned = (
  glazings: readonly PastGlazing[],
  saidOfForm?: ReturnType<typeof said>,
  carriedOff = '0',
) => glazePerPiece({ glazings, said: saidOfForm, carriedOffFraction: decimal(carriedOff) })

test('nothing is known of a form that was never glazed and of which nothing was said', () => {
  expect(learned([])).toBeUndefined()
})

test('what was said stands until the form is glazed', () => {
  const jug = learned([], said('80', '12'))
  expect(jug?.dryGramsPerPiece.toFixed()).toBe('80')
  expect(jug?.standardUncertaintyGrams.toFixed()).toBe('12')
  // One glazing differs from another by 15 in a hundred, 12 g, before they show by how much.
  expect(jug?.nextUncertaintyGrams.toFixed(6)).toBe(Math.hypot(12, 12).toFixed(6))
  expect(jug?.words).toBe('Not yet glazed here: the 80 g that was said.')
})

test('said without a give or take it is within a quarter', () => {
  expect(learned([], said('80'))?.standardUncertaintyGrams.toFixed()).toBe('20')
})

test('one glazing without a word said is taken as it is, as unsure as glazings differ', () => {
  const jug = learned([glazing(16, '1280')])
  expect(jug?.dryGramsPerPiece.toFixed()).toBe('80')
  expect(jug?.standardUncertaintyGrams.toFixed()).toBe('12')
  expect(jug?.glazings).toBe(1)
  expect(jug?.words).toBe('Learned from one glazing, read by weighing pots.')
})

test('a glazing pulls what was said by how sure each is', () => {
  // Said 60 give 9 (one sigma); found 80, of which glazings differ by 15 % of 60, 9 g: half and half.
  const jug = learned([glazing(16, '1280')], said('60', '9'))
  expect(jug?.dryGramsPerPiece.toFixed()).toBe('70')
  expect(jug?.weightOfGlazings.toFixed()).toBe('0.5')
  expect(jug?.standardUncertaintyGrams.toFixed(6)).toBe((9 / Math.SQRT2).toFixed(6))
  expect(jug?.words).toBe(
    '50 % of it is the word of one glazing, read by weighing pots; the rest is the 60 g that was said.',
  )
})

test('what left a bucket is more than what is on the pots, by what was carried off', () => {
  const jug = learned([glazing(16, '1344', { how: 'bucket' })], undefined, '0.05')
  expect(jug?.dryGramsPerPiece.toFixed()).toBe('80')
  expect(learned([glazing(16, '1280')], undefined, '0.05')?.dryGramsPerPiece.toFixed()).toBe('80')
})

test('a rough reading of a bucket weighs less than pots that were weighed', () => {
  const jug = learned([
    glazing(10, '800', { uncertainty: '10' }),
    glazing(10, '1200', { uncertainty: '600', how: 'bucket' }),
  ])
  expect(jug?.dryGramsPerPiece.toNumber()).toBeGreaterThan(80)
  expect(jug?.dryGramsPerPiece.toNumber()).toBeLessThan(85)
  expect(jug?.words).toBe('Learned from 2 glazings, 1 read by the bucket and 1 by weighing pots.')
})

test('glazings that agree make the spread between them smaller, and those that do not, larger', () => {
  const alike = learned(Array.from({ length: 12 }, () => glazing(10, '800')))
  // Twelve alike: five of belief in 12 g spread over 5 + 11.
  expect(alike?.betweenGlazingsGrams.toFixed(6)).toBe((12 * Math.sqrt(5 / 16)).toFixed(6))
  const apart = learned(
    Array.from({ length: 12 }, (_, index) => glazing(10, index % 2 === 0 ? '400' : '1200')),
  )
  // Each 40 g off: 5 x 12^2 + 12 x 40^2 over 16.
  expect(apart?.betweenGlazingsGrams.toFixed(6)).toBe(
    Math.sqrt((5 * 144 + 12 * 1600) / 16).toFixed(6),
  )
})

test('lies between what was said and what was found, is surer for each glazing alike, and forgets', () => {
  const figure = fc.integer({ min: 5, max: 200 })
  fc.assert(
    fc.property(figure, figure, fc.integer({ min: 1, max: 8 }), (saidGrams, found, count) => {
      const alike = (times: number) =>
        learned(
          Array.from({ length: times }, () => glazing(4, String(found * 4), { uncertainty: '2' })),
          said(String(saidGrams)),
        )
      const some = alike(count)
      const grams = some?.dryGramsPerPiece.toNumber() ?? 0
      expect(grams).toBeGreaterThanOrEqual(Math.min(saidGrams, found) - 1e-6)
      expect(grams).toBeLessThanOrEqual(Math.max(saidGrams, found) + 1e-6)
      const more = alike(count + 1)
      const off = (one: typeof some) => Math.abs((one?.dryGramsPerPiece.toNumber() ?? 0) - found)
      expect(off(more)).toBeLessThanOrEqual(off(some) + 1e-6)
      expect(more?.standardUncertaintyGrams.lessThan(some?.standardUncertaintyGrams ?? 0)).toBe(
        true,
      )
      expect(more?.weightOfGlazings.greaterThan(some?.weightOfGlazings ?? 1)).toBe(true)
    }),
  )
})

test('a glazing of no pieces is our mistake', () => {
  expect(() => learned([glazing(0, '10')])).toThrow('Broken promise')
})
