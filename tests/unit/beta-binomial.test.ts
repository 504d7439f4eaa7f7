import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  betaBinomialLogLikelihood,
  fittedSpread,
  groupPosterior,
  spreadByMoments,
} from '../../shared/beta-binomial.ts'
import { leanedShares, type FormCount } from '../../shared/leaning.ts'

const group = fc
  .integer({ min: 1, max: 60 })
  .chain((trials) => fc.record({ trials: fc.constant(trials), events: fc.nat(trials) }))
const groups = fc
  .array(group, { minLength: 3, maxLength: 8 })
  .filter((all) => all.some(({ events }) => events > 0))
  .filter((all) => all.some(({ events, trials }) => events < trials))

describe('the likelihood of counts with a spread', () => {
  test('sums to one over all counts that may come of one group', () => {
    const prior = { meanShare: 0.3, strength: 4 }
    const all = Array.from({ length: 13 }, (_, events) =>
      Math.exp(betaBinomialLogLikelihood([{ events, trials: 12 }], prior)),
    )
    expect(all.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12)
  })

  test('nowhere near the fit is higher than at the fit', () => {
    fc.assert(
      fc.property(
        groups,
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0.2, max: 2000, noNaN: true }),
        (all, meanShare, strength) => {
          const { logLikelihood, pooledLogLikelihood } = fittedSpread(all)
          const other = betaBinomialLogLikelihood(all, { meanShare, strength })
          expect(logLikelihood).toBeGreaterThanOrEqual(other - 1e-6)
          expect(logLikelihood).toBeGreaterThanOrEqual(pooledLogLikelihood)
        },
      ),
      { numRuns: 40 },
    )
  })

  test('has no finite strength where groups differ less than chance makes them', () => {
    const alike = [10, 10, 10, 10].map((events) => ({ events, trials: 20 }))
    expect(fittedSpread(alike).strengthTrials).toBeNull()
    expect(fittedSpread(alike).meanShare).toBeCloseTo(0.5, 12)
    expect(spreadByMoments(alike, 'groups').strengthTrials).toBeNull()
  })

  test('needs groups, and something that happens to some and not to others', () => {
    expect(() => fittedSpread([{ events: 1, trials: 2 }])).toThrow('between groups')
    const none = { events: 0, trials: 5 }
    expect(() => fittedSpread([none, none])).toThrow('some do not')
    expect(() => fittedSpread([{ events: 0.5, trials: 5 }, none])).toThrow('whole')
    const unequal = [
      { events: 1, trials: 5 },
      { events: 1, trials: 6 },
    ]
    expect(() => spreadByMoments(unequal, 'groups')).toThrow('one size')
  })

  test('a posterior is the prior with the counts added', () => {
    const prior = { meanShare: 0.25, strength: 8 }
    expect(groupPosterior({ events: 3, trials: 4 }, prior)).toEqual({ alpha: 5, beta: 7 })
  })
})

describe('forms that lean on all forms', () => {
  const mixed: FormCount[] = [
    { formId: 'mug', events: 90, trials: 100 },
    { formId: 'jug', events: 1, trials: 1 },
    { formId: 'bowl', events: 40, trials: 60 },
    { formId: 'plate', events: 0, trials: 0 },
  ]
  const shareOf = (formId: string, all: FormCount[] = mixed) =>
    leanedShares(all).forms.find((form) => form.formId === formId)

  test('lie between their own share and that of all', () => {
    const { spread, forms } = leanedShares(mixed)
    forms.forEach(({ share }, index) => {
      const { events = 0, trials = 0 } = mixed[index] ?? {}
      const all = spread?.meanShare ?? NaN
      const own = trials === 0 ? all : events / trials
      expect(share).toBeGreaterThanOrEqual(Math.min(own, all) - 1e-12)
      expect(share).toBeLessThanOrEqual(Math.max(own, all) + 1e-12)
    })
  })

  test('lean the more, the fewer pieces they have, and say how much', () => {
    expect(shareOf('mug')?.ownWeight).toBeGreaterThan(0.8)
    expect(shareOf('jug')?.ownWeight).toBeLessThan(0.1)
    expect(shareOf('plate')?.ownWeight).toBe(0)
    expect(shareOf('jug')?.words).toBe('1 of 1; its own pieces count 7 %, all forms 93 %')
    expect(shareOf('plate')?.words).toBe('no piece of its own yet: all forms together')
    expect(shareOf('plate')?.share).toBeCloseTo(leanedShares(mixed).spread?.meanShare ?? NaN, 12)
  })

  test('lean on no more pieces than the others have, however well they agree', () => {
    const alike = ['a', 'b', 'c'].map((formId) => ({ formId, events: 8, trials: 10 }))
    const { spread, forms } = leanedShares(alike)
    expect(spread?.strengthTrials).toBeNull()
    for (const { ownWeight } of forms) expect(ownWeight).toBeCloseTo(10 / 30, 12)
  })

  test('speak for themselves where there is nothing to lean on', () => {
    const two = mixed.slice(0, 2)
    expect(leanedShares(two).spread).toBeNull()
    expect(shareOf('mug', two)?.ownWeight).toBe(1)
    expect(shareOf('mug', two)?.words).toBe('90 of 100; nothing to lean on yet')
    expect(shareOf('plate', [...two, ...mixed.slice(3)])).toMatchObject({
      share: null,
      interval95: null,
      words: 'not yet known',
    })
    const all = ['a', 'b', 'c'].map((formId) => ({ formId, events: 9, trials: 9 }))
    expect(leanedShares(all).spread).toBeNull()
    const singles = ['a', 'b', 'c', 'd'].map((formId, index) => ({
      formId,
      events: index % 2,
      trials: 1,
    }))
    expect(leanedShares(singles).spread).toBeNull()
  })

  test('have a share inside its interval, for every count', () => {
    fc.assert(
      fc.property(groups, (all) => {
        const forms = all.map((counts, index) => ({ formId: String(index), ...counts }))
        for (const { share, interval95 } of leanedShares(forms).forms) {
          expect(interval95?.from).toBeLessThanOrEqual(share ?? NaN)
          expect(interval95?.to).toBeGreaterThanOrEqual(share ?? NaN)
        }
      }),
      { numRuns: 30 },
    )
  })
})
