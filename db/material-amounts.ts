import { present } from '../shared/assert.ts'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { sourceOf } from '../shared/doubt-source.ts'
import { dryMassFromWet, type DryMassEstimate } from '../shared/dry-mass.ts'
import { asIfClay, dryGramsInWetMass } from '../shared/parting.ts'
import { powderWaterUncertainty } from '../shared/powder-water.ts'
import { count, type Quantities } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Mass } from '../shared/units.ts'
import { waterContentWetBasisFrom } from '../shared/water.ts'
import type { Book } from './book.ts'
import type { MaterialFacts } from './materials.ts'
import { pointingAt, takeLabel, takeReading, type Reading, type ReadingSaid } from './readings.ts'
import {
  figureOfSample,
  UNCERTAINTY_BY_STANDING,
  type WaterFigure,
  type WaterSaid,
} from './water-figures.ts'

/** How much of a material it is, said in one way. */
export interface AmountSaid {
  readonly reading?: ReadingSaid | undefined
  /** As a label or a bill says it. */
  readonly mass?: Mass | undefined
  /** So many of what the material says that one bag or carton holds. */
  readonly packs?: number | undefined
  readonly pieces?: number | undefined
}

/** An amount of what is weighed, in its water, or of what is counted. */
export type Amount =
  | { readonly keptBy: 'mass'; readonly reading: Reading; readonly estimate: DryMassEstimate }
  | { readonly keptBy: 'count'; readonly pieces: Decimal }

type AmountOfMass = Extract<Amount, { keptBy: 'mass' }>

/**
 * An amount of a material as it is said: weighed things dry and wet, with what makes them unsure, and
 * counted things by pieces.
 *
 * Units: grams, pieces. Refuses: `material_must_be_told_as_it_is_kept`, and what a reading refuses.
 */
export async function takeAmount(
  book: Book,
  material: MaterialFacts,
  of: { said: AmountSaid; water?: WaterSaid | undefined; pointer: string },
): Promise<Amount> {
  const { said, pointer } = of
  refuseOtherMeasure(material, said, pointer)
  if (material.keptBy === 'count')
    return { keptBy: 'count', pieces: piecesOf(material, said, pointer) }
  const reading = await readingOf(book, material, { said, pointer })
  return takePowder(book, material, { reading, water: of.water, pointer })
}

/** An amount as a holding has it. Units: grams, pieces. */
export function amountHeld(amount: Amount): Partial<Quantities> {
  if (amount.keptBy === 'count') return { pieces: amount.pieces }
  const { dryGrams, waterGrams, dryDoubt } = amount.estimate
  return { materialGrams: dryGrams, waterGrams, materialDoubt: dryDoubt }
}

/** What of a wet reading of a material is dry, and how sure that is. Units: grams. */
export async function takePowder(
  book: Book,
  material: MaterialFacts,
  of: { reading: Reading; water: WaterSaid | undefined; pointer: string },
): Promise<AmountOfMass> {
  const { reading, water } = of
  const figure = await pointingAt(`${of.pointer}/water`, () => powderFigure(book, material, water))
  const { netGrams, netDoubt } = reading
  return { keptBy: 'mass', reading, estimate: dryMassFromWet({ ...figure, netGrams, netDoubt }) }
}

/** Refuses a mass of what is counted, and a count of what is weighed, at the field that says it. */
export function refuseOtherMeasure(
  material: MaterialFacts,
  said: Pick<AmountSaid, 'reading' | 'mass' | 'pieces'>,
  pointer: string,
): void {
  const { materialId, keptBy } = material
  const fields = keptBy === 'mass' ? (['pieces'] as const) : (['reading', 'mass'] as const)
  const wrong = fields.find((field) => said[field] !== undefined)
  if (wrong === undefined) return
  const words =
    keptBy === 'mass'
      ? `'${materialId}' is kept by mass: weigh it, or say what its label says.`
      : `'${materialId}' is counted: say how many pieces.`
  throw toldOtherwise(material, words, `${pointer}/${wrong}`)
}

function toldOtherwise({ materialId, keptBy }: MaterialFacts, words: string, pointer: string) {
  const facts = { materialId, keptBy }
  return new Refusal('material_must_be_told_as_it_is_kept', words, { pointer, facts })
}

function piecesOf(material: MaterialFacts, said: AmountSaid, pointer: string): Decimal {
  if (said.pieces !== undefined) return count(said.pieces)
  return inPacks(material, said, pointer)
}

async function readingOf(
  book: Book,
  material: MaterialFacts,
  { said, pointer }: { said: AmountSaid; pointer: string },
): Promise<Reading> {
  if (said.reading !== undefined) {
    return takeReading(book, said.reading, { pointer: `${pointer}/reading`, kind: 'powder' })
  }
  if (said.mass !== undefined) return takeLabel(book, said.mass, `${pointer}/mass`)
  const value = inPacks(material, said, pointer).toFixed()
  return takeLabel(book, { value, unit: 'g' }, `${pointer}/packs`)
}

function inPacks(material: MaterialFacts, said: AmountSaid, pointer: string): Decimal {
  const packs = present(said.packs, 'an amount is said in one way')
  const { materialId, packSize } = material
  const words = `Nothing says what one pack of '${materialId}' holds. Give it a packSize, or say how much it is.`
  if (packSize === undefined) throw toldOtherwise(material, words, `${pointer}/packs`)
  const amount = packSize.times(packs)
  if (material.keptBy === 'mass' || amount.isInteger()) return amount
  const whole = `${String(packs)} packs of '${materialId}' are ${amount.toFixed()}, and what is counted is whole.`
  throw toldOtherwise(material, whole, `${pointer}/packs`)
}

/** The water in a powder: as it is said with this act, or as the material is known to come. */
function powderFigure(
  book: Book,
  { materialId, waterContentWetBasis }: MaterialFacts,
  said: WaterSaid | undefined,
): WaterFigure {
  if (said === undefined) {
    const source = sourceOf('said', 'powder', waterContentWetBasis.toFixed(), 'wet', materialId)
    const standardUncertainty = powderWaterUncertainty(waterContentWetBasis)
    return statedFigure({ waterContentWetBasis, standardUncertainty, source }, 'assumed')
  }
  if (said.sample !== undefined) return figureOfSample(said.sample, book.ownSource('sample'))
  const { content = '0', basis = 'wet', standing = 'stated', standardUncertainty } = said
  const day = standing === 'measured' ? book.facts.day : 'always'
  const figure = {
    waterContentWetBasis: waterContentWetBasisFrom(decimal(content), basis),
    standardUncertainty: decimal(standardUncertainty ?? UNCERTAINTY_BY_STANDING[standing]),
    source: sourceOf('said', 'powder', decimal(content).toFixed(), basis, day, materialId),
  }
  return statedFigure(figure, standing === 'measured' ? 'measured' : 'assumed')
}

function statedFigure(
  figure: { waterContentWetBasis: Decimal; standardUncertainty: Decimal; source: string },
  standing: WaterFigure['standing'],
): WaterFigure {
  const { waterContentWetBasis, standardUncertainty, source } = figure
  const waterDoubt = standardUncertainty.isZero()
    ? new Map<string, Decimal>()
    : new Map([[source, standardUncertainty]])
  const method = 'stated_water_content'
  return { waterContentWetBasis, standardUncertainty, waterDoubt, method, standing }
}

/**
 * The dry part of so much as it lies there. Of what is not there, as much as is said was to leave, so that
 * the refusal can say so.
 *
 * Units: grams.
 */
export function dryGramsOnShelf(held: Quantities, wetGrams: Decimal): Decimal {
  return held.materialGrams.isZero() ? wetGrams : dryGramsInWetMass(asIfClay(held), wetGrams)
}
