import { catalogueRoutes } from '../catalogue-routes.ts'
import { SCALES } from '../catalogue/scales.ts'

/** Scales: the step of the display tells how sure a reading is. */
export const scales = catalogueRoutes(SCALES)
