import { catalogueRoutes } from '../catalogue-routes.ts'
import { BATS } from '../catalogue/bats.ts'

/** Plaster slabs on which slurry dries. */
export const bats = catalogueRoutes(BATS)
