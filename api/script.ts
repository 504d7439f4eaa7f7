import { createHash } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import { buildSync } from 'esbuild'
import { describeCause } from './cause.ts'

/** The script of the pages and that of the dead spots, each in one piece; or why there is none. */
export type Bundled =
  | { readonly page: string; readonly worker: string; readonly whyNot?: undefined }
  | { readonly whyNot: string }

const FOLDER = fileURLToPath(new URL('browser', import.meta.url))

/** What phones of the last few years understand. */
const TARGET = 'es2022'

/**
 * Puts the script together from `browser/`, in memory.
 *
 * Pages work without it, so that a machine on which this fails still serves them.
 */
export function bundleScript(): Bundled {
  try {
    const { outputFiles } = buildSync({
      absWorkingDir: FOLDER,
      entryPoints: { page: 'start.ts', worker: 'worker/service-worker.ts' },
      outdir: FOLDER,
      write: false,
      bundle: true,
      minify: true,
      format: 'esm',
      platform: 'browser',
      target: TARGET,
      legalComments: 'none',
      sourcemap: false,
      logLevel: 'silent',
    })
    const textOf = (name: string) => outputFiles.find((one) => one.path.endsWith(name))?.text ?? ''
    return { page: textOf('page.js'), worker: textOf('worker.js') }
  } catch (error) {
    return { whyNot: describeCause(error) }
  }
}

/** A name for what something holds: the same for the same, another for anything else. */
export function fingerprintOfContent(...content: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256')
  for (const one of content) hash.update(one)
  return hash.digest('hex').slice(0, 12)
}
