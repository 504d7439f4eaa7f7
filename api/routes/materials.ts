import { catalogueRoutes } from '../catalogue-routes.ts'
import { MATERIALS } from '../catalogue/materials.ts'

/** What is kept beside clay: powders, glazes, boxes, kiln shelves, gas. */
export const materials = catalogueRoutes(MATERIALS)
