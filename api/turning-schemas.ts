import { z } from '@hono/zod-openapi'
import { SIGNAL_KINDS } from '../shared/individuals-chart.ts'
import { figure, idOrNull, trail } from './report-schemas.ts'

const count = (description: string, example = 1) => z.int().openapi({ description, example })
const flag = (description: string) => z.boolean().openapi({ description, example: false })
const figureOrNull = (description: string, example: string) =>
  z.string().nullable().openapi({ description, example })
const intervalOrNull = (description: string) =>
  z
    .object({ from: figure('From.', '0.92'), to: figure('To.', '1.31') })
    .nullable()
    .openapi({ description })

const lately = z.enum(['thinner', 'thicker', 'as_usual', 'not_yet_known']).openapi({
  description:
    'thinner: more is turned off the latest runs than is the form’s habit, beyond chance; thicker: less is.',
  example: 'as_usual',
})

const link = z
  .object({
    verdict: z
      .enum([
        'thinner_loses_more',
        'thinner_loses_fewer',
        'lighter_loses_more',
        'lighter_loses_fewer',
        'no_link_seen',
        'too_little_to_say',
      ])
      .openapi({ description: 'What the runs show.', example: 'too_little_to_say' }),
    reason: z
      .enum([
        'nothing_lost',
        'too_few_runs',
        'too_few_losses',
        'all_alike',
        'parted_completely',
        'interval_holds_no_effect',
      ])
      .nullable()
      .openapi({
        description:
          'Why nothing can be said, or no link be claimed: interval_holds_no_effect where the odds ratio may as well be one.',
        example: 'too_few_losses',
      }),
    runs: count('Runs that tell of it.', 9),
    firedPieces: count('Their pots that the kilns decided on.', 108),
    lostPieces: count('Those lost in the kilns, wasters among them.', 4),
    oddsRatioAPoint: z
      .object({
        estimate: figure('The ratio.', '1.22'),
        interval95: z.object({ from: figure('From.', '1.05'), to: figure('To.', '1.44') }),
      })
      .nullable()
      .openapi({
        description:
          'What the odds of a loss are multiplied by where one hundredth more is turned off, or where a pot is lighter by one hundredth of its form’s mean; null without a fit.',
      }),
    words: figure('In a sentence.', 'Too little to say whether thin turning costs pots.'),
  })
  .openapi('KilnLink')

export const kilnLossesSchema = z
  .object({
    byTurnedOff: link,
    byDryMass: link,
    runsNotThrough: count(
      'Runs that do not count yet: pots of theirs wait between the kilns, or none was fired.',
    ),
  })
  .openapi('KilnLosses', {
    description:
      'Whether thin pots are lost in the kiln more often, by the share turned off and by what they weigh dry, each form compared within itself. It says what goes together, not what causes what.',
  })

export const formListedSchema = z
  .object({
    formId: z.string().openapi({ example: 'dinner-plate' }),
    formName: z.string().openapi({ example: 'Dinner plate' }),
    runs: count('How many runs.', 17),
    turnedRuns: count('Those that were turned.', 17),
    habitFraction: figureOrNull('What is usually turned off; null: not yet known.', '0.19'),
    latestFraction: figureOrNull('What was turned off the latest turned run.', '0.21'),
    latestRunId: idOrNull('That run.'),
    lately,
    isSignal: flag('True where the latest runs are turned otherwise than chance explains.'),
    words: figure('In words.', 'Turned as usual: 19.0 % comes off.'),
    trail: figure('Where the form is told run by run.', '/v1/reports/turning/dinner-plate'),
  })
  .openapi('FormTurned')

const point = z
  .object({
    runId: z.string().openapi({ example: 'plate-week-1' }),
    label: z.string().openapi({ example: 'Dinner plate of 2026-03-02' }),
    thrownAt: z.string().openapi({ format: 'date-time' }),
    turnedOffFraction: figure('Dry turnings over dry pots before turning.', '0.19'),
    standardUncertainty: figure(
      'One standard deviation of it, from the turnings and from the pots before; what makes both unsure alike cancels.',
      '0.004',
    ),
    beforeDryGrams: figure(
      'Dry clay of the run before it was turned, g; slops reckoned with the figures known now.',
      '16020',
    ),
    turnedOffDryGrams: figure(
      'Dry clay turned off, g. Where their water is a figure and not their own, it is reckoned from the wet mass with the figure as it is known now, so that a dry test shifts all runs alike; the entries keep it as it was booked.',
      '3043.8',
    ),
    hasOwnWater: flag('True where some of its turnings had their water measured or said.'),
    movingRangeFraction: figureOrNull('How far it differs from the run before it.', '0.012'),
    isJump: flag('True where that is further than chance explains.'),
    signals: z
      .array(z.enum(SIGNAL_KINDS))
      .openapi({ description: 'The signals that the run is part of.' }),
    dryGramsAPiece: figureOrNull(
      'Dry clay a pot as it went into the bisque fire, g, by the water figures known now.',
      '998.3',
    ),
    firedPieces: z
      .int()
      .nullable()
      .openapi({ description: 'Its pots that the kilns decided on; null until they have.' }),
    lostPieces: z.int().nullable().openapi({ description: 'Those lost there, with wasters.' }),
    trail,
  })
  .openapi('TurningPoint')

const signal = z
  .object({
    kind: z.enum(SIGNAL_KINDS).openapi({
      description:
        'beyond_limits: one or more runs beyond what chance explains; eight_on_one_side: eight or more in a row above the habit, or below; six_in_one_direction: six or more, each beyond the one before.',
      example: 'eight_on_one_side',
    }),
    direction: z.enum(['thinner', 'thicker']).openapi({ example: 'thinner' }),
    firstRunId: z.string().openapi({ example: 'plate-week-10' }),
    lastRunId: z.string().openapi({ example: 'plate-week-17' }),
    runs: count('How many runs.', 8),
    isNow: flag('True where the latest run is part of it.'),
    words: figure('In a sentence.', 'The last 8 runs: the walls or feet are thinner now.'),
    trail,
  })
  .openapi('TurningSignal')

const chart = z
  .object({
    centreFraction: figure('The form’s habit.', '0.19'),
    upperLimitFraction: figure('Above it chance explains a single run no more.', '0.22'),
    lowerLimitFraction: figure('Below it neither.', '0.16'),
    meanMovingRangeFraction: figure('How far neighbours differ on average.', '0.011'),
    movingRangeLimitFraction: figure('How far they differ by chance at most.', '0.036'),
    habitRuns: count('How many runs, from the oldest, these are drawn from.', 9),
    words: figure('In words.', 'The habit is what the 9 runs before the last 8 showed.'),
  })
  .openapi('TurningChart')

const maker = z
  .object({
    maker: z.string().openapi({ example: 'Ines' }),
    runs: count('Runs thrown.', 9),
    turnedRuns: count('Those that the maker turned too.', 9),
    turnedOffFraction: figureOrNull('The mean of those.', '0.19'),
    turnedOffInterval95: intervalOrNull('Of that mean; null with fewer than two runs.'),
    firedPieces: count('Pots that the kilns decided on.', 108),
    survivedPieces: count('Those that came through.', 101),
    survivorsFraction: figureOrNull('Their share.', '0.935'),
    survivorsInterval95: intervalOrNull('Wider where the runs differ more than chance makes them.'),
  })
  .openapi('Maker')

const makers = z
  .object({
    makers: z.array(maker),
    findings: z
      .array(z.string())
      .openapi({ description: 'What tells two of them apart, a sentence each.' }),
    words: figure('In words.', 'Nothing tells the makers of this form apart yet.'),
    unnamedRuns: count('Runs that name no maker.', 0),
    runsTurnedByAnother: count(
      'Runs that somebody else turned: they count for what survived alone.',
      0,
    ),
  })
  .openapi('Makers')

export const turningFields = {
  lately,
  words: figure('In words.', 'Turned as usual: 19.0 % comes off.'),
  waterWords: figure(
    'With which water the turnings were reckoned.',
    'All turnings are reckoned with the water figure as it is known now.',
  ),
  chart: chart.nullable().openapi({ description: 'Null before there are eight turned runs.' }),
  points: z.array(point).openapi({ description: 'Run by run, in order of throwing.' }),
  signals: z
    .array(signal)
    .openapi({ description: 'All that chance alone seldom does, past ones too.' }),
  notTurnedRuns: count('Runs that were not turned, and are not on the chart.', 0),
  untoldRuns: count(
    'Runs of which less was on the books before turning than came off; not on the chart either.',
    0,
  ),
  kilnLosses: kilnLossesSchema,
  makers: makers.optional().openapi({
    description: 'Only where the studio compares makers (comparesMakers).',
  }),
  trail,
}
