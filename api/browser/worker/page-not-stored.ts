import { assetAddress } from './assets.ts'

/** A page that says that the page asked for is not on this phone, and which ones are. */
export function pageNotStored(stored: readonly { address: string; title: string }[]): Response {
  const links = stored.map(
    // Titles come out of HTML and so are written for HTML already.
    ({ address, title }) => `<li><a class="target" href="${inHtml(address)}">${title}</a></li>`,
  )
  const there =
    links.length === 0
      ? '<p>No other page is stored yet.</p>'
      : `<h2>On this phone</h2><ul class="targets">${links.join('')}</ul>`
  return new Response(page(there), {
    status: 503,
    headers: {
      'content-type': 'text/html; charset=utf-8',
      'content-security-policy':
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'self'",
    },
  })
}

function page(there: string): string {
  return `<!doctype html><html lang="en-GB"><head><meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta name="color-scheme" content="light dark"/>
<title>No network · Slakebook</title>
<link rel="icon" href="${assetAddress('/assets/icon.svg')}" type="image/svg+xml"/>
<link rel="stylesheet" href="${assetAddress('/assets/slakebook.css')}"/>
<script type="module" src="${assetAddress('/assets/slakebook.js')}"></script></head>
<body><main id="page"><section id="kept" class="kept" aria-label="Kept on this phone" hidden></section>
<h1>No network here</h1>
<p>This page was not stored on this phone. Go where there is a network and open it there once.</p>
${there}</main></body></html>`
}

function inHtml(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;')
}
