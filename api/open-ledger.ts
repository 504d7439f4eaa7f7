import { connect, type Database } from '../db/connection.ts'
import { openEmbedded } from '../db/embedded.ts'
import { migrate } from '../db/migrate.ts'

/** The ledger, ready to be written, and the way to leave it. */
export interface OpenLedger {
  readonly db: Database
  readonly close: () => Promise<void>
}

/**
 * Opens the ledger: in the database that was named, or in our own server in a folder; brought to the
 * schema that this program knows.
 */
export async function openLedger(place: {
  readonly databaseUrl: string | undefined
  readonly dataFolder: string
  readonly say: (line: string) => void
}): Promise<OpenLedger> {
  const { databaseUrl, dataFolder, say } = place
  if (databaseUrl !== undefined) return openAt(databaseUrl)
  const server = await openEmbedded({ dataFolder, log: say })
  try {
    const ledger = await openAt(server.url)
    return {
      db: ledger.db,
      close: async () => {
        await ledger.close()
        await server.stop()
      },
    }
  } catch (error) {
    await server.stop()
    throw error
  }
}

async function openAt(url: string): Promise<OpenLedger> {
  await migrate(url)
  return connect(url)
}
