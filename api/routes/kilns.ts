import { catalogueRoutes } from '../catalogue-routes.ts'
import { KILNS } from '../catalogue/kilns.ts'

/** Kilns, and how what they cost is shared out. */
export const kilns = catalogueRoutes(KILNS)
