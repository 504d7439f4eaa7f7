/** What the environment says, parsed once. */
export interface Config {
  readonly host: string
  readonly port: number
  /** The database to use; our own server where it is not said. */
  readonly databaseUrl: string | undefined
  /** Where our own server keeps its data; the command's own default where it is not said. */
  readonly dataFolder: string | undefined
}

/** Everything that is wrong with the environment, so that it is put right in one go. */
export class ConfigFault extends Error {
  override readonly name = 'ConfigFault'
}

const PORT_USUAL = 4180
const PORT_MAX = 65_535
const HOST_USUAL = '127.0.0.1'

type Environment = Readonly<Record<string, string | undefined>>

/** The settings that the environment holds. An empty variable counts as unset. */
export function readConfig(environment: Environment = process.env): Config {
  const said = (name: string) => (environment[name] === '' ? undefined : environment[name])
  const port = said('PORT') ?? String(PORT_USUAL)
  const host = said('HOST') ?? HOST_USUAL
  const databaseUrl = said('DATABASE_URL')
  const faults = [faultOfPort(port), faultOfHost(host), faultOfDatabase(databaseUrl)]
  const found = faults.filter((fault) => fault !== undefined)
  if (found.length > 0) throw new ConfigFault(found.join('\n'))
  return { host, port: Number(port), databaseUrl, dataFolder: said('SLAKEBOOK_DATA') }
}

function faultOfPort(port: string): string | undefined {
  if (/^\d{1,5}$/.test(port) && Number(port) <= PORT_MAX) return undefined
  return `PORT must be a whole number from 0 to ${String(PORT_MAX)}; it is '${port}'.`
}

function faultOfHost(host: string): string | undefined {
  if (/^[A-Za-z0-9.:_-]+$/.test(host)) return undefined
  return `HOST must be a name or an address of this machine; it is '${host}'.`
}

/** The address holds a password, so the fault does not repeat it. */
function faultOfDatabase(databaseUrl: string | undefined): string | undefined {
  if (databaseUrl === undefined) return undefined
  if (URL.canParse(databaseUrl) && /^postgres(ql)?:/.test(databaseUrl)) return undefined
  return 'DATABASE_URL must begin with postgres:// or postgresql:// and be an address.'
}
