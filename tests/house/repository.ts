import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'

/** The top folder of the repository. */
export const top = fileURLToPath(new URL('../..', import.meta.url))

/** A file as the checks see it: its path from the top folder, and what is in it. */
export type KeptFile = { name: string; text: string }

/**
 * The names of all files that are or would be committed, from the top folder.
 *
 * A clone may belong to another user than the one who runs the tests, and git would then refuse to
 * look into it.
 */
export function keptNames(): string[] {
  const listed = execFileSync(
    'git',
    ['-c', 'safe.directory=*', 'ls-files', '-z', '--cached', '--others', '--exclude-standard'],
    { cwd: top, encoding: 'utf8' },
  )
  const names = [...new Set(listed.split('\0'))].filter((name) => name !== '')
  return names.filter((name) => existsSync(path.join(top, name))).sort()
}

/** The kept files whose name matches, with their text. */
export function keptFiles(pattern: RegExp): KeptFile[] {
  return keptNames()
    .filter((name) => pattern.test(name))
    .map((name) => ({ name, text: readFileSync(path.join(top, name), 'utf8') }))
}
