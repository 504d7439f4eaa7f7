import { readFileSync } from 'node:fs'
import type { MiddlewareHandler } from 'hono'
import { monthOf } from '../../shared/month.ts'
import type { ApiDescription } from '../openapi.ts'
import { isProblemCode } from '../problem-kinds.ts'
import { newRouter } from '../router.ts'
import type { Environment } from '../services.ts'
import { newAssets } from './assets.ts'
import { hostFrom } from './commands.ts'
import { ProblemPage, ProblemsPage } from './problems.tsx'
import { ReferencePage } from './reference.tsx'
import { WelcomePage } from './welcome.tsx'

const STYLE = readFileSync(new URL('../assets/pages.css', import.meta.url), 'utf8')

/** Pages load our stylesheet and nothing else: no script, no frame, no outside request. */
const guarded: MiddlewareHandler<Environment> = async (c, next) => {
  await next()
  c.header('Content-Security-Policy', "default-src 'none'; style-src 'self'; base-uri 'none'")
  c.header('X-Content-Type-Options', 'nosniff')
  c.header('Referrer-Policy', 'no-referrer')
}

/** The pages for people, which read and never write. */
export function newPages(describe: () => ApiDescription) {
  const pages = newRouter()
  pages.get('/', guarded, (c) =>
    c.html(<WelcomePage month={monthOf(c.get('services').now(), 'UTC')} />),
  )
  pages.get('/v1', guarded, (c) => {
    const month = monthOf(c.get('services').now(), 'UTC')
    const host = hostFrom(c.req.header('host'))
    return c.html(<ReferencePage description={describe()} host={host} month={month} />)
  })
  pages.get('/problems', guarded, (c) => c.html(<ProblemsPage />))
  pages.get('/problems/:code', guarded, (c) => {
    const code = c.req.param('code')
    return isProblemCode(code) ? c.html(<ProblemPage code={code} />) : c.notFound()
  })
  pages.get('/assets/pages.css', (c) =>
    c.body(STYLE, 200, {
      'Content-Type': 'text/css; charset=utf-8',
      'Cache-Control': 'max-age=300',
    }),
  )
  pages.route('/', newAssets())
  return pages
}
