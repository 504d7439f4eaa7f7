import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { countMaterial } from '../acts/count-material.ts'
import { fireEmpty } from '../acts/fire-empty.ts'
import { glazePots, type GlazeSaid } from '../acts/glaze.ts'
import { loseGlaze } from '../acts/lose-glaze.ts'
import { mixGlaze } from '../acts/mix-glaze.ts'
import { readGlaze } from '../acts/read-glaze.ts'
import { receiveMaterials } from '../acts/receive-materials.ts'
import { useMaterial } from '../acts/use-material.ts'
import { waterGlaze } from '../acts/water-glaze.ts'
import { kilograms, type Hand } from './hand.ts'
import { OF_FORM } from './materials.ts'
import type { DemoRun } from './week.ts'

interface Bin {
  readonly glazeId: string
  readonly vesselId: string
  readonly tareGrams: number
}

const WHITE_BIN: Bin = { glazeId: 'gull-white', vesselId: 'tall-bin', tareGrams: 1400 }
const BLUE_BIN: Bin = { glazeId: 'tide-blue', vesselId: 'short-bin', tareGrams: 1000 }

const GRAIN_GRAMS_PER_MILLILITRE = decimal('2.63')
const WATER_GRAMS_PER_MILLILITRE = decimal('0.9982')
/** What sieve, rag and wash bucket carry off of what lands on pots. */
const CARRIED_OFF = decimal('0.04')

/** Powders, boxes and what the kilns need come by carrier; the second load is dearer than the first. */
export async function materialsIn(hand: Hand, load: { isFirst: boolean }): Promise<void> {
  const dearer = load.isFirst ? decimal(1) : decimal('1.06')
  const price = (amount: string) => decimal(amount).times(dearer).toFixed(2)
  const sack = (materialId: string, amount: string) => ({
    ...{ materialId, packs: 1, price: price(amount) },
  })
  await hand.does(['08:10', 'Tobin'], receiveMaterials, {
    materials: [
      sack('feldspar', '31.00'),
      sack('flint', '24.00'),
      sack('whiting', '19.50'),
      sack('china-clay', '27.00'),
      ...(load.isFirst ? [sack('cobalt-carbonate', '46.00')] : []),
    ],
    freight: '18.00',
  })
  await hand.does(['08:20', 'Tobin'], receiveMaterials, {
    materials: [
      { materialId: 'mug-box', pieces: 260, price: price('117.00') },
      { materialId: 'plate-box', pieces: 100, price: price('85.00') },
      { materialId: 'paper-wool', mass: { value: '15', unit: 'kg' }, price: price('24.00') },
      ...(load.isFirst ? KILN_THINGS : []),
    ],
    freight: '12.50',
  })
}

const KILN_THINGS = [
  { materialId: 'kiln-shelf', pieces: 2, price: '58.00' },
  { materialId: 'element-set', pieces: 1, price: '148.00' },
  { materialId: 'propane', mass: { value: '26', unit: 'kg' as const }, price: '62.00' },
]

/** A batch is weighed out by its recipe, sieved, and a little stays in the sieve. */
export async function mixDay(hand: Hand, which: 'white' | 'blue'): Promise<void> {
  const { glazeId, vesselId } = which === 'white' ? WHITE_BIN : BLUE_BIN
  const [dryGrams, water] = which === 'white' ? ['9000', '8.85'] : ['3500', '3.45']
  await hand.does(['14:00', 'Ines'], mixGlaze, {
    ...{ glazeId, vesselId, dryGrams },
    water: { value: water, unit: 'kg' },
  })
  await hand.does(['14:40', 'Ines'], loseGlaze, { vesselId, why: 'sieve', dryGrams: '25' })
}

/** The bin has thickened, or clear water stands over it; then it is stirred, weighed and its density read. */
export async function mindTheBin(hand: Hand): Promise<void> {
  const { vesselId, tareGrams } = WHITE_BIN
  await hand.does(['08:30', 'Ines'], waterGlaze, { vesselId, water: { value: '200', unit: 'g' } })
  const { held } = await hand.holds({ place: 'glaze_bucket', vesselId })
  const bin = { dry: held.materialGrams, water: held.waterGrams.times('0.99') }
  await hand.does(['08:45', 'Ines'], readGlaze, { vesselId, ...readingOf(bin, tareGrams) })
}

/** Bisque is dipped: by the bucket, by the pots, or as much as usual, as the weeks go. */
export async function dipDay(
  hand: Hand,
  runs: readonly Pick<DemoRun, 'runId' | 'formId' | 'lotId'>[],
  how: 'bucket' | 'pots' | 'usual',
): Promise<void> {
  const [white, blue] = [true, false].map((isWhite) =>
    runs.filter(({ lotId }) => (lotId !== 'white-bench') === isWhite),
  )
  await dip(hand, { bin: WHITE_BIN, runs: white ?? [], how, time: '10:00' })
  await dip(hand, { bin: BLUE_BIN, runs: blue ?? [], how: 'usual', time: '13:00' })
}

async function dip(
  hand: Hand,
  dipped: {
    bin: Bin
    runs: readonly Pick<DemoRun, 'runId' | 'formId'>[]
    how: 'bucket' | 'pots' | 'usual'
    time: string
  },
): Promise<void> {
  const { bin, runs, how, time } = dipped
  if (runs.length === 0) return
  const { glazeId, vesselId } = bin
  const pots = []
  for (const { runId, formId } of runs) {
    const { held } = await hand.holds({ place: 'bisque', runId })
    const each = decimal(String(OF_FORM[formId]?.['glazeGramsPerPiece'] ?? '40'))
    const coat = held.pieces.times(each).times(hand.wobble(`coat ${runId}`, 0.08))
    pots.push({ coat, dryGrams: held.dryGrams })
  }
  const onPots = pots.reduce((sum, { coat }) => sum.plus(coat), ZERO)
  const potsDry = pots.reduce((sum, { dryGrams }) => sum.plus(dryGrams), ZERO)
  const said: GlazeSaid = { glazeId, vesselId, runs: runs.map(({ runId }) => ({ runId })) }
  const weighed = {
    usual: () => Promise.resolve({ usual: true as const }),
    pots: () =>
      Promise.resolve({
        pots: { after: { net: kilograms(potsDry.plus(onPots)), scaleId: 'platform' } },
      }),
    bucket: async () => ({ bucket: await bucketAfter(hand, bin, onPots) }),
  }
  await hand.does([time, 'Ines'], glazePots, { ...said, ...(await weighed[how]()) })
}

async function bucketAfter(hand: Hand, bin: Bin, onPots: Decimal) {
  const { held } = await hand.holds({ place: 'glaze_bucket', vesselId: bin.vesselId })
  const washedOff = onPots.times(CARRIED_OFF)
  const dry = held.materialGrams.minus(onPots).minus(washedOff)
  const water = held.waterGrams.times(dry).dividedBy(held.materialGrams)
  return {
    after: readingOf({ dry, water }, bin.tareGrams),
    washedOffDryGrams: washedOff.toFixed(1),
  }
}

/** What scale and jug show of a bin of that content. */
function readingOf(bin: { dry: Decimal; water: Decimal }, tareGrams: number) {
  const grams = bin.dry.plus(bin.water)
  const millilitres = bin.dry
    .dividedBy(GRAIN_GRAMS_PER_MILLILITRE)
    .plus(bin.water.dividedBy(WATER_GRAMS_PER_MILLILITRE))
  const jug = grams.dividedBy(millilitres).times(500).toFixed(1)
  return {
    reading: {
      gross: kilograms(grams.plus(tareGrams)),
      tare: { value: String(tareGrams), unit: 'g' as const },
      scaleId: 'platform',
    },
    density: {
      slurry: { net: { value: jug, unit: 'g' as const }, scaleId: 'glaze' },
      volume: { value: '500', unit: 'ml' as const },
    },
  }
}

/** New elements go in, are burnt in with the kiln empty, and a cracked shelf is replaced. */
export async function renewKiln(hand: Hand): Promise<void> {
  const into = { pieces: 1, why: 'into_kiln' as const }
  await hand.does(['09:00', 'Tobin'], useMaterial, { materialId: 'element-set', ...into })
  await hand.does(['09:20', 'Tobin'], useMaterial, { materialId: 'kiln-shelf', ...into })
  await hand.does(['17:30', 'Tobin'], fireEmpty, {
    ...{ kilnId: 'top-loader', kilowattHours: '41', why: 'new_elements' as const },
  })
}

/** The shelf is counted: some boxes were crushed, some were never written down. */
export async function countShelf(hand: Hand): Promise<void> {
  await hand.does(['18:10', 'Ines'], useMaterial, {
    ...{ materialId: 'mug-box', pieces: 4, why: 'spoiled' as const },
    note: 'Stood in the wet.',
  })
  const { held } = await hand.holds({ place: 'materials', materialId: 'mug-box' })
  await hand.does(['18:20', 'Ines'], countMaterial, {
    materialId: 'mug-box',
    pieces: held.pieces.minus(3).toNumber(),
  })
}
