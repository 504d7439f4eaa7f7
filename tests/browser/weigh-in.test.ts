import { afterEach, beforeEach, expect, test } from 'vitest'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openPottery, type Pottery } from './support/server.ts'

describeInBrowser('a weigh-in by touch', () => {
  let pottery: Pottery
  let phone: Phone
  beforeEach(async () => {
    pottery = await openPottery()
    phone = await openPhone(pottery.origin)
  })
  afterEach(async () => {
    const faults = phone.faults()
    await phone.throwAway()
    await pottery.close()
    expect(faults).toEqual([])
  })

  test('shows net and dry at once and lands in the ledger', async () => {
    const { page } = phone
    await page.goto('/weigh')
    await phone.screenshot('weigh')
    await page.getByText('bucket-1').first().tap()
    await page.waitForURL('**/weigh/vessel/bucket-1')
    for (const key of ['2', '.', '4', '6']) await page.locator(`[data-key="${key}"]`).first().tap()
    await expect.poll(() => page.locator('[data-net]').textContent()).toBe('2.06 kg')
    await page.waitForTimeout(1000)
    await phone.screenshot('weigh-vessel')
    console.log(
      await page.locator('.scale-figures').innerText(),
      await page.locator('[data-estimate]').innerText(),
    )
    await page.locator('.press').tap()
    await page.waitForURL('**did=**')
    await phone.screenshot('weighed')
    expect((await pottery.weighIns()).map((one) => one.grossGrams)).toEqual([2460])
  })
})
