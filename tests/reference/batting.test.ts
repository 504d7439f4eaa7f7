import { describe, expect, test } from 'vitest'
import { fittedSpread, groupPosterior, spreadByMoments } from '../../shared/beta-binomial.ts'

/** The first 45 at-bats of 18 players. */
const PLAYERS = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7].map(
  (events) => ({ events, trials: 45 }),
)
const SOURCE =
  'B. Efron and C. Morris, J. Am. Stat. Assoc. 70 (1975), 311-319: the hits, seen in copies'

const fitted = fittedSpread(PLAYERS)
const strength = fitted.strengthTrials ?? NaN
const posteriorMean = (player: number) => {
  const group = PLAYERS[player] ?? { events: NaN, trials: NaN }
  const { alpha, beta } = groupPosterior(group, { meanShare: fitted.meanShare, strength })
  return alpha / (alpha + beta)
}

describe('eighteen players after 45 at-bats', () => {
  const ROWS = [
    {
      what: 'log likelihood with a spread',
      found: fitted.logLikelihood,
      expected: -45.343896,
      digits: 6,
      source: SOURCE,
      standing: 'computed',
    },
    {
      what: 'log likelihood with one share for all',
      found: fitted.pooledLogLikelihood,
      expected: -45.357933,
      digits: 6,
      source: SOURCE,
      standing: 'computed',
    },
    {
      what: 'share of the first player, leaning on all',
      found: posteriorMean(0),
      expected: 0.27266,
      digits: 5,
      source: SOURCE,
      standing: 'computed',
    },
    {
      what: 'share of the last player, leaning on all',
      found: posteriorMean(17),
      expected: 0.25953,
      digits: 5,
      source: SOURCE,
      standing: 'computed',
    },
    {
      what: 'mean share',
      found: spreadByMoments(PLAYERS, 'groups').meanShare,
      expected: 0.2654320988,
      digits: 10,
      source: SOURCE,
      standing: 'computed',
    },
    {
      what: 'strength by moments, divisor one less than the groups',
      found: spreadByMoments(PLAYERS, 'groups_less_one').strengthTrials ?? NaN,
      expected: 367.98834,
      digits: 5,
      source: SOURCE,
      standing: 'computed',
    },
    {
      what: 'strength by moments, divisor the groups',
      found: spreadByMoments(PLAYERS, 'groups').strengthTrials ?? NaN,
      expected: 770.05479,
      digits: 5,
      source: SOURCE,
      standing: 'computed',
    },
  ]
  test.each(ROWS)('$what: $expected ($standing: $source)', ({ found, expected, digits }) => {
    expect(found).toBeCloseTo(expected, digits)
  })

  test('have a strength near 793, though the likelihood is so flat that it says little', () => {
    expect(Math.abs(strength - 793.24)).toBeLessThan(1)
  })
})
