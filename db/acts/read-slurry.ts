import { decimal, toLedgerScale, type Decimal } from '../../shared/decimal.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import { slurryWaterContentWetBasis, waterDensityGramsPerMillilitre } from '../../shared/slurry.ts'
import { millilitresFrom, type Volume } from '../../shared/units.ts'
import type { Book } from '../book.ts'
import { contentOf } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type Reading, type ReadingSaid } from '../readings.ts'
import { findBody } from '../studio.ts'

export interface ReadSlurrySaid extends Circumstances {
  readonly basinVesselId: string
  /** A measured volume of the stirred slurry, and what it weighs. */
  readonly slurry: ReadingSaid
  readonly volume: Volume
  readonly celsius?: string | undefined
  /** The whole basin, weighed or by its volume, where the books are to be set by it. */
  readonly whole?: ReadingSaid | undefined
  readonly wholeVolume?: Volume | undefined
}

/** Grain density is known to a few hundredths; a jug is filled to the line within one per cent. Ours. */
const SOLIDS_DENSITY_UNCERTAINTY = decimal('0.05')
const VOLUME_UNCERTAINTY_FRACTION = decimal('0.01')
const ROOM_CELSIUS = '20'

/**
 * The density of a slurry tells how much of it is clay. With the mass or volume of the whole basin it
 * tells the basin's dry clay, and what that differs from the books is unexplained.
 */
export const readSlurry: Act<ReadSlurrySaid> = {
  kind: 'read_slurry',
  async write(book, said) {
    const basin = await contentOf(book, {
      vesselId: said.basinVesselId,
      place: 'basin',
      pointer: '/basinVesselId',
    })
    const body = await findBody(book.ledger, book.studioId, basin.ref.bodyId)
    const sample = await takeReading(book, said.slurry, { pointer: '/slurry' })
    const density = sample.netGrams.dividedBy(millilitresFrom(said.volume))
    const water = waterDensityGramsPerMillilitre(decimal(said.celsius ?? ROOM_CELSIUS))
    const solids = body.grainGramsPerMillilitre
    const contentAt = (densityGramsPerMillilitre: Decimal, solidsGramsPerMillilitre: Decimal) =>
      slurryWaterContentWetBasis({
        densityGramsPerMillilitre,
        solidsGramsPerMillilitre,
        waterGramsPerMillilitre: water,
      })
    const waterContentWetBasis = await pointingAt('/slurry', () => contentAt(density, solids))
    const densityDoubt = densityUncertainty(sample, density)
    const byDensity = slope(density, densityDoubt, (one) => contentAt(one, solids))
    const byGrain = slope(solids, SOLIDS_DENSITY_UNCERTAINTY, (one) => contentAt(density, one))
    const whole = await wholeOf(book, said, { density, densityDoubt })
    const isWhole = whole !== undefined
    const estimate = dryMassFromWet({
      netGrams: whole?.netGrams ?? sample.netGrams,
      netUncertaintyGrams: (whole ?? sample).standardUncertaintyGrams,
      waterContentWetBasis,
      waterContentUncertainty: byDensity.pow(2).plus(byGrain.pow(2)).sqrt(),
      method: 'slurry_density',
      standing: 'measured',
    })
    if (isWhole) await book.settle(basin, estimate)
    book.estimated({
      slot: basin,
      of: isWhole ? 'basin' : 'sample',
      estimate,
      weighingNo: whole?.weighingNo ?? sample.weighingNo,
    })
    return {}
  },
}

/** How much a water content moves when one thing that it rests on moves by its own uncertainty. */
function slope(value: Decimal, by: Decimal, contentAt: (value: Decimal) => Decimal): Decimal {
  try {
    return contentAt(value.plus(by)).minus(contentAt(value)).abs()
  } catch {
    return contentAt(value.minus(by)).minus(contentAt(value)).abs()
  }
}

/** A density rests on the jug's mass and on how well its volume is known. */
function densityUncertainty(sample: Reading, density: Decimal): Decimal {
  const byMass = sample.standardUncertaintyGrams.dividedBy(sample.netGrams)
  return byMass.pow(2).plus(VOLUME_UNCERTAINTY_FRACTION.pow(2)).sqrt().times(density)
}

type Whole = Omit<Reading, 'weighingNo'> & { readonly weighingNo?: number }

/** The whole basin: as it was weighed, or by its volume, which nobody weighed and no weigh-in says. */
async function wholeOf(
  book: Book,
  said: ReadSlurrySaid,
  known: { density: Decimal; densityDoubt: Decimal },
): Promise<Whole | undefined> {
  if (said.whole !== undefined) return takeReading(book, said.whole, { pointer: '/whole' })
  if (said.wholeVolume === undefined) return undefined
  const millilitres = millilitresFrom(said.wholeVolume)
  const netGrams = toLedgerScale(millilitres.times(known.density))
  const relative = known.densityDoubt.dividedBy(known.density).pow(2)
  const doubt = relative.plus(VOLUME_UNCERTAINTY_FRACTION.pow(2)).sqrt().times(netGrams)
  return { netGrams, standardUncertaintyGrams: doubt }
}
