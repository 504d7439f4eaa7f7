import type { ApiDescription } from '../openapi.ts'
import { curlFor, exampleOf } from './commands.ts'
import { fieldRows, namedParts, type FieldRow } from './reference-fields.ts'
import { firstHour } from './first-hour.ts'
import { bodyOf, routesOf, type Parameter, type Route } from './operations.ts'

/** Ids that the program makes: an example can only stand for one. */
const MADE_ID = '0199c1de-0000-7000-8000'

interface Asked {
  readonly description: ApiDescription
  /** By which the page was asked, so that its commands go the same way. */
  readonly host: string
  readonly month: string
}

/** Every route, grouped, with its fields and an example that can be pasted. */
export function ReferencePage({ description, host, month }: Asked) {
  const routes = routesOf(description)
  const groups = (description.tags ?? [])
    .map(({ name }) => ({ name, routes: routes.filter((one) => groupOf(one) === name) }))
    .filter((group) => group.routes.length > 0)
  return (
    <>
      <h1>Every address of the API</h1>
      <p>{description.info.description}</p>
      <p>
        The same as a machine reads it: <a href="/v1/openapi.json">OpenAPI 3.1</a>.
      </p>
      <nav aria-label="Groups">
        <a href="#first-hour">The first hour</a>
        {groups.map(({ name }) => (
          <a href={`#${anchorOf(name)}`}>{name}</a>
        ))}
        <a href="#parts">What bodies are made of</a>
      </nav>
      <FirstHour description={description} host={host} month={month} />
      {groups.map((group) => (
        <section>
          <h2 id={anchorOf(group.name)}>{group.name}</h2>
          {group.routes.map((route) => (
            <RouteSection description={description} host={host} route={route} />
          ))}
        </section>
      ))}
      <Parts description={description} routes={routes} />
    </>
  )
}

function FirstHour({ description, host, month }: Asked) {
  return (
    <section>
      <h2 id="first-hour">The first hour</h2>
      <p>
        In this order, on an empty ledger, each of these is answered with success. All other
        examples on this page use what is entered here.
      </p>
      <ol>
        {firstHour(description, month).map((step) => (
          <li>
            {step.why}
            <pre tabindex={0}>{curlFor(host, step)}</pre>
          </li>
        ))}
      </ol>
    </section>
  )
}

/** What the tables of fields name without telling it each time anew: a reading, a mass, a load. */
function Parts({ description, routes }: Pick<Asked, 'description'> & { routes: readonly Route[] }) {
  const bodies = routes.flatMap((route) => bodyOf(route)?.schema ?? [])
  return (
    <section>
      <h2 id="parts">What bodies are made of</h2>
      {namedParts(description, bodies).map(({ name, schema }) => (
        <article id={`part-${name}`}>
          <h3>
            <code>{name}</code>
          </h3>
          <p>{schema.description}</p>
          <Fields title={name} rows={fieldRows(description, schema)} />
        </article>
      ))}
    </section>
  )
}

function RouteSection({
  description,
  host,
  route,
}: Omit<Asked, 'month'> & { readonly route: Route }) {
  const { method, path, operation } = route
  const body = bodyOf(route)
  const command = curlFor(host, exampleOf(route))
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
      {command.includes(MADE_ID) ? (
        <p>
          The id in this example stands for one that your own ledger made: <code>/v1/holdings</code>{' '}
          and <code>/v1/entries</code> list them.
        </p>
      ) : (
        <></>
      )}
      <pre tabindex={0}>{command}</pre>
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

function groupOf(route: Route): string | undefined {
  return route.operation.tags?.[0]
}

function anchorOf(name: string): string {
  return name.toLowerCase().replaceAll(' ', '-')
}
