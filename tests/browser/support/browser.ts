import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { chromium, type BrowserContext, type Page } from 'playwright-core'
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
  /** Its storage, of a phone that was there before; the phone's own otherwise. */
  readonly storage?: string
  /** A machine with keys and no touch. */
  readonly isDesk?: boolean
}

/** A browser of its own, as new as a phone out of its box, that remembers what went wrong on it. */
export class Phone {
  readonly context: BrowserContext
  readonly storage: string
  readonly #origin: string
  readonly #faults: string[] = []
  readonly #expected: RegExp[] = []

  constructor(context: BrowserContext, known: { storage: string; origin: string }) {
    this.context = context
    this.storage = known.storage
    this.#origin = known.origin
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

  /** Closes it for good and forgets what it stored. */
  async throwAway(): Promise<void> {
    await this.context.close()
    rmSync(this.storage, { recursive: true, force: true })
  }

  #look(address: string): void {
    const { protocol, origin } = new URL(address)
    if (['data:', 'blob:', 'about:'].includes(protocol) || origin === this.#origin) return
    this.#faults.push(`a request to somebody else: ${address}`)
  }
}

/** Opens a phone at a server. */
export async function openPhone(origin: string, choices: PhoneChoices = {}): Promise<Phone> {
  const { javaScriptEnabled = true, colorScheme = 'light', viewport = PHONE } = choices
  const isPhone = choices.isDesk !== true
  const storage = choices.storage ?? mkdtempSync(path.join(tmpdir(), 'slakebook-phone-'))
  const context = await chromium.launchPersistentContext(storage, {
    executablePath: inject('chromium'),
    args: FLAGS,
    headless: true,
    baseURL: origin,
    viewport,
    hasTouch: isPhone,
    isMobile: isPhone,
    javaScriptEnabled,
    colorScheme,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
  })
  context.setDefaultTimeout(20_000)
  return new Phone(context, { storage, origin })
}
