import type { LogFacts, Logger } from './services.ts'

/** Writes one line where the program runs. */
export type Say = (line: string) => void

/** A log of one line an event: its name, then its facts. */
export function lineLogger(say: Say, warn: Say): Logger {
  return {
    info: (message, facts) => say(lineOf(message, facts)),
    error: (message, facts) => warn(lineOf(message, facts)),
  }
}

/** A log that keeps quiet about what goes well. */
export function quietLogger(warn: Say): Logger {
  return { ...lineLogger(() => undefined, warn) }
}

function lineOf(message: string, facts: LogFacts = {}): string {
  const { cause, ...others } = facts
  const named = Object.entries(others)
    .filter(([, fact]) => fact !== undefined)
    .map(([name, fact]) => `${name}=${String(fact)}`)
  const line = [message, ...named].join(' ')
  return cause === undefined ? line : `${line}\n${String(cause)}`
}
