import { afterAll, beforeAll, expect, test } from 'vitest'
import { monthOf } from '../../shared/month.ts'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import * as after from './support/day-after.ts'
import * as bench from './support/day-at-the-bench.ts'
import { Day, TOUCHES_AT_MOST, type CommonAct } from './support/day.ts'
import type { Hand } from './support/hand.ts'
import {
  monthAsPrinted,
  monthOnPage,
  stockAsPrinted,
  stockOnPage,
  yieldAsPrinted,
  yieldOnPage,
  type MonthAnswer,
  type StockAnswer,
  type YieldAnswer,
} from './support/printed.ts'
import { openNothing, type Pottery } from './support/server.ts'

/** A day from the first page of an empty ledger to the month's sheet, on a phone, by touch alone. */
describeInBrowser('a day at the wheel', () => {
  let books: Pottery
  let phone: Phone
  let day: Day
  let hand: Hand

  beforeAll(async () => {
    books = await openNothing()
    phone = await openPhone(books.origin)
    day = new Day(phone)
    hand = day.hand
  })

  afterAll(async () => {
    const faults = await phone.close()
    await books.close()
    expect(faults).toEqual([])
  })

  const api = async (path: string): Promise<unknown> =>
    (await fetch(`${books.origin}/v1/reports/${path}`)).json()

  test('the books are begun', () => bench.begin(day))

  test('clay, forms, vessels, a scale and bats are entered', () => bench.enterThings(day))

  test('clay comes in, is opened, and some was here before', () => bench.takeClayIn(day))

  test('mugs are thrown, and thrown again with three taps', () => bench.throwMugs(day))

  test('handles are joined, slops collected, mugs turned, and one is lost', () =>
    bench.joinTurnAndLose(day))

  test('the bucket of turnings is weighed with three taps and its digits', () =>
    bench.weighTurnings(day))

  test('scrap is slaked, poured on plaster, and a slab weighed alone', () =>
    after.slakeAndPour(day))

  test('a slab with its bat tells nothing, and the page says so before and after', () =>
    after.weighSlabWithBat(day))

  test('a slab is lifted, and what is left of the heap is thrown', () => after.liftAndThrow(day))

  test('bags are counted, and a sample is dried', () => after.countAndDry(day))

  test('bisque goes in and comes out, with one lost; glaze, and what came out is graded', () =>
    after.fire(day))

  test('pots are sold by touch, and from a file', () => after.sell(day))

  test('a sale is taken back from the strip', () => after.takeBack(day))

  test('today, the month, the stock and the yield say what the books say', async () => {
    const { page } = hand
    await day.today()
    expect(await hand.read()).toContain('What is here')
    await hand.look('today')
    const month = monthOf(new Date(), 'Europe/London')
    await hand.go('Books')
    await hand.look('books')
    await hand.go(/^This month/)
    await hand.look('month')
    const report = (await api(`month?month=${month}`)) as MonthAnswer
    expect(await monthOnPage(page)).toEqual(monthAsPrinted(report))
    await page.goto('/books/stock')
    await hand.look('stock-at-last')
    expect(await stockOnPage(page)).toEqual(stockAsPrinted((await api('stock')) as StockAnswer))
    await page.goto('/books/yield')
    await hand.look('yield')
    expect(await yieldOnPage(page)).toEqual(yieldAsPrinted((await api('yield')) as YieldAnswer))
  })

  test('a figure of the month leads to the weigh-in behind it', async () => {
    const { page } = hand
    await page.goto(`/books/month/${monthOf(new Date(), 'Europe/London')}`)
    await hand.tap(page.locator('[data-row="unexplained"] a').first())
    await page.waitForURL('**/books/trail/entries?*')
    await hand.look('trail')
    await hand.go(/^Weighed in/)
    await hand.look('trail-to-the-weigh-in')
    expect(await hand.read()).toContain('4.40 kg')
  })

  test('the books are right, and the common acts cost few touches', async () => {
    const found = await books.reconciled()
    expect(found.faults).toEqual([])
    expect(found.entries).toBeGreaterThan(20)
    for (const [act, limit] of Object.entries(TOUCHES_AT_MOST)) {
      const { taps, digits } = day.touches.get(act as CommonAct) ?? {}
      console.log(`${act}: ${String(taps)} taps and ${String(digits)} digits`)
      expect(taps, act).toBeLessThanOrEqual(limit)
    }
  })
})
