import type { Server as HttpServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'
import { asc, eq } from 'drizzle-orm'
import { newApp } from '../../../api/app.ts'
import { connect, type Connection } from '../../../db/connection.ts'
import { loadDemo } from '../../../db/demo.ts'
import { reconcile, type Reconciliation } from '../../../db/reports/reconcile.ts'
import { entry, weighing } from '../../../db/schema.ts'
import { freshDatabase } from '../../support/postgres.ts'
import { countedIds, furnish } from '../../support/studio.ts'

interface App {
  readonly fetch: (request: Request) => Response | Promise<Response>
}

/** What stands on an address of this machine, and can go away and come back as a network does. */
export class Server {
  readonly origin: string
  readonly #app: Busy
  #http: HttpServer

  constructor(app: Busy, http: HttpServer) {
    this.#app = app
    this.#http = http
    this.origin = `http://127.0.0.1:${String((http.address() as AddressInfo).port)}`
  }

  /** Nobody answers at the address any more, and what was under way is cut. */
  async goAway(): Promise<void> {
    const isClosed = new Promise((resolve) => this.#http.close(resolve))
    this.#http.closeAllConnections()
    await isClosed
    await this.#app.isIdle()
  }

  /** It answers again, at the same address. */
  async comeBack(): Promise<void> {
    this.#http = await listenAt(this.#app, Number(new URL(this.origin).port))
  }
}

/** Serves an app at a free port of this machine. */
export async function serve(app: App): Promise<Server> {
  const busy = new Busy(app)
  return new Server(busy, await listenAt(busy, 0))
}

/** An app of which it is known whether it still works on something, also when nobody waits for it. */
class Busy implements App {
  readonly #app: App
  readonly #underWay = new Set<Promise<Response>>()

  constructor(app: App) {
    this.#app = app
  }

  async fetch(request: Request): Promise<Response> {
    const answer = Promise.resolve(this.#app.fetch(request))
    this.#underWay.add(answer)
    try {
      return await answer
    } finally {
      this.#underWay.delete(answer)
    }
  }

  async isIdle(): Promise<void> {
    await Promise.allSettled([...this.#underWay])
  }
}

async function listenAt(app: App, port: number): Promise<HttpServer> {
  const http = createAdaptorServer({ fetch: (request) => app.fetch(request) }) as HttpServer
  await new Promise<void>((resolve, reject) => {
    http.once('error', reject)
    http.listen(port, '127.0.0.1', resolve)
  })
  return http
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
  /** The patterns of addresses that are read, as the program's router has them. */
  readonly routes: readonly string[]
  /** The weigh-ins in the order in which they were recorded. */
  readonly weighIns: () => Promise<WeighedIn[]>
  /** How many entries there are, of any kind. */
  readonly entries: () => Promise<number>
  /** The second opinion on the whole ledger, from its lines alone. */
  readonly reconciled: () => Promise<Reconciliation>
  readonly close: () => Promise<void>
}

const SILENT = { info: () => undefined }

/** The small test studio, empty, behind its pages and on the real clock. */
export async function openPottery(): Promise<Pottery> {
  return potteryOn((connection) => furnish(connection, 'mill-lane'))
}

/** A ledger with nothing in it, as the program has when it is started the first time. */
export async function openNothing(): Promise<Pottery> {
  return potteryOn(() => Promise.resolve())
}

/** Some months of the made-up studio, up to today. */
export async function openDemo(): Promise<Pottery> {
  return potteryOn(({ db }) => loadDemo({ db, now, newId: countedIds('demo') }))
}

const now = () => new Date()

async function potteryOn(fill: (connection: Connection) => Promise<unknown>): Promise<Pottery> {
  const database = await freshDatabase()
  const connection = connect(database.url)
  await fill(connection)
  const { db } = connection
  const log = {
    ...SILENT,
    error: (message: string, facts?: object) => console.error(message, facts),
  }
  const app = newApp({ db, now, newId: countedIds('page'), log })
  const server = await serve(app)
  return {
    server,
    origin: server.origin,
    routes: app.routes.filter(({ method }) => method === 'GET').map(({ path }) => path),
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
    reconciled: () => reconcile(db),
    async close() {
      await server.goAway()
      await connection.close()
      await database.close()
    },
  }
}
