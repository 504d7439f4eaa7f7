import { execFile } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { keptNames, top } from './repository.ts'

type Fault = { from: string; rule: { name: string } }
type Cruise = { modules: { source: string }[]; summary: { violations: Fault[] } }

const layers = ['api', 'db', 'shared'].filter((layer) =>
  keptNames().some((name) => name.startsWith(`${layer}/`)),
)

/** For each rule a file that breaks it, and what stands in that file. */
const planted: Record<string, { file: string; text: string }> = {
  'shared-stands-alone': { file: 'shared/x-alone.ts', text: "export * from '../db/embedded.ts'" },
  'shared-touches-nothing': { file: 'shared/x-core.ts', text: "export * from 'node:fs'" },
  'db-knows-no-http': { file: 'db/x-http.ts', text: "export { z } from 'zod'" },
  'api-knows-no-tables': { file: 'api/x-tables.ts', text: "export { sql } from 'drizzle-orm'" },
  'acts-and-reports-apart': {
    file: 'db/acts/x-apart.ts',
    text: "import type {} from '../reports/x-report.ts'",
  },
  'routes-stand-alone': {
    file: 'api/routes/x-alone.ts',
    text: "export * from '../pages/x-page.tsx'",
  },
  'pages-know-no-routes': {
    file: 'api/pages/x-page.tsx',
    text: "export * from '../routes/x-route.ts'",
  },
  'browser-knows-only-shared': {
    file: 'api/browser/x-server.ts',
    text: "export * from '../csv.ts'",
  },
  'browser-touches-no-node': { file: 'api/browser/x-core.ts', text: "export * from 'node:fs'" },
  'nobody-imports-the-browser': {
    file: 'api/pages/x-script.ts',
    text: "export * from '../browser/start.ts'",
  },
  'one-decimal': { file: 'db/x-decimal.ts', text: "export { Decimal } from 'decimal.js'" },
  'one-statistics': {
    file: 'shared/x-statistics.ts',
    text: "export { default } from '@stdlib/stats-base-dists-normal-cdf'",
  },
  'one-linear-algebra': { file: 'shared/x-matrix.ts', text: "export { Matrix } from 'ml-matrix'" },
  'ids-are-made-in-main': { file: 'db/x-id.ts', text: "export { v7 } from 'uuid'" },
  'everything-resolves': { file: 'db/x-nowhere.ts', text: "export * from './x-gone.ts'" },
  'no-circles': { file: 'shared/x-circle.ts', text: "export * from './x-circle-back.ts'" },
  'no-dead-rooms': { file: 'shared/x-dead.ts', text: 'export const nobodyAsks = true' },
}

/** Files that the planted ones need in order to be wrong in one way only. */
const supporting: Record<string, string> = {
  'db/reports/x-report.ts': 'export const report = true',
  'api/routes/x-route.ts': 'export const route = true',
  'shared/x-circle-back.ts': "export * from './x-circle.ts'",
}

let copy: string

beforeAll(() => {
  copy = mkdtempSync(path.join(tmpdir(), 'slakebook-direction-'))
  for (const name of [...layers, 'package.json', 'tsconfig.json', '.dependency-cruiser.cjs']) {
    cpSync(path.join(top, name), path.join(copy, name), { recursive: true })
  }
  symlinkSync(path.join(top, 'node_modules'), path.join(copy, 'node_modules'))
})

afterAll(() => rmSync(copy, { recursive: true, force: true }))

async function cruise(folder: string, folders: string[]): Promise<Cruise> {
  const program = path.join(top, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs')
  const choices = ['--config', '.dependency-cruiser.cjs', '--output-type', 'json']
  return new Promise((resolve, reject) => {
    execFile(
      process.execPath,
      [program, ...folders, ...choices],
      { cwd: folder, maxBuffer: 64 * 1024 * 1024 },
      (_, stdout, stderr) => {
        if (stdout === '') reject(new Error(`dependency-cruiser said nothing but: ${stderr}`))
        else resolve(JSON.parse(stdout) as Cruise)
      },
    )
  })
}

function plant(file: string, text: string): void {
  mkdirSync(path.dirname(path.join(copy, file)), { recursive: true })
  writeFileSync(path.join(copy, file), `${text}\n`)
}

describe('what imports what', () => {
  test('every source file is looked at, and none imports against the direction', async () => {
    const sources = keptNames().filter((name) => /^(api|db|shared)\/.*\.tsx?$/.test(name))
    const { modules, summary } = await cruise(top, layers)
    const seen = new Set(modules.map((module) => module.source))
    expect(sources.length).toBeGreaterThan(0)
    expect(sources.filter((name) => !seen.has(name))).toEqual([])
    expect(summary.violations.map((fault) => `${fault.rule.name}: ${fault.from}`)).toEqual([])
  })

  test('a fault planted against each rule is found', async () => {
    for (const [file, text] of Object.entries(supporting)) plant(file, text)
    for (const { file, text } of Object.values(planted)) plant(file, text)
    const { summary } = await cruise(copy, ['api', 'db', 'shared'])
    const found = summary.violations.map((fault) => `${fault.rule.name}: ${fault.from}`)
    // Of a circle either file may be named, so a name is compared without its ending.
    const missed = Object.entries(planted)
      .map(([rule, { file }]) => `${rule}: ${file.replace(/\.tsx?$/, '')}`)
      .filter((start) => !found.some((fault) => fault.startsWith(start)))
    expect(missed).toEqual([])
  })

  test('no rule is without a planted fault', () => {
    const { forbidden } = createRequire(import.meta.url)(
      path.join(top, '.dependency-cruiser.cjs'),
    ) as { forbidden: { name: string }[] }
    expect(Object.keys(planted).sort()).toEqual(forbidden.map((rule) => rule.name).sort())
  })
})
