import type { MiddlewareHandler } from 'hono'
import { csrf } from 'hono/csrf'
import { secureHeaders } from 'hono/secure-headers'
import { monthOf } from '../../shared/month.ts'
import type { ApiDescription } from '../openapi.ts'
import { isProblemCode } from '../problem-kinds.ts'
import { newRouter } from '../router.ts'
import type { Environment } from '../services.ts'
import { newAssets } from './assets.ts'
import { begin } from './begin/begin.tsx'
import { studioSettings } from './books/studio.tsx'
import { monthPages } from './books/month.tsx'
import { piecePages } from './books/piece.tsx'
import { labels } from './books/labels/labels.tsx'
import { salesImport } from './books/sales-import/sales-import.tsx'
import { wall } from './books/wall/wall.tsx'
import { theBooks } from './books/the-books.tsx'
import { hostFrom } from './commands.ts'
import { glazeRoom } from './glaze/glaze.tsx'
import { materialsRoom } from './materials/materials.tsx'
import { pageOfError } from './page-problem.tsx'
import { kiln } from './kiln/kiln.tsx'
import { ProblemPage, ProblemsPage } from './problems.tsx'
import { ReferencePage } from './reference.tsx'
import { sellRoom } from './sell/sell.tsx'
import { show } from './show.tsx'
import { reports } from './books/reports/reports.tsx'
import { trail } from './books/trail/trail.tsx'
import { studioOfPage } from './studio-of-page.ts'
import { today } from './today/today.tsx'
import { plaster } from './plaster/plaster.tsx'
import { weigh } from './weigh/weigh.tsx'
import { wheel } from './wheel/wheel.tsx'

/** The rooms that are about one studio. */
const ROOMS_OF_STUDIO = [
  today,
  weigh,
  studioSettings,
  monthPages,
  piecePages,
  salesImport,
  labels,
  wall,
  plaster,
  wheel,
  glazeRoom,
  materialsRoom,
  kiln,
  sellRoom,
  theBooks,
  trail,
  reports,
] as const
const STUDIO_PATHS = ['/', '/weigh/*', '/wheel/*', '/plaster/*', '/glaze/*', '/kiln/*', '/books/*']
const PAGE_PATHS = [...STUDIO_PATHS, '/begin/*', '/v1', '/problems/*']

/** Pages load what we ship and nothing else; nobody else may frame them or send their forms. */
const guarded: readonly MiddlewareHandler<Environment>[] = [
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'none'"],
      scriptSrc: ["'self'"],
      styleSrc: ["'self'"],
      imgSrc: ["'self'"],
      fontSrc: ["'self'"],
      connectSrc: ["'self'"],
      manifestSrc: ["'self'"],
      workerSrc: ["'self'"],
      formAction: ["'self'"],
      baseUri: ["'none'"],
      frameAncestors: ["'none'"],
    },
    referrerPolicy: 'same-origin',
    strictTransportSecurity: false,
  }),
  // By its host alone: behind a door that speaks HTTPS the program itself is asked by HTTP.
  csrf({ origin: (origin, c) => hostOf(origin) === c.req.header('host') }),
]

/** The pages for people. Those of a room know their studio; the others belong to none. */
export function newPages(describe: () => ApiDescription) {
  const pages = newRouter()
  pages.route('/', newAssets())
  for (const path of PAGE_PATHS) pages.use(path, ...guarded)
  for (const path of STUDIO_PATHS) pages.use(path, studioOfPage)
  pages.get('/v1', (c) => {
    const month = monthOf(c.get('services').now(), 'UTC')
    const host = hostFrom(c.req.header('host'))
    return show(
      c,
      { title: 'The API' },
      <ReferencePage description={describe()} host={host} month={month} />,
    )
  })
  pages.get('/problems', (c) => show(c, { title: 'Problems' }, <ProblemsPage />))
  pages.get('/problems/:code', (c) => {
    const code = c.req.param('code')
    if (!isProblemCode(code)) return c.notFound()
    return show(c, { title: 'What went wrong' }, <ProblemPage code={code} />)
  })
  pages.route('/', begin)
  for (const room of ROOMS_OF_STUDIO) pages.route('/', room)
  pages.onError(pageOfError)
  return pages
}

function hostOf(origin: string): string | undefined {
  return URL.canParse(origin) ? new URL(origin).host : undefined
}
