import { count, eq } from 'drizzle-orm'
import { newApp } from '../../api/app.ts'
import type { LogFacts } from '../../api/services.ts'
import { connect, type Database } from '../../db/connection.ts'
import { entry, holding } from '../../db/schema.ts'
import { freshDatabase } from '../support/postgres.ts'
import { countedIds, furnish, kg, TEST_NOW } from '../support/studio.ts'

export interface Answered {
  readonly status: number
  readonly headers: Headers
  readonly contentType: string
  readonly text: string
  readonly body: Body
}

/** What answers hold, as far as the tests look into it. */
export interface Body {
  readonly [field: string]: unknown
  readonly type?: string
  readonly status?: number
  readonly detail?: string
  readonly instance?: string
  readonly errors?: readonly { pointer?: string; parameter?: string; detail: string }[]
  readonly facts?: Readonly<Record<string, string>>
}

export interface Asked {
  readonly body?: unknown
  /** The body as it is, where it is not to be made into JSON. */
  readonly raw?: string | Uint8Array<ArrayBuffer>
  readonly studio?: string | null
  readonly headers?: Readonly<Record<string, string>>
}

/** A pottery behind its API, in a database of its own: 'mill-lane', and a neighbour 'quay-side'. */
export interface Pottery {
  readonly ask: (method: string, path: string, asked?: Asked) => Promise<Answered>
  /** Does an act and insists that it is recorded. */
  readonly does: (act: string, said: unknown, asked?: Asked) => Promise<Body>
  readonly entries: () => Promise<number>
  readonly holdingAt: (place: string) => Promise<string>
  readonly logged: { message: string; facts: LogFacts | undefined }[]
  /** The tables themselves, for what no act brings yet. */
  readonly db: Database
  readonly newId: () => string
  readonly close: () => Promise<void>
}

export const STUDIO = 'mill-lane'
export const NEIGHBOUR = 'quay-side'

export async function openPottery(
  choices: { studios?: readonly string[]; now?: () => Date } = {},
): Promise<Pottery> {
  const { studios = [STUDIO, NEIGHBOUR], now = () => TEST_NOW } = choices
  const database = await freshDatabase()
  const connection = connect(database.url)
  for (const studioId of studios) await furnish(connection, studioId)
  const logged: Pottery['logged'] = []
  const keep = (message: string, facts?: LogFacts) => void logged.push({ message, facts })
  const newId = countedIds()
  const app = newApp({
    db: connection.db,
    now,
    newId,
    log: { info: () => undefined, error: keep },
  })
  const ask = async (method: string, path: string, asked: Asked = {}) =>
    answered(await app.request(path, requestOf(method, asked)))
  return {
    ask,
    logged,
    db: connection.db,
    newId,
    does: async (act, said, asked) => {
      const answer = await ask('POST', `/v1/acts/${act}`, { ...asked, body: said })
      if (answer.status !== 201) throw new Error(`${act}: ${answer.text}`)
      return answer.body
    },
    entries: async () => {
      const [row] = await connection.db.select({ entries: count() }).from(entry)
      return row?.entries ?? 0
    },
    holdingAt: async (place) => {
      const [row] = await connection.db.select().from(holding).where(eq(holding.place, place))
      if (row === undefined) throw new Error(`nothing was ever at ${place}`)
      return row.holdingId
    },
    close: async () => {
      await connection.close()
      await database.close()
    },
  }
}

function requestOf(method: string, { body, raw, studio = STUDIO, headers = {} }: Asked) {
  const text = raw ?? (body === undefined ? undefined : JSON.stringify(body))
  return {
    method,
    headers: {
      ...(studio === null ? {} : { 'Studio-Id': studio }),
      ...(text === undefined ? {} : { 'Content-Type': 'application/json' }),
      ...headers,
    },
    ...(text === undefined ? {} : { body: text }),
  }
}

async function answered(response: Response): Promise<Answered> {
  const text = await response.text()
  const contentType = response.headers.get('content-type') ?? ''
  const isJson = contentType.includes('json')
  return {
    status: response.status,
    headers: response.headers,
    contentType,
    text,
    body: (isJson ? JSON.parse(text) : {}) as Body,
  }
}

/** What a refusal says, in the parts that a program reads. */
export function problemIn({ status, contentType, body }: Answered) {
  return {
    status,
    contentType,
    type: body.type,
    pointers: (body.errors ?? []).map((fault) => fault.pointer ?? fault.parameter),
  }
}

/** What a problem must look like in those parts. */
export function problem(status: number, code: string, pointers: readonly string[] = []) {
  return { status, contentType: 'application/problem+json', type: `/problems/${code}`, pointers }
}

/** Two bags of buff opened on the bench as 'o1', from the delivery 'd1'. */
export async function openClay({ does }: Pottery): Promise<void> {
  await does('receive-delivery', {
    clays: [{ bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }],
    freight: '20.00',
  })
  await does('open-bag', { lotId: 'd1', bags: 2, newLotId: 'o1' })
}

/** Twenty mugs 'r1' thrown of that clay. */
export async function throwMugs({ does }: Pottery): Promise<void> {
  await does('throw', {
    formId: 'mug',
    runId: 'r1',
    from: [{ lotId: 'o1', balls: 20, ballMass: kg('0.400') }],
  })
}
