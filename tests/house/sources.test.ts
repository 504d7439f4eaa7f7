import ts from 'typescript'
import { describe, expect, test } from 'vitest'
import { keptFiles } from './repository.ts'
import type { KeptFile } from './repository.ts'

type Rows = { complete: number; faults: string[] }

const ASKED = ['source', 'standing']

/**
 * The rows of the tables in a file. A table is a list of objects that has a name or is handed to
 * `each`; as soon as one of its rows names a source or a standing, every row must name both. The
 * values are not looked at; a reader can judge them once they are there.
 */
function rowsOf(file: KeptFile): Rows {
  const source = ts.createSourceFile(file.name, file.text, ts.ScriptTarget.ES2023, true)
  const found: Rows = { complete: 0, faults: [] }
  const visit = (node: ts.Node): void => {
    if (ts.isArrayLiteralExpression(node) && isTable(node)) {
      found.faults.push(...faultsOfTable(node, source))
    }
    // A row is complete wherever its two names come in, also where a `map` adds them to all.
    if (ts.isObjectLiteralExpression(node) && namesOf(node).size === ASKED.length) {
      found.complete += 1
    }
    ts.forEachChild(node, visit)
  }
  visit(source)
  return found
}

function isTable(list: ts.ArrayLiteralExpression): boolean {
  let parent: ts.Node = list.parent
  while (ts.isAsExpression(parent) || ts.isSatisfiesExpression(parent)) parent = parent.parent
  if (ts.isCallExpression(parent)) return parent.expression.getText().endsWith('.each')
  return ts.isVariableDeclaration(parent)
}

function faultsOfTable(list: ts.ArrayLiteralExpression, source: ts.SourceFile): string[] {
  const rows = list.elements.filter(ts.isObjectLiteralExpression)
  if (rows.every((row) => namesOf(row).size === 0)) return []
  return rows.flatMap((row) => {
    // One that begins as another row does has what that row has.
    if (row.properties.some(ts.isSpreadAssignment)) return []
    const { line } = source.getLineAndCharacterOfPosition(row.getStart())
    const missing = ASKED.filter((name) => !namesOf(row).has(name))
    return missing.map((name) => `${source.fileName}:${line + 1} has a row without ${name}`)
  })
}

function namesOf(row: ts.ObjectLiteralExpression): Set<string> {
  const names = row.properties.map((property) => property.name?.getText() ?? '')
  return new Set(names.filter((name) => ASKED.includes(name)))
}

function faultsOfSources(files: KeptFile[]): string[] {
  return files.flatMap((file) => {
    const { complete, faults } = rowsOf(file)
    return complete > 0 ? faults : [...faults, `${file.name} has no row with source and standing`]
  })
}

describe('where the reference values come from', () => {
  test('every row of every table names its source and how sure that source is', () => {
    const files = keptFiles(/^tests\/reference\/.*\.test\.ts$/)
    expect(files.length).toBeGreaterThan(0)
    expect(faultsOfSources(files)).toEqual([])
  })

  test('a row without its standing, and a file without rows, are found', () => {
    const half =
      "const rows = [{ source: 'a', standing: 'seen' },\n{ source: 'b', grams: 1 },\n{ grams: 2 }]"
    const files = [
      { name: 'half.test.ts', text: half },
      { name: 'none.test.ts', text: 'expect(1).toBe(1)' },
    ]
    expect(faultsOfSources(files)).toEqual([
      'half.test.ts:2 has a row without standing',
      'half.test.ts:3 has a row without source',
      'half.test.ts:3 has a row without standing',
      'none.test.ts has no row with source and standing',
    ])
  })
})
