import type { LossStage, PotPlace } from './place.ts'

export const KILN_KINDS = ['bisque', 'glaze'] as const
/** Which fire a load waits for. */
export type KilnKind = (typeof KILN_KINDS)[number]

/** Where pots are before that fire, and at which stage those are lost that it breaks. */
export const FIRE_OF_KIND: Readonly<
  Record<
    KilnKind,
    { readonly from: PotPlace & ('greenware' | 'bisque'); readonly loses: LossStage }
  >
> = {
  bisque: { from: 'greenware', loses: 'bisque_firing' },
  glaze: { from: 'bisque', loses: 'glaze_firing' },
}

/** What is written down where nobody says why a piece did not come out whole. */
export const BROKE_IN_THE_KILN = 'broke in the kiln'
