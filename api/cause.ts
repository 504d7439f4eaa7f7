/** Facts of a database error that name places in the schema and hold nothing of what was sent. */
const FACTS_OF_DATABASE_ERROR = ['code', 'constraint_name', 'table_name', 'column_name', 'routine']

/**
 * An error and what caused it, for the log.
 *
 * The message of a failed query holds its parameters, and that of the database quotes the values it did
 * not like; both belong to the studio. Of those errors only the query's text and the names are written.
 */
export function describeCause(error: unknown): string {
  const parts: string[] = []
  let cause: unknown = error
  while (cause instanceof Error && parts.length < 8) {
    parts.push(describeOne(cause))
    cause = cause.cause
  }
  return parts.join('\ncaused by ')
}

function describeOne(error: Error): string {
  const facts = error as unknown as Readonly<Record<string, unknown>>
  if (typeof facts['query'] === 'string' && 'params' in facts) {
    return `failed query: ${facts['query']}\n${placesIn(error)}`
  }
  if ('severity' in facts) {
    const named = FACTS_OF_DATABASE_ERROR.filter((name) => typeof facts[name] === 'string')
    const list = named.map((name) => `${name}=${String(facts[name])}`).join(' ')
    return `database error: ${list}\n${placesIn(error)}`
  }
  return error.stack ?? `${error.name}: ${error.message}`
}

/** The stack without its first lines, which repeat the message. */
function placesIn(error: Error): string {
  const lines = (error.stack ?? '').split('\n')
  return lines.filter((line) => /^\s+at /.test(line)).join('\n')
}
