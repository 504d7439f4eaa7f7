import type { ApiDescription } from '../openapi.ts'
import { fieldRows, type Described, type FieldRow } from './fields.ts'
import { Page } from './layout.tsx'

interface Parameter {
  readonly name: string
  readonly in: string
  readonly required?: boolean
  readonly description?: string
  readonly schema?: Described
}

interface Operation {
  readonly operationId?: string
  readonly summary?: string
  readonly description?: string
  readonly tags?: readonly string[]
  readonly parameters?: readonly Parameter[]
  readonly requestBody?: {
    readonly content?: Readonly<Record<string, { schema?: Described; example?: unknown }>>
  }
  readonly responses?: Readonly<Record<string, { readonly description?: string }>>
}

interface Route {
  readonly method: string
  readonly path: string
  readonly operation: Operation
}

/** Every route, grouped, with its fields and an example that can be pasted. */
export function ReferencePage({ description }: { description: ApiDescription }) {
  const routes = routesOf(description)
  const groups = (description.tags ?? [])
    .map(({ name }) => ({ name, routes: routes.filter((one) => groupOf(one) === name) }))
    .filter((group) => group.routes.length > 0)
  return (
    <Page title="API – Slakebook">
      <h1>Every address of the API</h1>
      <p>{description.info.description}</p>
      <p>
        The same as a machine reads it: <a href="/v1/openapi.json">OpenAPI 3.1</a>.
      </p>
      <nav aria-label="Groups">
        {groups.map(({ name }) => (
          <a href={`#${anchorOf(name)}`}>{name}</a>
        ))}
      </nav>
      {groups.map((group) => (
        <section>
          <h2 id={anchorOf(group.name)}>{group.name}</h2>
          {group.routes.map((route) => (
            <RouteSection description={description} route={route} />
          ))}
        </section>
      ))}
    </Page>
  )
}

function RouteSection({ description, route }: { description: ApiDescription; route: Route }) {
  const { method, path, operation } = route
  const body = operation.requestBody?.content?.['application/json']
  const fields = body?.schema === undefined ? [] : fieldRows(description, body.schema)
  const parameters = (operation.parameters ?? []).map((one) => parameterRow(one))
  return (
    <article id={operation.operationId}>
      <h3>
        <code>
          {method} {path}
        </code>
      </h3>
      <p>
        {operation.summary}. {operation.description}
      </p>
      <Fields title="Address and headers" rows={parameters} />
      <Fields title="Body" rows={fields} />
      <p>Answers: {Object.keys(operation.responses ?? {}).join(', ')}.</p>
      <pre tabindex={0}>{curlFor(route)}</pre>
    </article>
  )
}

function Fields({ title, rows }: { title: string; rows: readonly FieldRow[] }) {
  if (rows.length === 0) return <></>
  return (
    <table>
      <caption>{title}</caption>
      <thead>
        <tr>
          <th scope="col">Field</th>
          <th scope="col">What it is</th>
          <th scope="col">Says</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr>
            <td>
              <code>{row.name}</code>
              {row.isRequired ? ' (needed)' : ''}
            </td>
            <td>{row.kind}</td>
            <td>{row.description}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function parameterRow(parameter: Parameter): FieldRow {
  const isHeader = parameter.in === 'header'
  return {
    name: isHeader ? headerName(parameter.name) : parameter.name,
    kind: isHeader ? 'header' : parameter.in,
    isRequired: parameter.required === true,
    description: parameter.description ?? parameter.schema?.description ?? '',
  }
}

function headerName(name: string): string {
  return name.replaceAll(
    /(^|-)([a-z])/g,
    (_, dash: string, letter: string) => dash + letter.toUpperCase(),
  )
}

/** A command that can be pasted into a terminal. */
function curlFor({ method, path, operation }: Route): string {
  const address = `http://127.0.0.1:4180${pathOf(path, operation)}`
  const example = operation.requestBody?.content?.['application/json']?.example
  const verb = method === 'GET' ? '' : ` -X ${method}`
  if (example === undefined) return `curl${verb} '${address}'`
  const body = JSON.stringify(example, null, 2).replaceAll("'", "'\\''")
  return `curl${verb} '${address}' \\\n  -H 'Content-Type: application/json' \\\n  -d '${body}'`
}

/** The path with an example in the place of each id, and with every parameter that it needs. */
function pathOf(path: string, operation: Operation): string {
  const exampleOf = ({ schema }: Parameter) => String(schema?.example ?? '')
  const parameters = operation.parameters ?? []
  const query = parameters
    .filter((one) => one.in === 'query' && one.required === true)
    .map((one) => `${one.name}=${exampleOf(one)}`)
  const filled = path.replaceAll(/\{(\w+)\}/g, (whole, name: string) => {
    const parameter = parameters.find((one) => one.name === name)
    return parameter === undefined ? whole : exampleOf(parameter)
  })
  return query.length === 0 ? filled : `${filled}?${query.join('&')}`
}

function groupOf(route: Route): string | undefined {
  return route.operation.tags?.[0]
}

function anchorOf(name: string): string {
  return name.toLowerCase().replaceAll(' ', '-')
}

function routesOf(description: ApiDescription): Route[] {
  const paths = (description.paths ?? {}) as Readonly<
    Record<string, Readonly<Record<string, Operation>>>
  >
  return Object.entries(paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(([method, operation]) => ({
      method: method.toUpperCase(),
      path,
      operation,
    })),
  )
}
