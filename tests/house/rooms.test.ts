import { describe, expect, test } from 'vitest'
import { keptFiles, keptNames } from './repository.ts'
import type { KeptFile } from './repository.ts'

const LINES_MAX = 250
const TOP_NAMES = [
  ...['README.md', 'DEVELOPERS.md', 'package.json', 'package-lock.json', 'tsconfig.json'],
  ...['docker-compose.yml', 'api', 'db', 'shared', 'tests'],
]
/** Rooms named for nothing: what is in them could be anywhere, so nobody would look there. */
const EMPTY_NAMES = ['utils', 'util', 'helpers', 'helper', 'common', 'types', 'misc', 'index']

/** What is wrong with where the files lie and what they are called. */
function faultsOfNames(names: string[]): string[] {
  const misplaced = names
    .map((name) => name.split('/')[0] ?? '')
    .filter((first) => !first.startsWith('.') && !TOP_NAMES.includes(first))
    .map((first) => `${first} does not belong on the top level`)
  const meaningless = names
    .filter((name) => name.split('/').some((part) => EMPTY_NAMES.includes(withoutEnding(part))))
    .map((name) => `${name} says nothing about what is in it`)
  return [...misplaced, ...meaningless]
}

function withoutEnding(part: string): string {
  return part.replace(/(\.test)?\.[a-z]+$/, '')
}

/** Files that have grown past what one idea needs; blank lines and comments are free. */
function faultsOfSize(files: KeptFile[]): string[] {
  return files
    .map(({ name, text }) => ({ name, lines: text.split('\n').filter(isCode).length }))
    .filter(({ lines }) => lines > LINES_MAX)
    .map(({ name, lines }) => `${name} has ${lines} lines of code`)
}

function isCode(line: string): boolean {
  return !/^\s*($|\/\/|\/\*|\*)/.test(line)
}

describe('where things lie', () => {
  test('every file is in a room of the plan, under a name that says what it is', () => {
    const names = keptNames()
    expect(names.length).toBeGreaterThan(20)
    expect(faultsOfNames(names)).toEqual([])
  })

  test('a stray top folder, a room for anything and a barrel are found', () => {
    const bad = ['scripts/a.ts', 'db/utils/a.ts', 'shared/helpers.ts', 'api/index.ts', 'notes.txt']
    expect(faultsOfNames([...bad, '.ci/run', 'db/acts/buy.ts'])).toEqual([
      'scripts does not belong on the top level',
      'notes.txt does not belong on the top level',
      'db/utils/a.ts says nothing about what is in it',
      'shared/helpers.ts says nothing about what is in it',
      'api/index.ts says nothing about what is in it',
    ])
  })

  test('no file has grown past one idea', () => {
    const files = keptFiles(/^(api|db|shared|tests)\/.*\.(tsx?|js|css)$/)
    expect(files.length).toBeGreaterThan(20)
    expect(faultsOfSize(files)).toEqual([])
  })

  test('a file that is one line too long is found', () => {
    const line = 'const clay = 1\n'
    const justFits = { name: 'shared/a.ts', text: `// why\n\n${line.repeat(LINES_MAX)}` }
    const tooLong = { name: 'shared/b.ts', text: line.repeat(LINES_MAX + 1) }
    expect(faultsOfSize([justFits, tooLong])).toEqual(['shared/b.ts has 251 lines of code'])
  })
})
