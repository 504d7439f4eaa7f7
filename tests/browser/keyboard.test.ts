import type { Page } from 'playwright-core'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openPottery, type Pottery } from './support/server.ts'
import { BUCKET } from './support/weighing.ts'

const STEPS_MAX = 60

describeInBrowser('with a keyboard alone', () => {
  let pottery: Pottery
  let phone: Phone
  beforeEach(async () => {
    pottery = await openPottery()
    phone = await openPhone(pottery.origin, { isDesk: true })
  })
  afterEach(async () => {
    const faults = await phone.close()
    await pottery.close()
    expect(faults).toEqual([])
  })

  /** Goes on with Tab until that is in focus, which must show at every step. */
  async function tabTo(page: Page, selector: string): Promise<void> {
    for (let step = 0; step < STEPS_MAX; step += 1) {
      await page.keyboard.press('Tab')
      const { isThere, shows, what } = await page.evaluate((wanted) => {
        const focused = document.activeElement
        // Past the last one the browser itself has the focus for a moment.
        if (focused === null || focused === document.body) {
          return { isThere: false, shows: true, what: 'nothing' }
        }
        // A choice is drawn by what stands beside its hidden button.
        const drawn = [focused, focused.nextElementSibling].filter((one) => one !== null)
        const shows = drawn.some((one) => {
          const { outlineStyle, outlineWidth } = getComputedStyle(one)
          return outlineStyle !== 'none' && Number(outlineWidth.replace('px', '')) >= 2
        })
        return { isThere: focused.matches(wanted), shows, what: focused.outerHTML.slice(0, 120) }
      }, selector)
      expect(shows, `focus shows on ${what}`).toBe(true)
      if (isThere) return
    }
    throw new Error(`Tab never came to ${selector}`)
  }

  test('a bucket is found, weighed in with its state, and taken back', async () => {
    const { page } = phone
    await page.goto('/weigh')
    await tabTo(page, `a[href="${BUCKET}"]`)
    await page.keyboard.press('Enter')
    await page.waitForURL(`**${BUCKET}`)
    await tabTo(page, '[name="gross"]')
    await page.keyboard.type('2.4')
    await tabTo(page, '[data-key="6"]')
    await page.keyboard.press('Enter')
    expect(await page.locator('[name="gross"]').inputValue()).toBe('2.46')
    await tabTo(page, '[name="state"]')
    await page.keyboard.press('ArrowDown')
    await tabTo(page, '.press')
    await page.keyboard.press('Enter')
    await page.waitForURL('**/weigh?did=*')
    expect((await pottery.weighIns()).map(({ grossGrams }) => grossGrams)).toEqual([2460])
    await tabTo(page, '.recorded button')
    await page.keyboard.press('Enter')
    await expect.poll(() => pottery.entries(), { timeout: 20_000 }).toBe(2)
  })
})
