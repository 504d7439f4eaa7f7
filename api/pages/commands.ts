import type { Described } from './reference-fields.ts'
import { bodyOf, type Operation, type Parameter, type Route } from './operations.ts'

/** Where the program listens if nobody says otherwise. */
const USUAL_HOST = '127.0.0.1:4180'

/** A name or address of a machine, with or without a port: whatever else is in a Host header stays out. */
const HOST = /^([a-z0-9]([a-z0-9.-]{0,251}[a-z0-9])?|\[[0-9a-f:.]{2,45}\])(:\d{1,5})?$/i

/** The host by which a page was asked, if it is one, and otherwise the usual one. */
export function hostFrom(header: string | undefined): string {
  return header !== undefined && HOST.test(header) ? header : USUAL_HOST
}

export interface Sent {
  readonly method: string
  readonly path: string
  readonly body?: unknown
}

/** A command that can be pasted into a terminal. */
export function curlFor(host: string, { method, path, body }: Sent): string {
  const verb = method === 'GET' ? '' : ` -X ${method}`
  const asked = `curl${verb} 'http://${host}${path}'`
  if (body === undefined) return asked
  const text = JSON.stringify(body, null, 2).replaceAll("'", "'\\''")
  return `${asked} \\\n  -H 'Content-Type: application/json' \\\n  -d '${text}'`
}

/** A route as it is sent with its examples. */
export function exampleOf(route: Route): Sent {
  const { method, path, operation } = route
  return { method, path: pathOf(path, operation), body: bodyOf(route)?.example }
}

/** The path with an example in the place of each id, and with every parameter that it needs. */
function pathOf(path: string, operation: Operation): string {
  const example = ({ schema }: { schema?: Described }) => String(schema?.example ?? '')
  const parameters: readonly Parameter[] = operation.parameters ?? []
  const query = parameters
    .filter((one) => one.in === 'query' && one.required === true)
    .map((one) => `${one.name}=${example(one)}`)
  const filled = path.replaceAll(/\{(\w+)\}/g, (whole, name: string) => {
    const parameter = parameters.find((one) => one.name === name)
    return parameter === undefined ? whole : example(parameter)
  })
  return query.length === 0 ? filled : `${filled}?${query.join('&')}`
}
