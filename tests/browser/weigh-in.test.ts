import { afterEach, beforeEach, expect, test } from 'vitest'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openPottery, type Pottery } from './support/server.ts'
import { BUCKET, weighIn } from './support/weighing.ts'

describeInBrowser('a weigh-in by touch', () => {
  let pottery: Pottery
  let phone: Phone
  beforeEach(async () => {
    pottery = await openPottery()
    phone = await openPhone(pottery.origin)
  })
  afterEach(async () => {
    const faults = await phone.close()
    await pottery.close()
    expect(faults).toEqual([])
  })

  test('shows net and dry at once, as the server then says them, and stands in the ledger', async () => {
    const { page } = phone
    await page.goto('/weigh')
    await page.getByText('bucket-1').first().tap()
    await page.waitForURL(`**${BUCKET}`)
    for (const key of '2.46') await page.locator(`[data-key="${key}"]`).first().tap()
    const figure = (name: string) => page.locator(`[data-${name}]`).textContent()
    expect(await Promise.all(['gross', 'tare', 'net'].map(figure))).toEqual([
      '2.46 kg',
      '400 g',
      '2.06 kg',
    ])
    const dry = await figure('dry')
    expect(dry).toMatch(/^1\.751 kg ± 0\.0\d+$/)
    await page.locator('[data-estimate] dd').first().waitFor({ state: 'attached' })
    expect(await page.locator('[data-estimate] dd').first().textContent()).toBe(dry)
    await phone.screenshot('weigh-in')
    await page.locator('.press').tap()
    await page.waitForURL('**/weigh?did=*')
    expect((await pottery.weighIns()).map((one) => one.grossGrams)).toEqual([2460])
    await phone.screenshot('weighed-in')
  })

  test('takes its tare and its water from what is chosen', async () => {
    const { page } = phone
    await page.goto(BUCKET)
    await page.locator('[name="gross"]').fill('2,46')
    const dry = () => page.locator('[data-dry]').textContent()
    const ofTurnings = await dry()
    await page.locator('[name="state"][value="slops"]').check()
    await expect.poll(dry).not.toBe(ofTurnings)
    expect(await page.locator('[data-taken-as]').innerText()).toMatch(/^Taken as slops: 60 % water/)
    await page.getByText('Another tare, or which scale').tap()
    await page.locator('[name="grossTare"]').fill('0.46')
    await expect.poll(() => page.locator('[data-net]').textContent()).toBe('2.00 kg')
    await page.locator('[name="gross"]').fill('0.4')
    await expect.poll(() => page.locator('[data-net]').textContent()).toBe('–')
  })

  test('what is refused comes back to its fields at once, and goes when it is put right', async () => {
    const { page } = phone
    phone.expectFaults(/422|409/)
    await page.goto(BUCKET)
    await weighIn(page, '0.2')
    await page.locator('#faults').waitFor()
    expect(await page.locator('#faults').innerText()).toContain('full vessel weighs more')
    expect(await page.locator('[name="gross"]').inputValue()).toBe('0.2')
    await phone.screenshot('refused-at-once')
    await page.locator('[name="gross"]').fill('2.2')
    await page.locator('.press').tap()
    await page.waitForURL('**/weigh?did=*')
    expect(await page.locator('#kept').isVisible()).toBe(false)
    expect((await pottery.weighIns()).map((one) => one.grossGrams)).toEqual([2200])
  })

  test('going back to what is recorded says so before another press', async () => {
    const { page } = phone
    await page.goto(BUCKET)
    await weighIn(page, '2.2')
    await page.waitForURL('**/weigh?did=*')
    await page.goBack()
    const status = page.locator('#pressed-already')
    await status.waitFor()
    expect(await status.innerText()).toBe('This is recorded already. Press again only for another.')
    expect(await page.locator('[name="gross"]').inputValue()).toBe('')
    await phone.screenshot('pressed-already')
    await weighIn(page, '2.3')
    await page.waitForURL('**/weigh?did=*')
    expect((await pottery.weighIns()).map((one) => one.grossGrams)).toEqual([2200, 2300])
    await page.goto(BUCKET)
    expect(await status.count()).toBe(0)
  })

  test('says that a caution was seen only where one was shown', async () => {
    const { page } = phone
    const told: (string | null)[] = []
    page.on('request', (request) => {
      const isPress = request.headers()['accept'] === 'application/json'
      if (isPress) told.push(new URLSearchParams(request.postData() ?? '').get('seen'))
    })
    await page.goto(BUCKET)
    await weighIn(page, '2.2')
    await page.waitForURL('**/weigh?did=*')
    await page.goto(BUCKET)
    // As the cautions of a dusty weigh-in stand there.
    await page
      .locator('[data-dust]')
      .evaluate((dust) => dust.append(document.createElement('section')))
    await page.locator('[name="gross"]').evaluate((field: HTMLInputElement) => {
      field.value = '2.3'
    })
    await page.locator('.press').tap()
    await page.waitForURL('**/weigh?did=*')
    expect(told).toEqual([null, 'yes'])
  })

  test('the phone may be an hour wrong', async () => {
    const { page } = phone
    await page.clock.setFixedTime(new Date(Date.now() + 3_600_000))
    await page.goto(BUCKET)
    await page.waitForTimeout(500)
    await weighIn(page, '2.2')
    await page.waitForURL('**/weigh?did=*')
    const [one] = await pottery.weighIns()
    expect(Math.abs(Date.now() - (one?.happenedAt.getTime() ?? 0))).toBeLessThan(10_000)
  })
})
