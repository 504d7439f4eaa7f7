import ts from 'typescript'
import { describe, expect, test } from 'vitest'
import { keptFiles } from './repository.ts'
import type { KeptFile } from './repository.ts'

/** Put together here, so that this file does not trip over itself. */
const BANNED: { word: string; pattern: RegExp }[] = [
  { word: 'tran' + 'script', pattern: new RegExp('tran' + 'script', 'i') },
  { word: 'an issue number', pattern: /\bissue\s*#?\s*\d/i },
  { word: 'issue ' + '#', pattern: new RegExp('issue ' + '#', 'i') },
  { word: 'TO' + 'DO', pattern: new RegExp('\\bTO' + 'DO\\b') },
  { word: 'FIX' + 'ME', pattern: new RegExp('\\bFIX' + 'ME\\b') },
  { word: 'a path of the workplace', pattern: new RegExp('/wor' + 'k/') },
]

/** Files without a formula: what they deal in has no unit, and nobody published it. */
const WITHOUT_FORMULAS = ['assert', 'decimal', 'month', 'place', 'refusal'].map(
  (name) => `shared/${name}.ts`,
)

function faultsOfWords(files: KeptFile[]): string[] {
  return files.flatMap(({ name, text }) =>
    BANNED.filter(({ pattern }) => pattern.test(text)).map(({ word }) => `${name}: ${word}`),
  )
}

/** The exported functions of a file, each with the comment that stands over it. */
function exportedFunctions(file: KeptFile): { name: string; comment: string }[] {
  const source = ts.createSourceFile(file.name, file.text, ts.ScriptTarget.ES2023, true)
  return source.statements.flatMap((statement) => {
    const comment = file.text.slice(statement.pos, statement.getStart())
    const isExported =
      ts.canHaveModifiers(statement) &&
      ts.getModifiers(statement)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)
    if (!isExported) return []
    return functionNames(statement).map((name) => ({ name, comment }))
  })
}

function functionNames(statement: ts.Statement): string[] {
  if (ts.isFunctionDeclaration(statement)) return [statement.name?.text ?? 'default']
  if (!ts.isVariableStatement(statement)) return []
  return statement.declarationList.declarations
    .filter(({ initializer }) => initializer !== undefined && ts.isArrowFunction(initializer))
    .map(({ name }) => name.getText())
}

function faultsOfDocblocks(files: KeptFile[]): string[] {
  return files.flatMap((file) =>
    exportedFunctions(file)
      .filter(({ comment }) => !/\/\*\*[\s\S]*\b(Units|Source):/.test(comment))
      .map(({ name }) => `${file.name}: ${name} names neither its units nor its source`),
  )
}

describe('what is written', () => {
  test('no file holds a word that has no business there', () => {
    const files = keptFiles(/\.(tsx?|cjs|js|json|md|sql|css|yml|svg)$|^\.ci\/run$/)
    const written = files.filter(({ name }) => name !== 'package-lock.json')
    expect(written.length).toBeGreaterThan(20)
    expect(faultsOfWords(written)).toEqual([])
  })

  test('each banned word is found', () => {
    const samples = [
      'a tran' + 'script of it',
      'see issue' + ' 12',
      'see issue ' + '#',
      '// TO' + 'DO: later',
      '// FIX' + 'ME',
      'cd /wor' + 'k/here',
    ]
    const found = samples.map((text) => faultsOfWords([{ name: 'a', text }])[0])
    expect(found).toEqual(BANNED.map(({ word }) => `a: ${word}`))
    expect(
      faultsOfWords([{ name: 'a', text: 'The issue is water; the network/work is done.' }]),
    ).toEqual([])
  })

  test('every exported function of shared names its units or its source', () => {
    const files = keptFiles(/^shared\/.*\.ts$/).filter(
      ({ name }) => !WITHOUT_FORMULAS.includes(name),
    )
    expect(files.flatMap(exportedFunctions).length).toBeGreaterThan(10)
    expect(faultsOfDocblocks(files)).toEqual([])
  })

  test('an exported function without units and source is found, however it is written', () => {
    const text = [
      '/** Units: grams. */\nexport function good() {}',
      '/** Dry clay. */\nexport function bare() {}',
      '// Units: grams.\nexport const arrow = () => 1',
      'function inner() {}',
    ].join('\n\n')
    expect(faultsOfDocblocks([{ name: 'shared/a.ts', text }])).toEqual([
      'shared/a.ts: bare names neither its units nor its source',
      'shared/a.ts: arrow names neither its units nor its source',
    ])
  })
})
