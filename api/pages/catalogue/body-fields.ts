import { percentWords } from '../../../shared/percent.ts'
import { USUAL_READY, USUAL_TOO_DRY } from '../../../shared/plaster-target.ts'
import { HOUSE_DUST_THRESHOLD_WET_BASIS } from '../../../shared/silica.ts'
import type { ThingField } from './thing-field.ts'

const SHARE = 'Between 0 and 100 per cent, without 100 itself.'

export const BODY_FIELDS: readonly ThingField[] = [
  {
    name: 'name',
    kind: 'words',
    label: 'What you call it',
    hint: 'As on the bag, or in your own words.',
    isNeeded: true,
  },
  {
    name: 'lossOnIgnitionFraction',
    kind: 'points',
    label: 'Lost in the first fire',
    hint: 'The loss on ignition: what the bisque takes of the dry clay. The supplier’s sheet may say it; most clays lose 4 to 14 %. Leave it empty and 8 % is taken.',
    usual: '0.08',
    range: 'Between 0 and 50 per cent.',
  },
  {
    name: 'isBlend',
    kind: 'yes_no',
    label: 'One clay, or a blend',
    hint: 'Two clays that meet in a bucket must be told what they become: a blend.',
    choices: [
      { value: 'no', name: 'One clay' },
      { value: 'yes', name: 'A blend' },
    ],
    usual: 'no',
    isFixed: true,
    isRare: true,
  },
  {
    name: 'moisture',
    kind: 'water',
    label: 'Water, where you know it',
    hint: 'Per cent of the wet mass. Leave it empty and the usual is taken, until a dried sample says better.',
    isRare: true,
  },
  {
    name: 'crystallineSilicaFraction',
    kind: 'points',
    label: 'Crystalline silica',
    hint: 'Of the dry clay, from its safety data sheet.',
    range: 'Between 0 and 100 per cent.',
    isRare: true,
  },
  {
    name: 'dustThresholdWetBasis',
    kind: 'points',
    label: 'Counts as dusty below this much water',
    hint: `Leave it empty and ${percentWords(HOUSE_DUST_THRESHOLD_WET_BASIS, 0)} is taken, our own house figure.`,
    range: SHARE,
    isRare: true,
  },
  {
    name: 'readyWaterContentWetBasis',
    kind: 'points',
    label: 'On plaster: ready to wedge at',
    hint: `Water of the slab. Leave it empty and ${percentWords(USUAL_READY)} is taken.`,
    range: 'Above 0 and below 100 per cent.',
    isRare: true,
  },
  {
    name: 'tooDryWaterContentWetBasis',
    kind: 'points',
    label: 'On plaster: too dry at',
    hint: `Below the other. Leave it empty and ${percentWords(USUAL_TOO_DRY, 0)} is taken.`,
    range: 'Above 0 and below 100 per cent.',
    isRare: true,
  },
  {
    name: 'dryingShrinkageFractionOfWet',
    kind: 'points',
    label: 'Shrinks in drying',
    hint: 'Of the wet length.',
    range: SHARE,
    isRare: true,
  },
  {
    name: 'firingShrinkageFractionOfDry',
    kind: 'points',
    label: 'Shrinks in firing',
    hint: 'Of the dry length.',
    range: SHARE,
    isRare: true,
  },
  {
    name: 'grainGramsPerMillilitre',
    kind: 'number',
    label: 'Density of its grains',
    after: 'g/ml',
    hint: 'For reading a slurry by its density. Leave it empty and 2.6 is taken.',
    usual: '2.6',
    range: 'Above 1 and up to 5 grams in a millilitre.',
    isRare: true,
  },
]
