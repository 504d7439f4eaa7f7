import { catalogueRoutes } from '../catalogue-routes.ts'
import { VESSELS } from '../catalogue/vessels.ts'

/** Buckets, basins, boards and tins, with what they weigh empty. */
export const vessels = catalogueRoutes(VESSELS)
