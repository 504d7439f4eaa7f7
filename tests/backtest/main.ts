import { fork } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { PARTS, section, type Part, type Sizes } from './sections.ts'
import type { Batches } from './true-clay.ts'

/**
 * How often the program's 90 % intervals hold the truth of simulated studios, and how often a planted
 * bad weigh-in is named first. The tables go to standard output as Markdown, progress to standard error.
 *
 *   --studios N   so many studios, and months, of each kind
 *   --quick       a handful, to see that it works
 *   --part NAME   one part alone: readiness, stock, yield or naming; may be said more than once
 *   --batches W   'beside' or 'within' what the handbook's water contents are unsure of
 */
const FULL: Sizes = { readiness: 450, stock: 300, yield: 300, naming: 200 }
const QUICK: Sizes = { readiness: 6, stock: 4, yield: 6, naming: 3 }
/** The two halves of the work, each a process of its own. */
const HALVES: readonly (readonly Part[])[] = [['readiness'], ['stock', 'yield', 'naming']]

const { values } = parseArgs({
  options: {
    studios: { type: 'string' },
    quick: { type: 'boolean', default: false },
    part: { type: 'string', multiple: true },
    batches: { type: 'string', default: 'within' },
  },
})
const batches = batchesFrom(values.batches)
const sizes = sizesFrom(values)
if (values.part === undefined) {
  const told = await Promise.all(HALVES.map(byItself))
  process.stdout.write(told.join('\n'))
} else {
  const parts = PARTS.filter((part) => values.part?.includes(part))
  if (parts.length < values.part.length) throw new Error(`The parts are ${PARTS.join(', ')}.`)
  const told: string[] = []
  for (const part of parts) told.push(await section({ part, sizes, batches }, tell))
  process.stdout.write(told.join('\n'))
}

function tell(line: string): void {
  process.stderr.write(`${line}\n`)
}

/** Some parts in a process of their own: what it wrote. */
function byItself(parts: readonly Part[]): Promise<string> {
  const named = parts.flatMap((part) => ['--part', part])
  const child = fork(fileURLToPath(import.meta.url), [...process.argv.slice(2), ...named], {
    stdio: ['ignore', 'pipe', 'inherit', 'ipc'],
  })
  let said = ''
  child.stdout?.setEncoding('utf8').on('data', (text: string) => (said += text))
  return new Promise((resolve, reject) => {
    child.on('error', reject)
    child.on('close', (status) => {
      if (status === 0) resolve(said)
      else reject(new Error(`The backtest of ${parts.join(', ')} ended with ${String(status)}.`))
    })
  })
}

function sizesFrom(asked: { studios?: string | undefined; quick: boolean }): Sizes {
  if (asked.studios === undefined) return asked.quick ? QUICK : FULL
  const count = Number(asked.studios)
  if (!Number.isSafeInteger(count) || count < 1) throw new Error('--studios takes a whole number.')
  return { readiness: count, stock: count, yield: count, naming: count }
}

function batchesFrom(said: string): Batches {
  if (said === 'beside' || said === 'within') return said
  throw new Error("--batches is 'beside' or 'within'.")
}
