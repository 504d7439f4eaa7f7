import {
  bats,
  bodies,
  forms,
  materials,
  scales,
  vessels,
  type Catalogue,
} from '../../db/catalogue.ts'
import type { KeptBy, MaterialKind } from '../../shared/material.ts'
import type { StatedHazard } from '../../shared/material-hazards.ts'
import type { Context } from 'hono'
import type { Environment } from '../services.ts'

export interface Body {
  readonly bodyId: string
  readonly name: string
  readonly isBlend: boolean
  /** How wet it still gives off dust, where the studio says so. */
  readonly dustThresholdWetBasis: string | null
}

export interface Form {
  readonly formId: string
  readonly name: string
  readonly ballGrams: string | null
  readonly turnedOffFraction: string | null
  readonly price: string | null
  /** What a sold piece is packed in. */
  readonly packing: readonly { readonly materialId: string; readonly perPiece: string }[]
}

export interface Vessel {
  readonly vesselId: string
  readonly name: string
  readonly kind: 'bucket' | 'basin' | 'board' | 'tin' | 'other'
  readonly tareGrams: string
}

export interface Scale {
  readonly scaleId: string
  readonly name: string
  readonly divisionGrams: string
  readonly capacityGrams: string
}

export interface Bat {
  readonly batId: string
  readonly name: string
  readonly dryGrams: string | null
}

export interface Material {
  readonly materialId: string
  readonly name: string
  readonly kind: MaterialKind
  readonly keptBy: KeptBy
  readonly waterContentWetBasis: string
  readonly lossOnIgnitionFraction: string
  readonly hazards: readonly StatedHazard[]
  readonly crystallineSilicaFraction: string | null
  /** What one bag or carton holds: grams as supplied, or pieces. */
  readonly packSize: string | null
}

/** A studio has tens of each; whoever has more finds the rest in the catalogue. */
const THINGS_MAX = 500

/** All of one kind of thing that a studio has, for choosing from. */
async function all<Thing>(c: Context<Environment>, catalogue: Catalogue): Promise<Thing[]> {
  const { db } = c.get('services')
  return (await catalogue.list(db, c.get('studioId'), { limit: THINGS_MAX })) as unknown as Thing[]
}

export const allBodies = (c: Context<Environment>) => all<Body>(c, bodies)
export const allForms = (c: Context<Environment>) => all<Form>(c, forms)
export const allVessels = (c: Context<Environment>) => all<Vessel>(c, vessels)
export const allScales = (c: Context<Environment>) => all<Scale>(c, scales)
export const allBats = (c: Context<Environment>) => all<Bat>(c, bats)
export const allMaterials = (c: Context<Environment>) => all<Material>(c, materials)
