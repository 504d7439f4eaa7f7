import type { OpenAPIHono } from '@hono/zod-openapi'
import type { Environment } from './services.ts'

export type ApiDescription = ReturnType<OpenAPIHono<Environment>['getOpenAPI31Document']>

const ABOUT = `Slakebook keeps a pottery's books of clay by mass. Every act moves dry clay, dry materials,
water, pieces and cost between places, and each of the five adds up to zero. Masses, volumes, fractions and money are text
("12.50"), because their last digit counts. A studio is named by the header Studio-Id and may be left out
where there is only one. An act with an Idempotency-Key is done once, however often it is sent. Every
problem is answered as application/problem+json, and its type is a page that says what to do.`

/** The description of every route, made when it is first asked for, from the routes themselves. */
export function describeApi(app: OpenAPIHono<Environment>): () => ApiDescription {
  let made: ApiDescription | undefined
  return () =>
    (made ??= app.getOpenAPI31Document({
      openapi: '3.1.0',
      info: { title: 'Slakebook', version: '1', description: ABOUT.replaceAll('\n', ' ') },
      servers: [{ url: '/' }],
      tags: [
        { name: 'What the studio has' },
        { name: 'Clay comes in' },
        { name: 'Making' },
        { name: 'Reclaim' },
        { name: 'Materials and glaze' },
        { name: 'Firing and after' },
        { name: 'The books' },
        { name: 'What the books say' },
        { name: 'Where it comes from' },
        { name: 'To look things up' },
      ],
    }))
}
