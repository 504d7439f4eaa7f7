import type { ThingField } from './thing-field.ts'

export const FORM_FIELDS: readonly ThingField[] = [
  {
    name: 'name',
    kind: 'words',
    label: 'What you call it',
    hint: 'Mug, large bowl, jug.',
    isNeeded: true,
  },
  {
    name: 'ballGrams',
    kind: 'grams',
    label: 'One ball, wet',
    hint: 'As you weigh it out, with what handles and lids take left aside. Leave it empty where it varies.',
    range: 'Above 0, and at most 100 kilograms.',
  },
  {
    name: 'price',
    kind: 'money',
    label: 'What a first sells for',
    hint: 'In the shop. Leave it empty where it varies.',
  },
  {
    name: 'turnedOffFraction',
    kind: 'points',
    label: 'Turned off, of what was thrown',
    hint: 'A guess to begin with: a mug 2 to 15 %, a bowl 12 to 22 %, a plate 15 to 25 %. What you weigh in says better.',
    range: 'Between 0 and 100 per cent, without 100 itself.',
    isRare: true,
  },
  {
    name: 'kilnFootprintSquareCentimetres',
    kind: 'number',
    label: 'Room on the kiln shelf',
    hint: 'Of one, with the gap to its neighbours: a mug some 110, a dinner plate some 800.',
    after: 'cm²',
    range: 'Above 0, and at most 10 square metres.',
    isRare: true,
  },
  {
    name: 'kilnHeightCentimetres',
    kind: 'number',
    label: 'Height in the kiln',
    hint: 'With the gap to the shelf above.',
    after: 'cm',
    range: 'Above 0, and at most 10 metres.',
    isRare: true,
  },
  {
    name: 'glazeGramsPerPiece',
    kind: 'grams',
    unit: 'g',
    label: 'Dry glaze on one',
    hint: 'Until glazings were weighed: a mug about 20 g, a plate 40 to 70, a jug 60 to 100. Common practice, no source.',
    range: 'Above 0, and at most 100 kilograms.',
    isRare: true,
  },
  {
    name: 'packing',
    kind: 'packing',
    label: 'What one is packed in',
    hint: 'How much of each goes with one sold piece.',
    choicesOf: 'packaging',
    usual: '[]',
    isRare: true,
  },
]

export const VESSEL_KINDS = [
  { value: 'bucket', name: 'Bucket', hint: 'for scrap' },
  { value: 'basin', name: 'Basin', hint: 'for slaking' },
  { value: 'board', name: 'Ware board', hint: 'for pots' },
  { value: 'tin', name: 'Tin', hint: 'for samples, small scrap' },
  { value: 'other', name: 'Something else' },
] as const

export const VESSEL_FIELDS: readonly ThingField[] = [
  {
    name: 'name',
    kind: 'words',
    label: 'What you call it',
    hint: 'What a hand finds in the dark: Turnings, white lid.',
    isNeeded: true,
  },
  {
    name: 'kind',
    kind: 'choice',
    label: 'What it is',
    choices: VESSEL_KINDS,
    usual: 'bucket',
    isNeeded: true,
  },
  {
    name: 'tareGrams',
    kind: 'grams',
    label: 'Weighs empty',
    hint: 'This is its tare: it is taken off whenever the vessel is weighed with clay. Weigh it clean, with the lid only if the lid is always on. A bucket of 10 litres has 350 to 500 g, one of 20 litres 800 to 1100 g.',
    isNeeded: true,
    range: 'From 0 to 100 kilograms.',
  },
]

export const SCALE_FIELDS: readonly ThingField[] = [
  {
    name: 'name',
    kind: 'words',
    label: 'What you call it',
    hint: 'Bench scale, hanging scale.',
    isNeeded: true,
  },
  {
    name: 'divisionGrams',
    kind: 'grams',
    label: 'Smallest step it shows',
    hint: 'It stands on the plate as d.',
    isNeeded: true,
    range: 'Above 0, and at most 10 kilograms.',
  },
  {
    name: 'capacityGrams',
    kind: 'grams',
    unit: 'kg',
    label: 'Most that it carries',
    hint: 'It stands on the plate as Max.',
    isNeeded: true,
    range: 'Above 0, and at most 10 tonnes.',
  },
]

const millimetres = (name: string, label: string): ThingField => ({
  name,
  kind: 'number',
  label,
  after: 'mm',
  range: 'Above 0, and at most 10 metres.',
  isRare: true,
})

export const BAT_FIELDS: readonly ThingField[] = [
  {
    name: 'name',
    kind: 'words',
    label: 'What you call it',
    hint: 'Window bat, bat 3.',
    isNeeded: true,
  },
  {
    name: 'dryGrams',
    kind: 'grams',
    unit: 'kg',
    label: 'Weighs dry',
    hint: 'Dry is when it weighs the same two days running. Leave it empty where you do not know. Lift it with two where it is heavy.',
    range: 'Above 0, and at most a tonne.',
  },
  millimetres('lengthMillimetres', 'Length'),
  millimetres('widthMillimetres', 'Width'),
  millimetres('thicknessMillimetres', 'Thickness'),
]
