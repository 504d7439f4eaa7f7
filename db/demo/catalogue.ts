/** The demo's studio is made up: there is no such place, nobody of these names, and no such clay. */
export const DEMO_STUDIO = {
  studioId: 'wrenfold-yard',
  name: 'Wrenfold Yard',
  currency: 'GBP',
  timeZone: 'Europe/London',
  jurisdiction: 'GB' as const,
}

export const DEMO_BODIES = [
  {
    bodyId: 'heather-buff',
    name: 'Heather buff stoneware',
    grainGramsPerMillilitre: '2.6',
    lossOnIgnitionFraction: '0.0741',
    dryingShrinkageFractionOfWet: '0.06',
    firingShrinkageFractionOfDry: '0.065',
    crystallineSilicaFraction: '0.28',
  },
  {
    bodyId: 'chalk-white',
    name: 'Chalk white stoneware',
    grainGramsPerMillilitre: '2.6',
    lossOnIgnitionFraction: '0.0820',
    dryingShrinkageFractionOfWet: '0.065',
    firingShrinkageFractionOfDry: '0.07',
    crystallineSilicaFraction: '0.22',
  },
  {
    bodyId: 'magpie-blend',
    name: 'Magpie (buff and white, wedged)',
    isBlend: true,
    grainGramsPerMillilitre: '2.6',
    lossOnIgnitionFraction: '0.0780',
  },
]

export const DEMO_FORMS = [
  { formId: 'mug', name: 'Mug', ballGrams: '420', turnedOffFraction: '0.06', price: '19.00' },
  {
    formId: 'dinner-plate',
    name: 'Dinner plate',
    ballGrams: '1600',
    turnedOffFraction: '0.19',
    price: '34.00',
  },
  {
    formId: 'planter',
    name: 'Planter',
    ballGrams: '2400',
    turnedOffFraction: '0.05',
    price: '42.00',
  },
  {
    formId: 'foot-ring-bowl',
    name: 'Bowl with foot-ring',
    ballGrams: '900',
    turnedOffFraction: '0.17',
    price: '27.00',
  },
  { formId: 'moon-jar', name: 'Moon jar (one-off)', price: '180.00' },
]

export const DEMO_VESSELS = [
  {
    vesselId: 'red-lid-bucket',
    name: 'Bucket with the red lid (buff turnings)',
    kind: 'bucket',
    tareGrams: '1000',
  },
  { vesselId: 'blue-pail', name: 'Blue pail (buff slops)', kind: 'bucket', tareGrams: '460' },
  {
    vesselId: 'white-bucket',
    name: 'White bucket (white turnings)',
    kind: 'bucket',
    tareGrams: '1000',
  },
  { vesselId: 'white-pail', name: 'White pail (white slops)', kind: 'bucket', tareGrams: '450' },
  { vesselId: 'magpie-pail', name: 'Magpie pail', kind: 'bucket', tareGrams: '450' },
  { vesselId: 'long-basin', name: 'Long basin', kind: 'basin', tareGrams: '2100' },
  { vesselId: 'round-basin', name: 'Round basin', kind: 'basin', tareGrams: '900' },
  { vesselId: 'tall-bin', name: 'Tall bin (Gull white glaze)', kind: 'bucket', tareGrams: '1400' },
  { vesselId: 'short-bin', name: 'Short bin (Tide blue glaze)', kind: 'bucket', tareGrams: '1000' },
  { vesselId: 'settling-tub', name: 'Settling tub', kind: 'basin', tareGrams: '1200' },
]

export const DEMO_SCALES = [
  { scaleId: 'bench', name: 'Bench scale', divisionGrams: '5', capacityGrams: '10000' },
  { scaleId: 'platform', name: 'Platform scale', divisionGrams: '20', capacityGrams: '150000' },
  { scaleId: 'glaze', name: 'Glaze scale', divisionGrams: '0.1', capacityGrams: '3000' },
]

export const DEMO_BATS = [
  {
    batId: 'bat-by-the-door',
    name: 'Bat by the door',
    dryGrams: '7100',
    lengthMillimetres: '320',
    widthMillimetres: '320',
    thicknessMillimetres: '50',
  },
  {
    batId: 'bat-by-the-sink',
    name: 'Bat by the sink',
    dryGrams: '6900',
    lengthMillimetres: '320',
    widthMillimetres: '320',
    thicknessMillimetres: '50',
  },
  {
    batId: 'bat-under-the-window',
    name: 'Bat under the window',
    dryGrams: '7300',
    lengthMillimetres: '340',
    widthMillimetres: '320',
    thicknessMillimetres: '50',
  },
]
