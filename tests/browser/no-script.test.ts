import { afterEach, beforeEach, expect, test } from 'vitest'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openPottery, type Pottery } from './support/server.ts'
import { BUCKET } from './support/weighing.ts'

describeInBrowser('without a script', () => {
  let pottery: Pottery
  let phone: Phone
  beforeEach(async () => {
    pottery = await openPottery()
    phone = await openPhone(pottery.origin, { javaScriptEnabled: false })
  })
  afterEach(async () => {
    const faults = await phone.close()
    await pottery.close()
    expect(faults).toEqual([])
  })

  test('a weigh-in is entered and taken back', async () => {
    const { page } = phone
    await page.goto('/weigh')
    await page.locator(`a[href="${BUCKET}"]`).tap()
    await page.waitForURL(`**${BUCKET}`)
    expect(await page.locator('.keypad').isVisible()).toBe(false)
    expect(await page.locator('#kept').isVisible()).toBe(false)
    await page.locator('[name="gross"]').fill('2.46')
    await page.locator('.press').tap()
    await page.waitForURL('**/weigh?did=*')
    expect((await pottery.weighIns()).map(({ grossGrams }) => grossGrams)).toEqual([2460])
    const before = await pottery.entries()
    await page.getByRole('button', { name: 'Take it back' }).tap()
    await expect.poll(() => pottery.entries(), { timeout: 20_000 }).toBe(before + 1)
    await expect.poll(() => page.locator('.recorded').innerText()).toMatch(/took back|aken back/)
  })

  test('what is refused comes back with all that was typed and with the words at its field', async () => {
    const { page } = phone
    phone.expectFaults(/status of 4\d\d/)
    await page.goto(BUCKET)
    await page.locator('[name="gross"]').fill('0.2')
    await page.locator('.press').tap()
    await page.locator('#faults').waitFor()
    expect(await page.locator('[name="gross"]').inputValue()).toBe('0.2')
    expect(await page.locator('#gross-fault').innerText()).toContain('full vessel weighs more')
    expect(await pottery.weighIns()).toEqual([])
  })
})
