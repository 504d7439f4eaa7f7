import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { describeInBrowser, openPhone } from './support/browser.ts'
import { openPottery, type Pottery } from './support/server.ts'
import { BUCKET, isReadyForDeadSpots, waitingSays, weighIn } from './support/weighing.ts'

describeInBrowser('a phone whose battery is empty right after the press', () => {
  let pottery: Pottery
  let storage: string
  beforeEach(async () => {
    pottery = await openPottery()
    storage = mkdtempSync(path.join(tmpdir(), 'slakebook-phone-'))
  })
  afterEach(async () => {
    await pottery.close()
    rmSync(storage, { recursive: true, force: true, maxRetries: 5 })
  })

  /** Ends the processes of the browser that has its storage there, without a word. */
  function cutPower(): number {
    const numbers = readdirSync('/proc').filter((name) => /^\d+$/.test(name))
    const ours = numbers.filter((number) => commandOf(number).includes(storage))
    for (const number of ours) process.kill(Number(number), 'SIGKILL')
    return ours.length
  }

  test.skipIf(process.platform !== 'linux')('has what it said that it keeps', async () => {
    const phone = await openPhone(pottery.origin, { storage })
    await phone.page.goto('/weigh')
    await isReadyForDeadSpots(phone.page, BUCKET)
    await phone.context.setOffline(true)
    await phone.page.goto(BUCKET)
    await weighIn(phone.page, '2.46')
    await waitingSays(phone.page, /^1 weigh-in waits/)
    const isGone = phone.context.waitForEvent('close')
    expect(cutPower()).toBeGreaterThan(0)
    await isGone
    expect(await pottery.weighIns()).toEqual([])

    const again = await openPhone(pottery.origin, { storage })
    await again.page.goto('/weigh')
    await expect
      .poll(async () => (await pottery.weighIns()).map(({ grossGrams }) => grossGrams), {
        timeout: 20_000,
      })
      .toEqual([2460])
    await waitingSays(again.page, /^$/)
    expect(await again.close()).toEqual([])
  })
})

function commandOf(number: string): string {
  try {
    return readFileSync(`/proc/${number}/cmdline`, 'utf8')
  } catch {
    return ''
  }
}
