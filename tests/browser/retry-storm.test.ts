import { afterEach, beforeEach, expect, test } from 'vitest'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openPottery, type Pottery } from './support/server.ts'
import { BUCKET, waitingSays, weighIn } from './support/weighing.ts'

const TIMES = 10

describeInBrowser('a weigh-in that is sent again and again', () => {
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

  async function grossGrams(): Promise<number[]> {
    return (await pottery.weighIns()).map((one) => one.grossGrams)
  }

  function send(key: string): Promise<Response> {
    const body = new URLSearchParams({ key, gross: '2.46', grossUnit: 'kg', state: 'turnings' })
    body.set('bodyId', 'buff')
    body.set('seen', 'yes')
    body.set('happenedAt', '2026-11-20T10:00:00Z')
    const headers = { accept: 'application/json', origin: pottery.origin }
    return fetch(pottery.origin + BUCKET, { method: 'POST', body, headers })
  }

  test('ten times at once and ten times after that is one entry', async () => {
    const atOnce = await Promise.all(Array.from({ length: TIMES }, () => send('storm')))
    const later = []
    for (let time = 0; time < TIMES; time += 1) later.push(await send('storm'))
    const answers = [...atOnce, ...later]
    expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 201))
    expect(new Set(answers.map(({ headers }) => headers.get('slakebook-next'))).size).toBe(1)
    expect(
      answers.filter(({ headers }) => headers.get('idempotency-replayed') === null),
    ).toHaveLength(1)
    expect(await grossGrams()).toEqual([2460])
  })

  test('answers that are lost on the way leave one entry', async () => {
    const { page } = phone
    phone.expectFaults(/ERR_FAILED/)
    await page.goto(BUCKET)
    let lost = 0
    await phone.context.route(`**${BUCKET}**`, async (route) => {
      const isPress = route.request().headers()['accept'] === 'application/json'
      if (!isPress || lost === 3) return route.continue()
      await route.fetch()
      lost += 1
      await route.abort()
    })
    await weighIn(page, '2.46')
    for (const time of [1, 2, 3]) {
      await expect.poll(() => lost).toBeGreaterThanOrEqual(time)
      await waitingSays(page, /^1 weigh-in waits/)
      expect(await grossGrams()).toEqual([2460])
      await page.waitForTimeout(300)
      await page.evaluate(() => dispatchEvent(new Event('online')))
    }
    await waitingSays(page, /^$/)
    expect(await grossGrams()).toEqual([2460])
  })

  test('a network that answers for the server is not believed', async () => {
    const { page } = phone
    await page.goto(BUCKET)
    await phone.context.route(`**${BUCKET}**`, (route) =>
      route.request().method() === 'POST'
        ? route.fulfill({
            status: 200,
            contentType: 'text/html',
            body: '<html>Welcome to our Wi-Fi',
          })
        : route.continue(),
    )
    await weighIn(page, '2.46')
    await waitingSays(page, /^1 weigh-in waits/)
    expect(await grossGrams()).toEqual([])
    await phone.context.unroute(`**${BUCKET}**`)
    await page.evaluate(() => dispatchEvent(new Event('online')))
    await waitingSays(page, /^$/)
    expect(await grossGrams()).toEqual([2460])
  })

  test('two tabs with the same line of weigh-ins send each once', async () => {
    phone.expectFaults(/ERR_INTERNET_DISCONNECTED/)
    const { page } = phone
    await page.goto(BUCKET)
    const other = await phone.newTab()
    await other.goto('/weigh')
    await page.bringToFront()
    await phone.context.setOffline(true)
    for (const [index, shown] of ['2.1', '2.2', '2.3'].entries()) {
      await weighIn(page, shown)
      await waitingSays(other, new RegExp(`^${String(index + 1)} `))
    }
    await phone.context.setOffline(false)
    await waitingSays(page, /^$/)
    await waitingSays(other, /^$/)
    expect(await grossGrams()).toEqual([2100, 2200, 2300])
  })

  test('the same press twice is one weigh-in', async () => {
    const { page } = phone
    await page.goto(BUCKET)
    for (const key of '2.46') await page.locator(`[data-key="${key}"]`).first().tap()
    await page.locator('.press').evaluate((press: HTMLButtonElement) => {
      press.click()
      press.click()
      setTimeout(() => press.click(), 5)
    })
    await page.waitForURL('**/weigh?did=*')
    await page.waitForTimeout(300)
    expect(await grossGrams()).toEqual([2460])
  })

  test('the same press twice in a dead spot is one, and two of the same weight are two', async () => {
    phone.expectFaults(/ERR_INTERNET_DISCONNECTED/)
    const { page } = phone
    await page.goto(BUCKET)
    await phone.context.setOffline(true)
    for (const words of [/^1 weigh-in waits/, /^2 weigh-ins wait/]) {
      for (const key of '2.46') await page.locator(`[data-key="${key}"]`).first().tap()
      await page.locator('.press').evaluate((press: HTMLButtonElement) => {
        press.click()
        for (const later of [5, 50, 150, 300]) setTimeout(() => press.click(), later)
      })
      await page.waitForTimeout(500)
      await waitingSays(page, words)
    }
    await phone.context.setOffline(false)
    await waitingSays(page, /^$/)
    expect(await grossGrams()).toEqual([2460, 2460])
  })

  test('without a storage it goes the ordinary way', async () => {
    const { page } = phone
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('Not in a private window', 'SecurityError')
      }
    })
    await page.goto(BUCKET)
    await weighIn(page, '2.46')
    await page.waitForURL('**/weigh?did=*')
    expect(await grossGrams()).toEqual([2460])
  })

  test('on plain HTTP, without locks and workers, it is kept and sent all the same', async () => {
    const { page } = phone
    phone.expectFaults(/ERR_INTERNET_DISCONNECTED/)
    await page.addInitScript(() => {
      for (const name of ['locks', 'serviceWorker']) {
        Object.defineProperty(Navigator.prototype, name, { get: () => undefined })
      }
      Object.defineProperty(Crypto.prototype, 'randomUUID', { value: undefined })
    })
    await page.goto(BUCKET)
    await phone.context.setOffline(true)
    await weighIn(page, '2.1')
    await waitingSays(page, /^1 weigh-in waits/)
    await weighIn(page, '2.2')
    await waitingSays(page, /^2 weigh-ins wait/)
    await phone.context.setOffline(false)
    await waitingSays(page, /^$/)
    expect(await grossGrams()).toEqual([2100, 2200])
  })
})
