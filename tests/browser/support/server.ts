import { asc, eq } from 'drizzle-orm'
import { newApp } from '../../../api/app.ts'
import { listen, type Listening } from '../../../api/listen.ts'
import { connect } from '../../../db/connection.ts'
import { entry, weighing } from '../../../db/schema.ts'
import { freshDatabase } from '../../support/postgres.ts'
import { countedIds, furnish, openTestStudio, type TestStudio } from '../../support/studio.ts'

interface App {
  readonly fetch: (request: Request) => Response | Promise<Response>
}

/** What stands on an address of this machine, and can go away and come back as a network does. */
export class Server {
  readonly #app: App
  #listening: Listening

  constructor(app: App, listening: Listening) {
    this.#app = app
    this.#listening = listening
  }

  get origin(): string {
    return this.#listening.address
  }

  /** Nobody answers at the address any more. */
  async goAway(): Promise<void> {
    await this.#listening.drain()
  }

  /** It answers again, at the same address. */
  async comeBack(): Promise<void> {
    this.#listening = await listenAt(this.#app, Number(new URL(this.origin).port))
  }
}

/** Serves an app at a free port of this machine. */
export async function serve(app: App): Promise<Server> {
  return new Server(app, await listenAt(app, 0))
}

function listenAt(app: App, port: number): Promise<Listening> {
  return listen(app, { host: '127.0.0.1', port })
}

/** A weigh-in as the ledger has it. */
export interface WeighedIn {
  readonly entryId: string
  readonly grossGrams: number
  readonly happenedAt: Date
}

/** A real server with a small pottery's ledger behind it, and a look into that ledger. */
export interface Pottery {
  readonly server: Server
  readonly origin: string
  /** The weigh-ins in the order in which they were recorded. */
  readonly weighIns: () => Promise<WeighedIn[]>
  /** How many entries there are, of any kind. */
  readonly entries: () => Promise<number>
  readonly close: () => Promise<void>
}

const QUIET = { info: () => undefined, error: () => undefined }

/** The test studio behind its pages, on the real clock; with whatever `fill` does there before. */
export async function openPottery(
  fill?: (studio: TestStudio) => Promise<unknown>,
): Promise<Pottery> {
  const studio = fill === undefined ? await bareStudio() : await openTestStudio()
  await fill?.(studio as TestStudio)
  const connection = connect(studio.url)
  const { db } = connection
  const log = {
    ...QUIET,
    error: (message: string, facts?: object) => console.error(message, facts),
  }
  const app = newApp({ db, now: () => new Date(), newId: countedIds('page'), log })
  const server = await serve(app)
  return {
    server,
    origin: server.origin,
    async weighIns() {
      const rows = await db
        .select({
          entryId: entry.entryId,
          grossGrams: weighing.grossGrams,
          happenedAt: entry.happenedAt,
        })
        .from(weighing)
        .innerJoin(entry, eq(entry.entryId, weighing.entryId))
        .orderBy(asc(entry.entryId))
      return rows.map((row) => ({ ...row, grossGrams: Number(row.grossGrams) }))
    },
    entries: async () => (await db.select().from(entry)).length,
    async close() {
      await server.goAway()
      await connection.close()
      await studio.close()
    },
  }
}

async function bareStudio() {
  const database = await freshDatabase()
  const connection = connect(database.url)
  await furnish(connection, 'mill-lane')
  await connection.close()
  return { url: database.url, close: database.close }
}
