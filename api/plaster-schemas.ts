import { z } from '@hono/zod-openapi'
import { figure, trail } from './report-schemas.ts'

const MOMENT = '2026-05-14T18:00:00+01:00'
const moment = (description: string) => figure(description, MOMENT)
const momentOrNull = (description: string) =>
  z.string().nullable().openapi({ description, example: MOMENT })
const figureOrNull = (description: string, example: string) =>
  z.string().nullable().openapi({ description, example })

const share = z.object({
  median: figure('The middle of what is possible.', '0.2531'),
  from: figure('One time in twenty it is less.', '0.2494'),
  to: figure('One time in twenty it is more.', '0.2568'),
})

const when = (description: string) =>
  z
    .object({
      median: momentOrNull('The middle of what is possible.'),
      from: momentOrNull('One time in twenty it is earlier.'),
      to: momentOrNull('One time in twenty it is later; null where that is more than a year away.'),
    })
    .nullable()
    .openapi({ description })

const batFigures = {
  dryGrams: figureOrNull('What the bat weighs dry, g; null where it is not entered.', '7100'),
  drinksStillGramsFrom: figureOrNull(
    'It still drinks at least so much, g: sated at 5 % of its dry mass, and holding the most that it can.',
    '0',
  ),
  drinksStillGramsTo: figureOrNull(
    'And at most so much, g: sated at 15 %, and holding the least that it can.',
    '295',
  ),
}

const batOfLoad = z
  .object({
    standing: z.enum(['weighed_alone', 'pair_less_slab', 'at_most', 'not_known']).openapi({
      description:
        'Weighed alone; weighed with its slab, less the slab; not weighed, or not lately, so at most what the slab has lost since; or not known.',
      example: 'weighed_alone',
    }),
    at: momentOrNull('When it was weighed.'),
    ...batFigures,
    nowGrams: figureOrNull('What it weighed then, or weighs at most, g.', '7870'),
    holdsGrams: figureOrNull('The water in it, g; at most, where it was not weighed.', '770'),
    heldFractionOfDry: figureOrNull('The same as a fraction of its dry mass.', '0.1085'),
    words: figure('How it is known.', 'The bat was weighed alone.'),
  })
  .openapi('BatOfLoad')

const weighIn = z
  .object({
    at: moment('When the slab was weighed alone.'),
    hoursSinceLaid: figure('Hours since it was laid on the bat.', '6.67'),
    slabGrams: figure('As it was read, g.', '5050'),
    standardUncertaintyGrams: figure('One standard deviation of the reading, g.', '2.886751'),
    waterContentWetBasis: figureOrNull('What it said: water as a fraction of the slab.', '0.2531'),
    waterContentStandardUncertainty: figureOrNull(
      'One standard deviation of that, by the dry clay and the scale.',
      '0.0048',
    ),
    waterToGoGrams: figureOrNull('Water that had to leave yet, g; below zero: too much.', '182.9'),
    waterToGoStandardUncertaintyGrams: figureOrNull('One standard deviation of that, g.', '31.2'),
    isUsed: z.boolean().openapi({
      description: 'false where the curve does not rest on it; words say why.',
      example: true,
    }),
    words: z.string().openapi({ description: 'What else is to be said of it.', example: '' }),
    trail,
  })
  .openapi('SlabWeighIn')

const pair = z
  .object({
    at: moment('When slab and bat were weighed together.'),
    hoursSinceLaid: figure('Hours since the slab was laid on the bat.', '6.67'),
    pairGrams: figure('As it was read, g.', '12920'),
    evaporatedGrams: figureOrNull(
      'What has gone into the air since, g, if the bat was dry when the slab was laid on it.',
      '180',
    ),
    waterInBothGrams: figureOrNull('Water in clay and plaster together, g.', '2047.8'),
    waterContentWetBasisMax: figureOrNull(
      'The most that the clay can hold: if the plaster had drunk nothing. Not its water content.',
      '0.3519',
    ),
    words: figure('What such a reading tells, and what not.'),
    trail,
  })
  .openapi('PairWeighed')

const curvePoint = z
  .object({
    at: moment('The moment.'),
    hours: figure('Hours since the curve begins.', '6'),
    waterContentWetBasis: share,
  })
  .openapi('DryingPoint')

/** A load on plaster. */
export const plasterLoadSchema = z
  .object({
    lotId: figure('The load.', 'load-1'),
    label: figure('What it is called.', 'load on Window bat'),
    bodyId: figure('The clay.', 'buff'),
    bodyName: figure('What the clay is called.', 'Buff stoneware'),
    batId: figure('The bat.', 'bat-1'),
    batName: figure('What the bat is called.', 'Window bat'),
    laidBy: z
      .enum(['pour', 'move_load', 'open_books'])
      .openapi({ description: 'How it came onto the bat.', example: 'pour' }),
    laidAt: moment('When it was laid on the bat, by the studio’s clock.'),
    endedAt: momentOrNull('When it left the bat; null where it lies there.'),
    endedBy: figureOrNull('The kind of entry by which it left.', 'lift'),
    at: moment('The moment of water and advice: now, or when it left the bat.'),
    hoursSinceLaid: figure('Hours from laidAt to at.', '6.67'),
    thicknessMillimetres: figureOrNull('As it was poured, mm.', '36'),
    laidGrams: figureOrNull('What was laid on the bat, g.', '6000'),
    dryGrams: figure('Its dry clay, g.', '3771.78'),
    dryStandardUncertaintyGrams: figure('One standard deviation of that, g.', '24.1'),
    readyWaterContentWetBasis: figure('How wet this studio wants it.', '0.225'),
    tooDryWaterContentWetBasis: figure('How wet it is when it is too dry.', '0.2'),
    readyGrams: figure('What it weighs when it is ready, g.', '4866.8'),
    readyStandardUncertaintyGrams: figure('One standard deviation of that, g.', '31.1'),
    isKnown: z.boolean().openapi({
      description: 'false where no curve can be known; why says why.',
      example: true,
    }),
    whyNot: z
      .enum(['target_at_rest', 'interval_too_wide', 'readings_contradict', 'beginning_not_known'])
      .nullable()
      .openapi({ description: 'Why the curve cannot be known.', example: null }),
    why: figureOrNull('The same in words, and what to do.', 'The slab would be ready at some …'),
    words: figure(
      'The answer in one line.',
      '25.3 % water (25.1 to 25.6 %). Ready about Thu 14 May 20:10 (19:30 to 21:20). Too dry after about Thu 14 May 22:30.',
    ),
    water: share.nullable().openapi({ description: 'Water, as a fraction of the slab.' }),
    slabNowGrams: figureOrNull('What it would weigh at that water content, g.', '5049'),
    waterToGoGrams: figureOrNull('Water that has to leave yet, g; below zero: too much.', '182'),
    waterToGoGramsFrom: figureOrNull('One time in twenty it is less, g.', '131'),
    waterToGoGramsTo: figureOrNull('One time in twenty it is more, g.', '234'),
    readyAt: when('When it is ready, by the studio’s clock; nine times in ten within from and to.'),
    tooDryAfter: when('After when it is too dry; null where it comes to rest before.'),
    advice: z
      .object({
        act: z.enum(['weigh', 'lift', 'lift_and_wet', 'move_to_dry_bat', 'turn', 'leave']).openapi({
          description: 'What to do next.',
          example: 'move_to_dry_bat',
        }),
        words: figure('The same with the figures behind it.', 'Move the slab to a dry bat.'),
      })
      .nullable()
      .openapi({ description: 'null of a slab that has left its bat, or never gets ready.' }),
    bat: batOfLoad,
    waterWent: z
      .object({
        at: moment('When slab and bat were both weighed last.'),
        leftGrams: figure('What the slab had lost, g.', '950'),
        drunkGrams: figure('Of that, in the plaster, g.', '770'),
        evaporatedGrams: figure('And in the air, g.', '180'),
        leftStandardUncertaintyGrams: figure('One standard deviation of what left, g.', '4.1'),
        drunkStandardUncertaintyGrams: figure(
          'Of what is in the plaster, g; the bat’s dry mass is taken as it was entered.',
          '4.1',
        ),
        evaporatedStandardUncertaintyGrams: figure('Of what is in the air, g.', '4.1'),
      })
      .nullable()
      .openapi({ description: 'Where the water went; null where the bat was not weighed.' }),
    restsOn: figure(
      'What the forecast rests on.',
      '12 past loads of this studio, 6 on this bat; 1 weigh-in of this slab',
    ),
    lawWeights: z
      .object({
        newton: figure('Each hour takes the same share of what is left (Lewis).', '0.412'),
        page: figure('The first hours take more than that, or less (Page).', '0.588'),
      })
      .nullable()
      .openapi({ description: 'How much each law of drying counts, by how well it told.' }),
    weighIns: z.array(weighIn).openapi({ description: 'The slab alone, the oldest first.' }),
    pairs: z.array(pair).openapi({ description: 'Slab and bat together: evaporation only.' }),
    curve: z.array(curvePoint).openapi({ description: 'To draw: a middle with its band.' }),
    trail,
  })
  .openapi('PlasterLoad')

export const emptyBatSchema = z
  .object({
    batId: figure('The bat.', 'bat-2'),
    batName: figure('What it is called.', 'Bat by the door'),
    ...batFigures,
    weighedAt: momentOrNull('When it was weighed last.'),
    weighedGrams: figureOrNull('What it weighed then, g.', '7870'),
    heldGrams: figureOrNull('The water in it then, g; null where it was not weighed.', '770'),
    emptySince: momentOrNull('When its last load left it; null where none ever lay on it.'),
    words: figure('How it is known.', 'The bat was weighed alone. It dries since it was emptied.'),
    trail,
  })
  .openapi('EmptyBat')
