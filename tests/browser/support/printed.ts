import type { Page } from 'playwright-core'
export async function monthOnPage(page: Page) {
  return page.url()
}
export async function stockOnPage(page: Page) {
  return page.url()
}
export async function yieldOnPage(page: Page) {
  return page.url()
}
