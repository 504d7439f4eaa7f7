import { afterEach, beforeEach, expect, test } from 'vitest'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openPottery, type Pottery } from './support/server.ts'
import { BUCKET, isReadyForDeadSpots, waitingSays, weighIn } from './support/weighing.ts'

const FAULT_OF_OURS = JSON.stringify({
  type: '/problems/program_must_not_fail',
  title: 'The fault is ours',
  detail: 'The program broke one of its own promises.',
})
const SHOWN = ['2.10', '2.35', '2.35', '2.90', '3.05']

describeInBrowser('a dead spot', () => {
  let pottery: Pottery
  let phone: Phone
  beforeEach(async () => {
    pottery = await openPottery()
    phone = await openPhone(pottery.origin)
    // Whoever looks at the list once has the pages of all that stands on it.
    await phone.page.goto('/weigh')
    await isReadyForDeadSpots(phone.page, BUCKET)
    phone.expectFaults(/ERR_CONNECTION_REFUSED|status of 503/)
  })
  afterEach(async () => {
    const faults = await phone.close()
    await pottery.close()
    expect(faults).toEqual([])
  })

  async function leaveNetwork() {
    await phone.setOffline(true)
    await pottery.server.goAway()
  }

  async function comeBack() {
    await pottery.server.comeBack()
    await phone.setOffline(false)
  }

  test('five weigh-ins wait through a closed page and arrive once, in order, at their own times', async () => {
    await leaveNetwork()
    await phone.page.goto(BUCKET)
    expect(await phone.page.locator('.stored').textContent()).toMatch(
      /^As of \d\d:\d\d; no network\.$/,
    )
    const pressedAt: number[] = []
    for (const [index, shown] of SHOWN.entries()) {
      await weighIn(phone.page, shown)
      pressedAt.push(Date.now())
      await waitingSays(
        phone.page,
        index === 0 ? /^1 weigh-in waits/ : new RegExp(`^${String(index + 1)} weigh-ins wait`),
      )
      // The list says that it waits a moment before the field is empty.
      const gross = phone.page.locator('[name="gross"]')
      await expect.poll(() => gross.inputValue()).toBe('')
    }
    await phone.screenshot('five-wait')
    const { page } = phone
    await phone.newTab()
    await page.close()
    await phone.page.goto(BUCKET)
    await waitingSays(phone.page, /^5 weigh-ins wait/)
    expect(await phone.page.locator('#kept li > span').allTextContents()).toEqual(
      SHOWN.map((shown) =>
        expect.stringMatching(new RegExp(`^\\d\\d:\\d\\d bucket-1 ${shown} kg$`)),
      ),
    )
    expect(await pottery.weighIns()).toEqual([])
    await comeBack()
    await expect.poll(async () => (await pottery.weighIns()).length, { timeout: 20_000 }).toBe(5)
    await waitingSays(phone.page, /^$/)
    expect(await phone.page.locator('#kept').isVisible()).toBe(false)
    const weighIns = await pottery.weighIns()
    expect(weighIns.map(({ grossGrams }) => grossGrams)).toEqual(
      SHOWN.map((shown) => Number(shown) * 1000),
    )
    for (const [index, { happenedAt }] of weighIns.entries()) {
      expect(Math.abs(happenedAt.getTime() - (pressedAt[index] ?? 0))).toBeLessThan(3000)
    }
    const times = weighIns.map(({ happenedAt }) => happenedAt.getTime())
    expect(times).toEqual([...times].sort((one, other) => one - other))
    expect(new Set(times).size).toBe(5)
  })

  test('what the books refuse is set aside with what to do, and the rest goes on', async () => {
    await leaveNetwork()
    await phone.page.goto(BUCKET)
    for (const [index, shown] of ['2.10', '0.20', '2.90'].entries()) {
      await weighIn(phone.page, shown)
      await waitingSays(phone.page, new RegExp(`^${String(index + 1)} `))
    }
    phone.expectFaults(/status of 4\d\d/)
    await comeBack()
    const refused = phone.page.locator('#kept .faults')
    await refused.waitFor()
    await waitingSays(phone.page, /^$/)
    expect((await pottery.weighIns()).map(({ grossGrams }) => grossGrams)).toEqual([2100, 2900])
    expect(await refused.innerText()).toMatch(/Not recorded: \d\d:\d\d bucket-1 0\.20 kg/)
    expect(await refused.innerText()).toContain('full vessel weighs more')
    await phone.screenshot('refused')
    // It stays until somebody deals with it, on whatever page.
    await phone.page.goto('/weigh')
    await refused.waitFor()
    await phone.page.getByText('Put it away', { exact: true }).tap()
    await phone.page.getByText('Yes, put it away').tap()
    await expect.poll(() => phone.page.locator('#kept').isVisible()).toBe(false)
    await phone.page.reload()
    expect(await phone.page.locator('#kept').isVisible()).toBe(false)
  })

  test('what was refused is weighed again from what was typed, at its own moment', async () => {
    await leaveNetwork()
    await phone.page.goto(BUCKET)
    const pressedAt = Date.now()
    await weighIn(phone.page, '0.20')
    await waitingSays(phone.page, /^1 /)
    phone.expectFaults(/status of 4\d\d/)
    await comeBack()
    const refused = phone.page.locator('#kept .faults')
    await refused.waitFor()
    await phone.page.waitForTimeout(3000)
    await phone.page.getByText('Weigh it again').tap()
    await phone.page.waitForURL(`**${BUCKET}?*`)
    const gross = phone.page.locator('[name="gross"]')
    expect(await gross.inputValue()).toBe('0.20')
    await phone.screenshot('weigh-again')
    // Wrong once more: it stays set aside, once.
    await phone.page.locator('.press').tap()
    await phone.page.locator('#faults').waitFor()
    expect(await refused.count()).toBe(1)
    await gross.fill('2.20')
    await phone.page.locator('.press').tap()
    await phone.page.waitForURL('**/weigh?did=*')
    await expect.poll(() => phone.page.locator('#kept').isVisible()).toBe(false)
    const [one, ...others] = await pottery.weighIns()
    expect(others).toEqual([])
    expect(one?.grossGrams).toBe(2200)
    expect(Math.abs((one?.happenedAt.getTime() ?? 0) - pressedAt)).toBeLessThan(3000)
  })

  test('a fault of the program sets one aside, and what was pressed later goes', async () => {
    await leaveNetwork()
    await phone.page.goto(BUCKET)
    for (const [index, shown] of ['2.10', '2.20', '2.30'].entries()) {
      await weighIn(phone.page, shown)
      await waitingSays(phone.page, new RegExp(`^${String(index + 1)} `))
    }
    const answers = (post: string | null) =>
      post?.includes('gross=2.10') === true
        ? { status: 500, contentType: 'application/problem+json', body: FAULT_OF_OURS }
        : { status: 503, contentType: 'application/problem+json', body: FAULT_OF_OURS }
    let isDown = true
    await phone.context.route(`**${BUCKET}**`, (route) => {
      const post = route.request().postData()
      const isTold = post !== null && !post.includes('preview')
      return isTold && (isDown || post.includes('gross=2.10'))
        ? route.fulfill(answers(post))
        : route.continue()
    })
    phone.expectFaults(/status of 50\d/)
    await comeBack()
    const refused = phone.page.locator('#kept .faults')
    await refused.waitFor()
    expect(await refused.innerText()).toContain('The fault is ours')
    expect(await refused.innerText()).toContain('Nothing was recorded.')
    // What is in between and answers for the server is waited for.
    await waitingSays(phone.page, /^2 weigh-ins wait/)
    isDown = false
    await phone.page.evaluate(() => dispatchEvent(new Event('online')))
    await waitingSays(phone.page, /^$/)
    expect((await pottery.weighIns()).map(({ grossGrams }) => grossGrams)).toEqual([2200, 2300])
  })

  test('what waits can be put away, one by one', async () => {
    await leaveNetwork()
    await phone.page.goto(BUCKET)
    for (const [index, shown] of ['2.10', '2.20'].entries()) {
      await weighIn(phone.page, shown)
      await waitingSays(phone.page, new RegExp(`^${String(index + 1)} `))
    }
    await phone.page.getByText('What waits').tap()
    const first = phone.page.locator('#kept li').first()
    await first.getByText('Put it away', { exact: true }).tap()
    await phone.screenshot('put-away')
    await first.getByText('Yes, put it away').tap()
    await waitingSays(phone.page, /^1 weigh-in waits/)
    await comeBack()
    await waitingSays(phone.page, /^$/)
    expect((await pottery.weighIns()).map(({ grossGrams }) => grossGrams)).toEqual([2200])
  })

  test('a page that was never stored says so, and which ones are', async () => {
    await leaveNetwork()
    await phone.page.goto('/weigh/vessel/nowhere')
    expect(await phone.page.locator('h1').textContent()).toBe('No network here')
    await phone.screenshot('not-stored')
    await phone.page.getByRole('link', { name: 'bucket-1' }).tap()
    await phone.page.waitForURL(`**${BUCKET}`)
    expect(await phone.page.locator('h1').textContent()).toBe('bucket-1')
    expect(await phone.page.locator('.keypad').isVisible()).toBe(true)
  })

  test('a stored page shows nothing of what was recorded just before it was stored', async () => {
    await phone.page.goto(BUCKET)
    await weighIn(phone.page, '2.10')
    await phone.page.waitForURL('**/weigh?did=*')
    expect(await phone.page.locator('.recorded').isVisible()).toBe(true)
    await phone.page.waitForTimeout(1000)
    await leaveNetwork()
    await phone.page.goto('/weigh')
    await phone.page.locator('.stored').waitFor()
    expect(await phone.page.locator('.recorded').count()).toBe(0)
    expect(await phone.page.locator('main').innerText()).toContain('weighed')
    await comeBack()
    await phone.page.getByText('show it as it is now').tap()
    await expect.poll(() => phone.page.locator('.stored').count()).toBe(0)
  })

  test('a network that never answers is given up after three seconds', async () => {
    await phone.page.goto(BUCKET)
    await phone.context.route('**/weigh', () => new Promise(() => undefined))
    await pottery.server.goAway()
    const begun = Date.now()
    await phone.page.goto('/weigh')
    expect(Date.now() - begun).toBeLessThan(6000)
    expect(await phone.page.locator('h1').textContent()).toBe('What is on the scale?')
    await pottery.server.comeBack()
  })
})
