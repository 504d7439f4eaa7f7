import { expect } from 'vitest'
import type { Page } from 'playwright-core'

/** The bucket that stands on the scale in these tests; it weighs 400 g empty. */
export const BUCKET = '/weigh/vessel/bucket-1'

/** Types what the scale shows, on the keys of the page, and presses. */
export async function weighIn(page: Page, kilograms: string): Promise<void> {
  for (const key of kilograms) await page.locator(`[data-key="${key}"]`).first().tap()
  await expect.poll(() => page.locator('[name="gross"]').inputValue()).toBe(kilograms)
  await page.locator('.press').tap()
}

/** Waits until the page says how many wait on the phone; nothing where none does. */
export async function waitingSays(page: Page, words: RegExp): Promise<void> {
  await expect
    .poll(() => page.locator('#kept [role="status"]').textContent(), { timeout: 20_000 })
    .toMatch(words)
}

/** Waits until the pages for dead spots are on the phone. */
export async function isReadyForDeadSpots(page: Page, path: string): Promise<void> {
  const isStored = async (wanted: string) =>
    (await (await caches.open('slakebook-pages')).match(wanted)) !== undefined
  await expect.poll(() => page.evaluate(isStored, path), { timeout: 20_000 }).toBe(true)
}
