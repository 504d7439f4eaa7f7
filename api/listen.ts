import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'

/** Requests that are under way get so long to end before their connections are cut. */
const DRAIN_MILLISECONDS_MAX = 10_000

/** The port is somebody else's. */
export class PortTaken extends Error {
  override readonly name = 'PortTaken'
}

export interface Listening {
  readonly address: string
  /** Takes no new request, lets those under way end, and comes back when they have. */
  readonly drain: () => Promise<void>
}

/** Serves an app on a port of this machine. */
export async function listen(
  app: { fetch: (request: Request) => Response | Promise<Response> },
  at: { host: string; port: number },
): Promise<Listening> {
  const server = createAdaptorServer({ fetch: (request) => app.fetch(request) }) as Server
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause: NodeJS.ErrnoException) =>
      reject(cause.code === 'EADDRINUSE' ? portTaken(at, cause) : cause),
    )
    server.listen(at.port, at.host, resolve)
  })
  const { port } = server.address() as AddressInfo
  const host = at.host.includes(':') ? `[${at.host}]` : at.host
  return { address: `http://${host}:${String(port)}`, drain: () => drain(server) }
}

function portTaken({ port }: { port: number }, cause: Error): PortTaken {
  return new PortTaken(
    `Port ${String(port)} is taken by another program. Stop that one, or choose another port: PORT=${String(port + 1)}.`,
    { cause },
  )
}

function drain(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const cut = setTimeout(() => server.closeAllConnections(), DRAIN_MILLISECONDS_MAX)
    server.close(() => {
      clearTimeout(cut)
      resolve()
    })
    server.closeIdleConnections()
  })
}
