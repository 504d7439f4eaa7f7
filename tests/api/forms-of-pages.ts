import type { Answered, Pottery } from './pottery.ts'

/** What a form sends, by the names of its fields; bytes go as a file. */
export type Fields = Readonly<
  Record<string, string | readonly string[] | Uint8Array<ArrayBuffer> | undefined>
>

/** Sends a form as a browser does that sends files. */
export async function sendForm(pottery: Pottery, path: string, fields: Fields): Promise<Answered> {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) {
    if (value === undefined) continue
    if (value instanceof Uint8Array) form.append(name, new File([value], 'sales.csv'))
    else for (const one of typeof value === 'string' ? [value] : value) form.append(name, one)
  }
  const request = new Request('http://localhost/', { method: 'POST', body: form })
  const contentType = request.headers.get('content-type') ?? ''
  return pottery.ask('POST', path, {
    studio: null,
    raw: new Uint8Array(await request.arrayBuffer()),
    headers: { 'Content-Type': contentType, Host: 'localhost', Origin: 'http://localhost' },
  })
}

/** The fields of the last form of a page as they stand: what a browser would send. */
export function carriedFields(html: string): Record<string, string | string[]> {
  const form = /<form[^>]*class="sales-import"[\s\S]*?<\/form>/.exec(html)?.[0] ?? ''
  const found: [string, string][] = [
    ...inputsIn(form),
    ...[...form.matchAll(/<select[^>]*name="([^"]*)"[^>]*>([\s\S]*?)<\/select>/g)].map(
      ([, name = '', options = '']): [string, string] => [name, chosenOf(options)],
    ),
    ...[...form.matchAll(/<textarea[^>]*name="([^"]*)"[^>]*>\n?([\s\S]*?)<\/textarea>/g)].map(
      ([, name = '', text = '']): [string, string] => [name, plain(text)],
    ),
  ]
  const fields: Record<string, string | string[]> = {}
  for (const [name, value] of found) {
    const before = fields[name]
    if (before === undefined) fields[name] = value
    else fields[name] = [...(typeof before === 'string' ? [before] : before), value]
  }
  return fields
}

function inputsIn(form: string): [string, string][] {
  return [...form.matchAll(/<input[^>]*>/g)].flatMap(([input]): [string, string][] => {
    const attribute = (name: string) => new RegExp(` ${name}="([^"]*)"`).exec(input)?.[1]
    const name = attribute('name')
    const type = attribute('type') ?? 'text'
    const isOff = (type === 'radio' || type === 'checkbox') && !/ checked/.test(input)
    if (name === undefined || type === 'file' || isOff) return []
    return [[name, plain(attribute('value') ?? '')]]
  })
}

function chosenOf(options: string): string {
  const chosen =
    /<option value="([^"]*)" selected/.exec(options) ?? /<option value="([^"]*)"/.exec(options)
  return plain(chosen?.[1] ?? '')
}

/** Text as it was before it was written into a page. */
export function plain(html: string): string {
  return html
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
}
