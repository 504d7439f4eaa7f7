import type { MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import { studioMeant } from '../db/catalogue-studios.ts'
import type { Environment } from './services.ts'

/** Addresses that belong to no studio, or lead to all of them. */
const WITHOUT_STUDIO =
  /^\/v1(\/openapi\.json|\/studios(\/.*)?|\/silica-limits|\/material-hazards|\/refusals)?$/

const EVERY_METHOD = 'ALL'

/**
 * Finds the studio that a request is about, before its route sees it.
 *
 * An address that leads nowhere is left alone: it is to be answered as such, and not with a question
 * about studios.
 */
export const studioOfRequest: MiddlewareHandler<Environment> = async (c, next) => {
  const leadsSomewhere = matchedRoutes(c).some((route) => route.method !== EVERY_METHOD)
  if (leadsSomewhere && !WITHOUT_STUDIO.test(c.req.path)) {
    c.set('studioId', await studioMeant(c.get('services').db, c.req.header('studio-id')))
  }
  await next()
}
