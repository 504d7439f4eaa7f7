import type { OpenAPIHono } from '@hono/zod-openapi'
import type { MiddlewareHandler } from 'hono'
import { requestId } from 'hono/request-id'
import { limitedBody } from './body-limits.ts'
import { describeApi } from './openapi.ts'
import { nothingHere } from './pages/page-problem.tsx'
import { newPages } from './pages/pages.tsx'
import { answerError, answerProblem } from './problem.ts'
import { SHARED_SCHEMAS } from './reading-schemas.ts'
import { newRouter } from './router.ts'
import { acts } from './routes/acts.ts'
import { bats } from './routes/bats.ts'
import { bodies } from './routes/bodies.ts'
import { correct } from './routes/correct.ts'
import { forms } from './routes/forms.ts'
import { kilns } from './routes/kilns.ts'
import { recipes } from './routes/recipes.ts'
import { materialHazards } from './routes/material-hazards.ts'
import { materials } from './routes/materials.ts'
import { refusals } from './routes/refusals.ts'
import { dust } from './routes/reports/dust.ts'
import { glazeBucketsReport } from './routes/reports/glaze-buckets.ts'
import { firings } from './routes/reports/firings.ts'
import { materialsStock } from './routes/reports/materials.ts'
import { balance } from './routes/reports/mass-balance.ts'
import { month } from './routes/reports/month.ts'
import { pieceCost } from './routes/reports/piece-cost.ts'
import { plaster } from './routes/reports/plaster.ts'
import { reclaim } from './routes/reports/reclaim.ts'
import { stock } from './routes/reports/stock.ts'
import { stockValue } from './routes/reports/stock-value.ts'
import { turning } from './routes/reports/turning.ts'
import { waiting } from './routes/reports/waiting.ts'
import { whatChangesIf } from './routes/reports/what-changes-if.ts'
import { yields } from './routes/reports/yield.ts'
import { scales } from './routes/scales.ts'
import { silicaLimits } from './routes/silica-limits.ts'
import { studios } from './routes/studios.ts'
import { entries } from './routes/trail-entries.ts'
import { holdings } from './routes/trail-holdings.ts'
import { lots } from './routes/trail-lots.ts'
import { runs } from './routes/trail-runs.ts'
import { sales } from './routes/trail-sales.ts'
import { vessels } from './routes/vessels.ts'
import type { ApiServices, Environment } from './services.ts'
import { studioOfRequest } from './studio-of-request.ts'

const METHODS = ['GET', 'POST', 'PATCH', 'PUT', 'DELETE'] as const

/** Every address of the program; this file is its table of contents. */
export function newApp(services: ApiServices): OpenAPIHono<Environment> {
  const app = newRouter()
  for (const [name, schema] of Object.entries(SHARED_SCHEMAS)) {
    app.openAPIRegistry.register(name, schema)
  }
  app.use(requestId({ generator: () => services.newId(), limitLength: 100 }))
  app.use(serving(services))
  app.use(limitedBody)
  app.use(logged(services))
  app.use('/v1/*', studioOfRequest)

  // What the studio has
  app.route('/', studios)
  app.route('/', bodies)
  app.route('/', forms)
  app.route('/', vessels)
  app.route('/', scales)
  app.route('/', bats)
  app.route('/', recipes)
  app.route('/', materials)
  app.route('/', kilns)

  // What happens
  app.route('/', acts)
  app.route('/', correct)

  // What the books say: one line a report
  app.route('/', stock)
  app.route('/', stockValue)
  app.route('/', waiting)
  app.route('/', plaster)
  app.route('/', month)
  app.route('/', balance)
  app.route('/', yields)
  app.route('/', turning)
  app.route('/', pieceCost)
  app.route('/', firings)
  app.route('/', materialsStock)
  app.route('/', whatChangesIf)
  app.route('/', reclaim)
  app.route('/', glazeBucketsReport)
  app.route('/', dust)

  // Where it comes from: one line a part of the trail
  app.route('/', entries)
  app.route('/', holdings)
  app.route('/', lots)
  app.route('/', runs)
  app.route('/', sales)

  // To look things up
  app.route('/', silicaLimits)
  app.route('/', materialHazards)
  app.route('/', refusals)

  const description = describeApi(app)
  app.get('/v1/openapi.json', (c) => c.json(description()))
  app.route('/', newPages(description))

  app.onError(answerError)
  app.notFound((c) => {
    const allowed = METHODS.filter((method) => leadsSomewhere(app, method, c.req.path))
    const isAllowed = allowed.some((method) => method === c.req.method)
    if (isAllowed || allowed.length === 0) return nothingHere(c)
    c.header('Allow', allowed.join(', '))
    return answerProblem(c, { code: 'method_must_be_allowed' })
  })
  return app
}

function serving(services: ApiServices): MiddlewareHandler<Environment> {
  return async function serving(c, next) {
    c.set('services', services)
    await next()
  }
}

/** One line a request, without its content: who asked for what is the studio's affair. */
function logged({ log, now }: ApiServices): MiddlewareHandler<Environment> {
  return async function logged(c, next) {
    const begun = now().getTime()
    await next()
    log.info('request', {
      requestId: c.get('requestId'),
      method: c.req.method,
      path: c.req.path,
      status: c.res.status,
      milliseconds: now().getTime() - begun,
    })
  }
}

/** True where some handler, and not only what every address passes, would take that method there. */
function leadsSomewhere(app: OpenAPIHono<Environment>, method: string, path: string): boolean {
  const [handlers] = app.router.match(method, path)
  return handlers.some(([[, route]]) => route.method !== 'ALL')
}
