import { catalogueRoutes } from '../catalogue-routes.ts'
import { FORMS } from '../catalogue/forms.ts'

/** Shapes that are made again and again. */
export const forms = catalogueRoutes(FORMS)
