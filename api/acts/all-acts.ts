import { CLAY_COMES_IN } from './clay-comes-in.ts'
import type { DefinedAct } from './define.ts'
import { FIRING_AND_AFTER } from './firing-and-after.ts'
import { GLAZE } from './glaze.ts'
import { MAKING } from './making.ts'
import { MATERIALS_ON_THE_SHELF } from './materials.ts'
import { OPEN_BOOKS } from './open-books.ts'
import { PLASTER } from './plaster.ts'
import { RECLAIM } from './reclaim.ts'
import { THE_BOOKS } from './the-books.ts'

/** Everything that can be done, in the order in which clay meets it. */
export const ALL_ACTS: readonly DefinedAct[] = [
  ...OPEN_BOOKS,
  ...CLAY_COMES_IN,
  ...MAKING,
  ...RECLAIM,
  ...PLASTER,
  ...MATERIALS_ON_THE_SHELF,
  ...GLAZE,
  ...FIRING_AND_AFTER,
  ...THE_BOOKS,
]
