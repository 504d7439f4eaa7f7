import { html } from 'hono/html'
import type { Child } from 'hono/jsx'

/** The frame of every page: no script, nothing from elsewhere. */
export function Page({ title, children }: { title: string; children?: Child }) {
  return html`<!doctype html>${(
      <html lang="en">
        <head>
          <meta charset="utf-8" />
          <meta name="viewport" content="width=device-width, initial-scale=1" />
          <title>{title}</title>
          <link rel="stylesheet" href="/assets/pages.css" />
        </head>
        <body>
          <header>
            <a href="/">Slakebook</a>
            <nav aria-label="Main">
              <a href="/v1">API</a>
              <a href="/problems">Problems</a>
            </nav>
          </header>
          <main>{children}</main>
        </body>
      </html>
    )}`
}
