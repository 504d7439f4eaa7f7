import type { CostLayer } from './cost-layer.ts'

/** What a studio keeps beside clay. */
export const MATERIAL_KINDS = [
  'ingredient',
  'glaze',
  'packaging',
  'kiln_furniture',
  'fuel',
] as const
export type MaterialKind = (typeof MATERIAL_KINDS)[number]

/** What each kind is, in a potter's words. */
export const MATERIAL_KIND_WORDS: Readonly<Record<MaterialKind, string>> = {
  ingredient: 'a powder that glazes are mixed from',
  glaze: 'a glaze, in its bucket',
  packaging: 'packaging',
  kiln_furniture: 'kiln shelves, props and elements',
  fuel: 'gas or other fuel, by weight',
}

/** Whether a material is weighed or counted. */
export const KEPT_BY = ['mass', 'count'] as const
export type KeptBy = (typeof KEPT_BY)[number]

/** What a pot pays for when it uses a material. Source: our choice. */
export const LAYER_OF_KIND: Readonly<Record<MaterialKind, CostLayer>> = {
  ingredient: 'glaze',
  glaze: 'glaze',
  packaging: 'packaging',
  kiln_furniture: 'wear',
  fuel: 'fire',
}
