import { phoneNow } from '../phone-clock.ts'
import { pageNotStored } from './page-not-stored.ts'

/** The copies of pages for dead spots. */

const SHELF = 'slakebook-pages'
const SECOND = 1000
const NETWORK_MILLISECONDS_MAX = 3 * SECOND
const FRESH_MILLISECONDS = 10 * 60 * SECOND
const STORED_MAX = 80
const ASKED_FOR_MAX = 40

/** Answers of a machine in between that does not reach ours. */
const NOT_OURS = [502, 503, 504]

/** From the network; where it does not answer in time, the copy; without one, a page that says so. */
export async function answerPage(event: FetchEvent): Promise<Response> {
  const address = storedAddress(event.request.url)
  const fresh = fetch(event.request).then((answer) => {
    if (NOT_OURS.includes(answer.status)) throw new Error('The network does not reach the server')
    event.waitUntil(storeAnswer(address, { answer: answer.clone(), asked: event.request.url }))
    return answer
  })
  const answer = await Promise.race([fresh.catch(() => undefined), later()])
  if (answer !== undefined) return answer
  const copy = await copyOf(address)
  if (copy === undefined) return fresh.catch(async () => pageNotStored(await storedTitles()))
  event.waitUntil(fresh.catch(() => undefined))
  return copy
}

/** Stores pages before somebody stands in a dead spot, unless there are fresh copies. */
export async function storePages(addresses: readonly string[]): Promise<void> {
  for (const one of addresses.slice(0, ASKED_FOR_MAX)) {
    const address = storedAddress(new URL(one, location.href).href)
    if (!(await isFresh(address))) await fetchAndStore(address)
  }
}

/** A page is the same whatever was recorded just before it was shown. */
function storedAddress(asked: string): string {
  const address = new URL(asked)
  address.searchParams.delete('did')
  address.hash = ''
  return address.href
}

/** A copy does not say what was recorded when it was made, so such a page is asked for once more. */
async function storeAnswer(
  address: string,
  { answer, asked }: { answer: Response; asked: string },
): Promise<void> {
  if (!isPage(answer)) return
  if (new URL(asked).searchParams.has('did')) await fetchAndStore(address)
  else await store(address, answer)
}

async function fetchAndStore(address: string): Promise<void> {
  try {
    const answer = await fetch(address)
    if (isPage(answer)) await store(address, answer)
  } catch {
    // No network: what is stored stays.
  }
}

function isPage(answer: Response): boolean {
  const isHtml = answer.headers.get('content-type')?.startsWith('text/html') === true
  const isSecret = answer.headers.get('cache-control')?.includes('no-store') === true
  return answer.status === 200 && !answer.redirected && isHtml && !isSecret
}

async function store(address: string, answer: Response): Promise<void> {
  const shelf = await caches.open(SHELF)
  await shelf.put(address, answer)
  const stored = await shelf.keys()
  const tooMany = stored.slice(0, Math.max(0, stored.length - STORED_MAX))
  await Promise.all(tooMany.map((one) => shelf.delete(one)))
}

/** The copy, with the moment that it is from where the page's own script finds it. */
async function copyOf(address: string): Promise<Response | undefined> {
  const copy = await (await caches.open(SHELF)).match(address)
  if (copy === undefined) return undefined
  const html = (await copy.text()).replace('<body', `<body data-stored="${String(storedAt(copy))}"`)
  const headers = new Headers(copy.headers)
  for (const ofTheWay of ['content-encoding', 'content-length']) headers.delete(ofTheWay)
  return new Response(html, { headers })
}

async function isFresh(address: string): Promise<boolean> {
  const copy = await (await caches.open(SHELF)).match(address)
  return copy !== undefined && Math.abs(phoneNow() - storedAt(copy)) < FRESH_MILLISECONDS
}

function storedAt(copy: Response): number {
  return Date.parse(copy.headers.get('date') ?? '')
}

async function storedTitles(): Promise<{ address: string; title: string }[]> {
  const shelf = await caches.open(SHELF)
  const stored = await Promise.all(
    (await shelf.keys()).map(async (request) => {
      const html = (await (await shelf.match(request))?.text()) ?? ''
      const title = /<title>([^<]*)<\/title>/.exec(html)?.[1] ?? ''
      const { pathname, search } = new URL(request.url)
      return { address: pathname + search, title: title.replace(/ · Slakebook$/, '') }
    }),
  )
  return stored.filter(({ title }) => title !== '').reverse()
}

function later(): Promise<undefined> {
  return new Promise((resolve) => {
    setTimeout(() => resolve(undefined), NETWORK_MILLISECONDS_MAX)
  })
}
