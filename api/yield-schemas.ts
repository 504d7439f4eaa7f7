import { z } from '@hono/zod-openapi'
import { FEW_PIECES_BELOW } from '../shared/yield-leaning.ts'
import { MASS_PARTS } from '../shared/yield-mass.ts'
import { GRADED_PARTS, STAGE_PARTS } from '../shared/yield-stages.ts'
import { RUNS_THAT_VARY_MIN } from '../shared/yield.ts'
import { figure } from './report-schemas.ts'

const pieces = (description: string, example = '1') => figure(description, example)

export const piecesSchema = z
  .object({
    thrown: pieces('Begun at the wheel.', '40'),
    openedWith: pieces('Here before the books began.', '0'),
    lostAtWheel: pieces('Lost at the wheel.'),
    lostLeatherHard: pieces('Lost leather-hard.'),
    lostDrying: pieces('Lost while drying.'),
    intoBisque: pieces('Bisque-fired.', '37'),
    lostInBisqueFiring: pieces('Lost in the bisque firing.'),
    lostInGlazing: pieces('Lost while glazing.'),
    glazeFired: pieces('Glaze-fired.', '36'),
    lostInGlazeFiring: pieces('Lost in the glaze firing, before grading.', '0'),
    wasters: pieces('Graded as wasters.'),
    firsts: pieces('Graded as firsts.', '32'),
    seconds: pieces('Graded as seconds.', '3'),
    lostInHandling: pieces('Lost in handling, once finished.', '0'),
    soldFirsts: pieces('Firsts sold.', '20'),
    soldSeconds: pieces('Seconds sold.', '2'),
    givenAway: pieces('Given away.'),
    kept: pieces('Kept.', '0'),
    brokenInShop: pieces('Broken in the shop.'),
    counted: pieces('Found (or missed, below zero) when counted.', '0'),
    waitingGreenware: pieces('Waiting as greenware.', '0'),
    waitingBisque: pieces('Waiting as bisque.', '0'),
    waitingGlazed: pieces('Waiting to be graded.', '0'),
    waitingFinished: pieces('Waiting to be sold.', '11'),
  })
  .openapi('PiecesByStage')

const interval = z.object({ from: figure('From.', '-12'), to: figure('To.', '66') })

/** Only of what may as well be none. */
const maybeNone = {
  dryInterval95: interval.openapi({
    description: 'Where the true dry clay lies, 19 times in 20, g.',
  }),
  isDistinguishableFromZero: z.boolean().openapi({
    description: 'False where that interval holds zero: it may as well be none.',
    example: false,
  }),
}

const stageShare = z
  .object({
    dryGrams: figure('Dry clay, g; after the fire, fired clay.', '2318.4'),
    fractionOfBegun: z.string().nullable().openapi({
      description: 'Of what was thrown, opened with and joined on; null where nothing was.',
      example: '0.7245',
    }),
    dryUncertaintyGrams: figure('One standard deviation of the dry clay, g.', '38'),
    fractionUncertainty: z.string().nullable().openapi({
      description:
        'One standard deviation of the fraction: what makes both parts unsure alike cancels.',
      example: '0.0061',
    }),
  })
  .openapi('StageShare')

type StagePart = (typeof STAGE_PARTS)[number] | (typeof GRADED_PARTS)[number]

const stageMass = z
  .object(
    Object.fromEntries(
      [...STAGE_PARTS, ...GRADED_PARTS].map((part) => [part, stageShare]),
    ) as Record<StagePart, typeof stageShare>,
  )
  .extend({ unexplained: stageShare.extend(maybeNone).openapi('StageUnexplained') })
  .openapi('StageMass', {
    description:
      'The clay that came into the stage. passed, takenOff (turnings, slops, off-cuts), lost, lossOnIgnition, unexplained and waiting sum to came, exactly, in grams and in fractions. What passed making went into the bisque fire whole; what that fire took is lossOnIgnition of bisque. passedAsFirsts and passedAsSeconds are of what passed.',
  })

const stageFields = {
  stage: z.enum(['making', 'bisque', 'glaze_firing', 'shop', 'whole']).openapi({
    description: 'The stage; whole is from the wheel to the shelf.',
    example: 'making',
  }),
  passed: pieces('Came through.', '37'),
  lost: pieces('Did not.', '3'),
  waiting: pieces('Still in it: count neither way.', '0'),
  yieldFraction: z
    .string()
    .nullable()
    .openapi({ description: 'passed / (passed + lost); null: not yet known.', example: '0.925' }),
  interval95: z
    .object({ from: figure('Share.', '0.801'), to: figure('Share.', '0.974') })
    .nullable()
    .openapi({
      description: 'Where the share of all pieces made like this lies, 19 times in 20.',
    }),
  intervalBasis: z
    .enum(['widened_as_runs_vary', 'pieces_taken_as_independent'])
    .nullable()
    .openapi({
      description: `What the interval takes the pieces of one run for. With ${String(RUNS_THAT_VARY_MIN)} runs or more it is as much wider as runs differ beyond chance; with fewer it takes pieces as independent and is too narrow where they are lost together.`,
      example: 'widened_as_runs_vary',
    }),
  words: figure(
    'In words. Where pieces wait it says so: losses are told at once and survivors when they go on, so a run that is half through looks worse than it is.',
    '37 of 40',
  ),
  mass: stageMass,
}

export const stagesSchema = z.array(z.object(stageFields).openapi('StageYield'))

const estimate = z
  .object({
    basis: z
      .enum(['own_pieces', 'leans_on_all_forms', 'nothing_to_lean_on', 'not_yet_known'])
      .openapi({ description: 'What it rests on.', example: 'leans_on_all_forms' }),
    yieldFraction: z
      .string()
      .nullable()
      .openapi({ description: 'What to reckon with; null: not yet known.', example: '0.91' }),
    interval95: z
      .object({ from: figure('Share.', '0.82'), to: figure('Share.', '0.97') })
      .nullable()
      .openapi({ description: 'Where the share lies, 19 times in 20.' }),
    ownWeightFraction: figure(
      'How much of it is the form’s own pieces, from 0 to 1; the rest is all forms.',
      '0.29',
    ),
    forms: z.int().openapi({ description: 'How many forms it leans on, itself among them.' }),
    pieces: z.int().openapi({ description: 'How many pieces these are.' }),
    words: figure(
      'In words.',
      '7 of 8: few pieces, so it leans on all 5 forms (312 pieces); its own count 29 %, all forms 71 %',
    ),
  })
  .openapi('StageEstimate', {
    description: `A form of which ${String(FEW_PIECES_BELOW)} pieces or more were decided on at a stage stands on its own, with the score interval of the stage. One with fewer leans on what all forms show at that stage, the more the fewer it has, and says so; its interval takes the pieces of a run as independent.`,
  })

export const estimatedStagesSchema = z.array(
  z.object({ ...stageFields, estimate }).openapi('EstimatedStageYield'),
)

const share = z
  .object({
    dryGrams: figure('Dry clay, g; after the fire, fired clay.'),
    fractionOfBegun: z.string().nullable().openapi({
      description: 'Of what was thrown, opened with and joined on; null where nothing was.',
      example: '0.105',
    }),
    dryUncertaintyGrams: figure('One standard deviation of the dry clay, g.', '41'),
    fractionUncertainty: z.string().nullable().openapi({
      description:
        'One standard deviation of the fraction: what makes both parts unsure alike cancels.',
      example: '0.0021',
    }),
    fractionInterval95: interval.nullable().openapi({
      description: 'Where the true fraction lies, 19 times in 20; null with the fraction.',
      example: { from: '0.101', to: '0.109' },
    }),
  })
  .openapi('MassShare')

export const massSchema = z
  .object(
    Object.fromEntries(MASS_PARTS.map((part) => [part, share])) as Record<
      (typeof MASS_PARTS)[number],
      typeof share
    >,
  )
  .extend({ unexplained: share.extend(maybeNone).openapi('MassUnexplained') })
  .openapi('MassByPart', {
    description:
      'Begun with: thrown, openedWith, joinedOn. All the other parts sum to that, exactly.',
  })
