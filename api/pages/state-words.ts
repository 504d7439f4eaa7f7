import type { ClayState } from '../../shared/moisture.ts'

/** How wet clay is, in a potter's words. */
export const STATE_WORDS: Readonly<Record<ClayState, string>> = {
  as_delivered: 'As delivered',
  wedged: 'Wedged',
  off_cuts: 'Skirts and off-cuts',
  slops: 'Slops',
  throwing_water: 'Throwing water',
  leather_hard: 'Leather-hard',
  turnings: 'Turnings, fresh',
  air_dry: 'Dry scraps',
  slurry: 'Slurry',
}

/** The states in which scrap lies in a bucket, the commonest first. */
export const SCRAP_STATES = [
  'turnings',
  'off_cuts',
  'slops',
  'air_dry',
  'throwing_water',
  'leather_hard',
] as const satisfies readonly ClayState[]
