import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Context } from 'hono'
import { newRouter } from '../router.ts'
import { bundleScript, fingerprintOfContent } from '../script.ts'
import type { Environment, Logger } from '../services.ts'

/** Something that pages load. */
interface Asset {
  readonly type: string
  readonly content: string | Uint8Array<ArrayBuffer>
  /** A name for the content, by which a copy of it is told to be the same. */
  readonly print: string
}

interface AssetFile {
  readonly path: string
  readonly asset: Asset
}

interface Assets {
  /** Changes with anything that pages load. */
  readonly version: string
  readonly byPath: ReadonlyMap<string, Asset>
  /** Why there is no script, where there is none. */
  readonly whyNoScript: string | undefined
}

const FOLDER = new URL('../assets/', import.meta.url)
const FONT_PACKAGE = '@fontsource/atkinson-hyperlegible-next'
const FONT_PARTS = ['latin-400', 'latin-700', 'latin-ext-400', 'latin-ext-700']

const CSS = 'text/css; charset=utf-8'
const SCRIPT = 'text/javascript; charset=utf-8'

/** A copy that names its version is good for a year; another is asked for again after five minutes. */
const FOR_GOOD = 'public, max-age=31536000, immutable'
const FOR_NOW = 'public, max-age=300'
/** The script of the dead spots decides what else is kept, so it is asked for each time. */
const ASK_ALWAYS = 'no-cache'

let made: Assets | undefined

/** All that pages load, put together once, when it is first asked for. */
function assets(): Assets {
  made ??= readAssets()
  return made
}

/** A word that changes with anything that pages load; it stands behind their addresses as `?v=`. */
export function assetsVersion(): string {
  return assets().version
}

/** Puts together what pages load, and says so where their script cannot be had. */
export function prepareAssets(log: Logger): void {
  const { whyNoScript } = assets()
  if (whyNoScript === undefined) return
  log.error(
    'Pages go without their script: it could not be put together. They work all the same.',
    {
      cause: whyNoScript,
    },
  )
}

/** The sheet, the script, the letters and the sign, each under an address of ours. */
export function newAssets() {
  const router = newRouter()
  for (const path of ['/assets/*', '/service-worker.js']) {
    router.get(path, async (c, next) => {
      const asset = assets().byPath.get(c.req.path)
      if (asset === undefined) return next()
      return answered(c, asset)
    })
  }
  return router
}

function answered(c: Context<Environment>, { type, content, print }: Asset): Response {
  const etag = `"${print}"`
  const isWorker = c.req.path === '/service-worker.js'
  const isVersioned = [assets().version, print].includes(c.req.query('v') ?? '')
  c.header('ETag', etag)
  c.header('Cache-Control', isWorker ? ASK_ALWAYS : isVersioned ? FOR_GOOD : FOR_NOW)
  c.header('X-Content-Type-Options', 'nosniff')
  if (isWorker) c.header('Service-Worker-Allowed', '/')
  if (c.req.header('if-none-match') === etag) return c.body(null, 304)
  return c.body(content, 200, { 'Content-Type': type })
}

function readAssets(): Assets {
  const script = bundleScript()
  const fonts = FONT_PARTS.map((part) => font(part))
  const files = [
    ...fonts,
    file('/assets/icon.svg', 'image/svg+xml', read('icon.svg')),
    file('/assets/manifest.webmanifest', 'application/manifest+json', read('manifest.webmanifest')),
    file('/assets/slakebook.css', CSS, sheet(fonts)),
    ...('page' in script ? [file('/assets/slakebook.js', SCRIPT, script.page)] : []),
  ]
  const worker = 'worker' in script ? script.worker : ''
  const version = fingerprintOfContent(worker, ...files.map(({ asset }) => asset.content))
  const addresses = files.map((one) =>
    fonts.includes(one) ? fontAddress(one) : `${one.path}?v=${version}`,
  )
  const knows = { version, addresses }
  const all =
    worker === ''
      ? files
      : [...files, file('/service-worker.js', SCRIPT, workerKnowing(worker, knows))]
  return {
    version,
    byPath: new Map(all.map(({ path, asset }) => [path, asset])),
    whyNoScript: script.whyNot,
  }
}

/** The worker with the list of what it keeps in front of it, so that it changes with any of that. */
function workerKnowing(worker: string, knows: object): string {
  return `self.slakebook=${JSON.stringify(knows)};${worker}`
}

/** What every page stands on, in this order. */
const GROUND_SHEETS = [
  'studio',
  'fonts',
  'frame',
  'touch',
  'fields',
  'scale',
  'told',
  'tables',
].map((name) => `${name}.css`)

/** Ours in one sheet: what every page stands on first, then each room by its name. */
function sheet(fonts: readonly AssetFile[]): string {
  const names = readdirSync(FOLDER).filter((name) => name.endsWith('.css'))
  const rooms = names.filter((name) => !GROUND_SHEETS.includes(name)).sort()
  const inOrder = [...GROUND_SHEETS, ...rooms]
  const joined = inOrder.map((name) => read(name)).join('\n')
  return fonts.reduce((text, one) => text.replaceAll(one.path, fontAddress(one)), joined)
}

/** A font changes by itself and seldom, so its address names its own content. */
function fontAddress({ path, asset }: AssetFile): string {
  return `${path}?v=${asset.print}`
}

function font(part: string): AssetFile {
  const require = createRequire(import.meta.url)
  const at = require.resolve(
    `${FONT_PACKAGE}/files/atkinson-hyperlegible-next-${part}-normal.woff2`,
  )
  const content = new Uint8Array(readFileSync(at))
  return file(`/assets/fonts/atkinson-${part}.woff2`, 'font/woff2', content)
}

function read(name: string): string {
  return readFileSync(new URL(name, FOLDER), 'utf8')
}

function file(path: string, type: string, content: Asset['content']): AssetFile {
  return { path, asset: { type, content, print: fingerprintOfContent(content) } }
}
