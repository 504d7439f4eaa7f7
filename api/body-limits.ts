import type { MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { isForPerson, pageOfLargeBody } from './pages/page-problem.tsx'
import { answerProblem } from './problem.ts'
import type { Environment } from './services.ts'

const BODY_BYTES_MAX = 256 * 1024

/** A file of 1 MB, which may grow as UTF-8, with what is said of it. */
const SALES_BODY_BYTES_MAX = 3 * 1024 * 1024
const SALES_PATH = '/books/sales/import'

const usual = bodyLimit({
  maxSize: BODY_BYTES_MAX,
  onError: (c) =>
    isForPerson(c) ? pageOfLargeBody(c) : answerProblem(c, { code: 'body_must_be_small' }),
})

const ofSalesFiles = bodyLimit({
  maxSize: SALES_BODY_BYTES_MAX,
  onError: (c) => c.redirect(`${SALES_PATH}?too-large=yes`, 303),
})

/** No body is larger than an act of a studio needs, but for a file of sales. */
export const limitedBody: MiddlewareHandler<Environment> = (c, next) =>
  c.req.path === SALES_PATH || c.req.path.startsWith(`${SALES_PATH}/`)
    ? ofSalesFiles(c, next)
    : usual(c, next)
