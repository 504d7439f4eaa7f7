import { mkdirSync } from 'node:fs'
import path from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
} from 'playwright-core'
import { describe, inject } from 'vitest'

/** As `describe`, where there is a browser; what is missing is said by `chromium.ts`. */
export const describeInBrowser = describe.skipIf(inject('chromium') === '')

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // Nobody but this machine can be reached, whatever a page asks for.
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost',
]

/** A phone as it is held. */
const PHONE = { width: 390, height: 844 }
const SCREENSHOTS = fileURLToPath(new URL('../screenshots/', import.meta.url))

export interface PhoneChoices {
  readonly javaScriptEnabled?: boolean
  readonly colorScheme?: 'light' | 'dark'
  readonly viewport?: { width: number; height: number }
  /** The folder of its storage, for a phone that is switched off and on. */
  readonly storage?: string
  /** A machine with keys and no touch. */
  readonly isDesk?: boolean
}

/** A browser of its own, as new as a phone out of its box, that remembers what went wrong on it. */
export class Phone {
  readonly context: BrowserContext
  readonly #origin: string
  readonly #faults: string[] = []
  readonly #expected: RegExp[] = []

  constructor(context: BrowserContext, origin: string) {
    this.context = context
    this.#origin = origin
    context.on('request', (request) => this.#look(request.url()))
    context.on('weberror', (error) => void this.#faults.push(`script: ${String(error.error())}`))
    context.on('console', (message) => {
      if (message.type() === 'error') this.#faults.push(`console: ${message.text()}`)
    })
  }

  /** The tab that is open. */
  get page(): Page {
    const page = this.context.pages().at(-1)
    if (page === undefined) throw new Error('The phone has no tab open')
    return page
  }

  async newTab(): Promise<Page> {
    return this.context.newPage()
  }

  /** Some faults belong to a test: a network that is gone is told on the console. */
  expectFaults(...patterns: readonly RegExp[]): void {
    this.#expected.push(...patterns)
  }

  /** What went wrong and was not expected: scripts, the console, and requests to anybody else. */
  faults(): string[] {
    return this.#faults.filter((fault) => !this.#expected.some((pattern) => pattern.test(fault)))
  }

  /** A picture for whoever looks; its name says of what. */
  async screenshot(name: string, page: Page = this.page): Promise<void> {
    mkdirSync(SCREENSHOTS, { recursive: true })
    await page.screenshot({ path: path.join(SCREENSHOTS, `${name}.png`), fullPage: true })
  }

  /** Leaves the network, or comes back to it. */
  async setOffline(isOffline: boolean): Promise<void> {
    this.expectFaults(/ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED|ERR_FAILED/)
    await this.context.setOffline(isOffline)
  }

  /** Switches it off, and gives what went wrong on it. */
  async close(): Promise<string[]> {
    const isClosed = await isDoneWithin(CLOSE_MILLISECONDS_MAX, this.context.close())
    if (!isClosed) await giveBrowserUp()
    return this.faults()
  }

  #look(address: string): void {
    const { protocol, origin } = new URL(address)
    if (['data:', 'blob:', 'about:'].includes(protocol) || origin === this.#origin) return
    this.#faults.push(`a request to somebody else: ${address}`)
  }
}

/** Opens a phone at a server: out of its box, or one whose storage was there before. */
export async function openPhone(origin: string, choices: PhoneChoices = {}): Promise<Phone> {
  const { javaScriptEnabled = true, colorScheme = 'light', viewport = PHONE } = choices
  const isPhone = choices.isDesk !== true
  const settings: BrowserContextOptions = {
    baseURL: origin,
    viewport,
    hasTouch: isPhone,
    isMobile: isPhone,
    javaScriptEnabled,
    colorScheme,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
  }
  const context =
    choices.storage === undefined
      ? await (await openBrowser()).newContext(settings)
      : await chromium.launchPersistentContext(choices.storage, { ...launching(), ...settings })
  context.setDefaultTimeout(20_000)
  if (context.pages().length === 0) await context.newPage()
  return new Phone(context, origin)
}

function launching() {
  return { executablePath: inject('chromium'), args: FLAGS, headless: true }
}

let browser: Promise<Browser> | undefined

/** A context whose worker was asked for something while the network went may never say that it is closed. */
const CLOSE_MILLISECONDS_MAX = 10_000

async function isDoneWithin(milliseconds: number, work: Promise<unknown>): Promise<boolean> {
  const timer = new AbortController()
  const late = pause(milliseconds, false, { signal: timer.signal }).catch(() => false)
  const isDone = await Promise.race([work.then(() => true), late])
  timer.abort()
  return isDone
}

/** Leaves a browser that no longer answers; the next phone opens another one. */
async function giveBrowserUp(): Promise<void> {
  console.log('A browser did not close a tab in ten seconds; the next test gets another one.')
  const left = await browser
  browser = undefined
  if (left !== undefined) await isDoneWithin(CLOSE_MILLISECONDS_MAX, left.close())
}

/** One browser a file; each phone has a storage of its own in it. */
function openBrowser(): Promise<Browser> {
  browser ??= chromium.launch(launching())
  return browser
}

/** Ends the browser of this file, where it had one. */
export async function closeBrowser(): Promise<void> {
  const left = await browser
  if (left !== undefined) await isDoneWithin(CLOSE_MILLISECONDS_MAX, left.close())
}
