import { expect } from 'vitest'
import type { Locator, Page } from 'playwright-core'
import type { Phone } from './browser.ts'

/** How often a thumb came down: on whatever is not a digit, and on digits. */
export interface Touches {
  readonly taps: number
  readonly digits: number
}

/** A hand with one clean knuckle: it only taps, and counts how often. */
export class Hand {
  readonly #phone: Phone
  #taps = 0
  #digits = 0
  #pictures = 0

  constructor(phone: Phone) {
    this.#phone = phone
  }

  get page(): Page {
    return this.#phone.page
  }

  /** How often it tapped while it did something. */
  async counted(does: () => Promise<void>): Promise<Touches> {
    const before = { taps: this.#taps, digits: this.#digits }
    await does()
    return { taps: this.#taps - before.taps, digits: this.#digits - before.digits }
  }

  /** One tap. */
  async tap(target: Locator): Promise<void> {
    this.#taps += 1
    await target.tap()
  }

  /** A link or a button that leads on, and the page that comes. */
  async go(name: string | RegExp, role: 'link' | 'button' = 'link'): Promise<void> {
    const target = this.page.getByRole(role, { name }).first()
    await this.#leadsOn(() => this.tap(target))
  }

  /** One of the choices of a field, by what it is called on the page or by its value. */
  async choose(field: string, choice: string | RegExp): Promise<void> {
    const all = this.page.locator(`[name="${field}"]`)
    const page = this.page
    const named =
      typeof choice === 'string'
        ? all.and(page.locator(`[value="${choice}"]`))
        : all.and(
            page
              .getByRole('radio', { name: choice })
              .or(page.getByRole('checkbox', { name: choice })),
          )
    // The mark of what is chosen becomes part of its name, so it is found again by its value.
    const value = await named.first().getAttribute('value')
    await this.tap(named.first())
    expect(await all.and(page.locator(`[value="${String(value)}"]`)).isChecked()).toBe(true)
  }

  /** A list that the phone opens by itself. */
  async pick(field: string, label: string | RegExp): Promise<void> {
    const select = this.page.locator(`[name="${field}"]`)
    const labels = await select.locator('option').allInnerTexts()
    const found = labels.find(
      (one) => one === label || (label instanceof RegExp && label.test(one)),
    )
    this.#taps += 2
    await select.selectOption({ label: found ?? String(label) })
  }

  /** Digits, on the keys of the page where it has some, otherwise on the phone's own. */
  async digits(field: string, typed: string): Promise<void> {
    const input = this.page.locator(`[name="${field}"]`).first()
    const keypad = this.page.locator('.keypad:visible')
    const hasKeys = (await input.getAttribute('data-keypad')) !== null && (await keypad.count()) > 0
    if (hasKeys) {
      for (const key of typed) await keypad.locator(`[data-key="${key}"]`).tap()
    } else {
      await this.tap(input)
      await input.fill('')
      await input.pressSequentially(typed)
    }
    this.#digits += typed.length
    expect(await input.inputValue()).toBe(typed)
  }

  /** Words, on the phone's keyboard. */
  async words(field: string, typed: string): Promise<void> {
    const input = this.page.locator(`[name="${field}"]`).first()
    await this.tap(input)
    await input.fill(typed)
  }

  /** One more, or one less. */
  async step(label: string, by: number): Promise<void> {
    const name = `${by > 0 ? 'One more' : 'One less'}: ${label}`
    const button = this.page.getByRole('button', { name })
    for (let times = 0; times < Math.abs(by); times += 1) await this.tap(button)
  }

  /** What is folded away. */
  async unfold(summary: string | RegExp): Promise<void> {
    await this.tap(this.page.locator('summary', { hasText: summary }).first())
  }

  /** The big button, and what the page then says was recorded. */
  async press(): Promise<string> {
    await this.#leadsOn(() => this.tap(this.page.locator('.press').first()))
    return this.recorded()
  }

  /** The strip that says what was recorded. */
  async recorded(): Promise<string> {
    return squeezed(await this.page.locator('.recorded p').first().innerText())
  }

  /** What stands on the page. */
  async read(): Promise<string> {
    return squeezed(await this.page.locator('main').innerText())
  }

  /** What a press would record, as the server says it while one types; and the caution beside it. */
  async wouldBe(): Promise<string> {
    const output = this.page.locator('output[data-estimate]')
    await expect.poll(async () => (await output.textContent())?.trim()).not.toBe('')
    return squeezed((await output.textContent()) ?? '')
  }

  /** A picture of the step, in the order of the day. */
  async look(name: string): Promise<void> {
    this.#pictures += 1
    await this.#phone.screenshot(`day-${String(this.#pictures).padStart(2, '0')}-${name}`)
  }

  async #leadsOn(does: () => Promise<void>): Promise<void> {
    const { page } = this
    const before = page.url()
    await page.evaluate(() => {
      document.documentElement.dataset['wasHere'] = ''
    })
    await does()
    const isNew = async () =>
      await page
        .evaluate(() => document.documentElement.dataset['wasHere'] === undefined)
        .catch(() => false)
    await expect
      .poll(isNew, { message: `nothing led on from ${before}`, timeout: 20_000 })
      .toBe(true)
    await page.waitForLoadState()
  }
}

function squeezed(words: string): string {
  return words.replaceAll(/\s+/g, ' ').trim()
}
