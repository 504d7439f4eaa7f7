import { afterAll, beforeAll, expect, test } from 'vitest'

import { monthOf } from '../../shared/month.ts'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { Hand, type Touches } from './support/hand.ts'

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

/** What a common act may cost, from Today on: taps beside the digits, our choice. */
const TOUCHES_AT_MOST = {
  'weigh in turnings': 3,
  'throw the same as last time': 3,
  'turn, with the turnings weighed': 3,
  'weigh a slab': 3,
  sell: 3,
} as const

/** A day from the first page of an empty ledger to the month's sheet, on a phone, by touch alone. */
describeInBrowser('a day at the wheel', () => {
  let books: Pottery
  let phone: Phone
  let hand: Hand
  const touches = new Map<keyof typeof TOUCHES_AT_MOST, Touches>()

  beforeAll(async () => {
    books = await openNothing()
    phone = await openPhone(books.origin)
    hand = new Hand(phone)
  })

  afterAll(async () => {
    const faults = await phone.close()
    await books.close()
    expect(faults).toEqual([])
  })

  const api = async (path: string): Promise<unknown> =>
    (await fetch(`${books.origin}/v1/reports/${path}`)).json()
  const today = () => hand.page.goto('/')
  const counts = async (act: keyof typeof TOUCHES_AT_MOST, does: () => Promise<void>) => {
    await today()
    touches.set(act, await hand.counted(does))
  }

  test('the books are begun', async () => {
    await today()
    await hand.words('name', 'The long shed')
    await hand.pick('country', /Kingdom|Britain/)
    await hand.go('Fill in what is usual there', 'button')
    await hand.look('begin')
    await hand.go('Begin the books', 'button')
    expect(await hand.read()).toContain('Enter a clay')
    await hand.look('what-to-enter-first')
  })

  test('clay, forms, vessels, a scale and bats are entered', async () => {
    const { page } = hand
    const enter = async (kind: string, fill: () => Promise<void>) => {
      await page.goto(`/books/things/${kind}/new`)
      await fill()
      await hand.go('Enter it', 'button')
      expect(await hand.read()).toContain('Entered:')
    }
    await enter('bodies', async () => {
      await hand.words('name', 'Buff stoneware')
      await hand.digits('lossOnIgnitionFraction', '7.5')
    })
    await hand.look('clays')
    for (const [name, ball, price] of [
      ['Mug', '400', '18'],
      ['Plate', '1600', '24'],
    ] as const) {
      await enter('forms', async () => {
        await hand.words('name', name)
        await hand.digits('ballGrams', ball)
        await hand.digits('price', price)
      })
    }
    for (const [name, kind, tare] of [
      ['Turnings, white lid', 'bucket', '400'],
      ['Slops pail', 'bucket', '400'],
      ['Long basin', 'basin', '900'],
      ['Ash board', 'board', '2200'],
    ] as const) {
      await enter('vessels', async () => {
        await hand.words('name', name)
        await hand.choose('kind', kind)
        await hand.digits('tareGrams', tare)
      })
    }
    await hand.look('vessels')
    await enter('scales', async () => {
      await hand.words('name', 'Bench scale')
      await hand.digits('divisionGrams', '10')
      await hand.digits('capacityGrams', '30')
    })
    for (const [name, dry] of [
      ['Window bat', '7.10'],
      ['Door bat', '7.00'],
    ] as const) {
      await enter('bats', async () => {
        await hand.words('name', name)
        await hand.digits('dryGrams', dry)
      })
    }
    await hand.look('bats')
  })

  test('clay comes in, is opened, and some was here before', async () => {
    await today()
    await hand.look('today-at-first')
    await hand.go(/Enter the clay that came in/)
    await hand.digits('bags', '10')
    await hand.digits('bagMass', '12.5')
    await hand.digits('price', '150')
    await hand.digits('freight', '12')
    await hand.look('delivery')
    expect(await hand.press()).toContain('10 bags')
    await hand.look('stock')
    await hand.go('Open bags')
    await hand.step('How many are opened', 1)
    await hand.look('open-bags')
    expect(await hand.press()).toContain('Bags opened')
    await hand.page.goto('/books/opening')
    await hand.go(/A bucket of scrap that is here/)
    await hand.choose('vesselId', /Turnings, white lid/)
    await hand.choose('state', 'air_dry')
    await hand.digits('gross', '3.20')
    await hand.look('was-here')
    expect(await hand.press()).toMatch(/2\.80 kg net, .* dry clay, now in Turnings, white lid/)
    await hand.look('opening')
  })

  test('mugs are thrown, and thrown again with three taps', async () => {
    await today()
    await hand.go('Wheel')
    await hand.go('Throw')
    await hand.go(/^Mug/)
    await hand.digits('balls', '12')
    await hand.look('throw')
    expect(await hand.press()).toMatch(/Thrown: 12 pieces, 4\.80 kg net/)
    await hand.look('thrown')
    await counts('throw the same as last time', async () => {
      await hand.go('Wheel')
      await hand.go(/Mug again/)
      expect(await hand.press()).toMatch(/Thrown: 12 pieces, 4\.80 kg net/)
    })
    await hand.look('thrown-again')
  })

  /** The page of the run that was thrown last. */
  const lastRun = async (form: RegExp) => {
    await hand.page.goto('/wheel')
    await hand.go(form)
  }

  test('handles are joined, slops collected, mugs turned, and one is lost', async () => {
    await lastRun(/^Mug, /)
    await hand.go(/^Join on/)
    await hand.digits('ballMass', '60')
    await hand.look('join')
    expect(await hand.press()).toMatch(/Joined on: 720 g net/)
    await lastRun(/^Mug, /)
    await hand.go(/^Slops/)
    if (!(await hand.page.locator('[name="runIds"]').first().isChecked())) {
      await hand.choose('runIds', /^Mug, /)
    }
    await hand.choose('vesselId', /Slops pail/)
    await hand.digits('amount', '0.90')
    await hand.look('slops')
    expect(await hand.press()).toMatch(/900 g net, .* into Slops pail/)
    // The first turnings of a studio are told where they go; the next ones go there by themselves.
    await lastRun(/^Mug, /)
    await hand.go(/^Turn/)
    await hand.choose('vesselId', /Turnings, white lid/)
    await hand.digits('amount', '0.40')
    expect(await hand.press()).toMatch(/Turned: 400 g net, .* into Turnings, white lid/)
    await counts('turn, with the turnings weighed', async () => {
      await hand.go(/^Mug, .* not turned/)
      await hand.go(/^Turn/)
      await hand.digits('amount', '0.42')
      await hand.look('turn')
      expect(await hand.press()).toMatch(/Turned: 420 g net, .* into Turnings, white lid/)
    })
    await hand.look('turned')
    await lastRun(/^Mug, /)
    await hand.go(/^Lost some/)
    await hand.choose('stage', 'leather_hard')
    await hand.words('cause', 'handle came off')
    await hand.choose('vesselId', /Turnings, white lid/)
    await hand.look('lose')
    expect(await hand.press()).toMatch(/Lost: 1 piece \(handle came off\)/)
  })

  test('the bucket of turnings is weighed with three taps and its digits', async () => {
    await counts('weigh in turnings', async () => {
      await hand.go(/^Weigh in/)
      await hand.go(/^Turnings, white lid/)
      await hand.digits('gross', '4.40')
      expect(await hand.read()).toContain('Net 4.00 kg')
      await hand.look('weigh-in')
      expect(await hand.press()).toMatch(/Weighed in: 4\.00 kg net/)
    })
    await hand.look('weighed-in')
  })

  test('scrap is slaked, poured on plaster, and a slab weighed alone', async () => {
    await hand.go('Plaster')
    await hand.go('Slake scrap')
    await hand.choose('fromVesselId', /Turnings, white lid/)
    await hand.digits('water', '3.2')
    await hand.look('slake')
    expect(await hand.press()).toMatch(/Slaked: .* from Turnings, white lid into Long basin/)
    await hand.go('Pour on plaster')
    for (const bat of ['window-bat', 'door-bat']) {
      const choice = hand.page.locator(`[name="bats"][value="${bat}"]`)
      if (!(await choice.isChecked())) await hand.choose('bats', bat)
    }
    await hand.digits('bats-window-bat', '3.00')
    await hand.digits('bats-door-bat', '2.50')
    await hand.look('pour')
    expect(await hand.press()).toMatch(/Poured on plaster: 5\.50 kg net/)
    await hand.look('plaster')
    await counts('weigh a slab', async () => {
      await hand.go(/^Weigh in/)
      await hand.go(/Window bat/)
      await hand.digits('gross', '2.30')
      await hand.look('slab-alone')
      expect(await hand.press()).toMatch(
        /Slab weighed: 2\.30 kg net, .* dry clay, 700 g of water less/,
      )
    })
  })

  test('a slab with its bat tells nothing, and the page says so before and after', async () => {
    await hand.go(/^Weigh/)
    await hand.go(/Door bat/)
    await hand.choose('withPlaster', 'yes')
    await hand.digits('gross', '9.40')
    expect(await hand.read()).toContain('tells nothing of its water')
    expect(await hand.page.locator('[data-dry]').textContent()).toBe('–')
    await hand.look('slab-with-bat')
    expect(await hand.press()).toContain('Slab weighed: 9.40 kg with its bat')
    expect(await hand.read()).toMatch(/Weighed with its bat\. 100 g went into the air/)
    await hand.look('slab-with-bat-said')
  })

  test('a slab is lifted, and what is left of the heap is thrown', async () => {
    await hand.page.goto('/plaster')
    await hand.go('Window bat')
    await hand.look('slab')
    await hand.go(/^Lift/)
    await hand.digits('gross', '2.20')
    await hand.look('lift')
    expect(await hand.press()).toMatch(
      /Slab lifted: 2\.20 kg net, .* into reclaimed from Window bat/,
    )
    await hand.page.goto('/wheel/throw/plate')
    await hand.choose('lotId', /^reclaimed from Window bat/)
    await hand.choose('how', 'left')
    await hand.digits('pieces', '1')
    await hand.look('throw-what-is-left')
    expect(await hand.press()).toMatch(/Thrown: 1 piece, .* from reclaimed from Window bat/)
  })

  test('bags are counted, and a sample is dried', async () => {
    await hand.page.goto('/books/count')
    await hand.look('count')
    await hand.go(/8 bags/)
    await hand.digits('pieces', '8')
    await hand.look('count-bags')
    await hand.press()
    await hand.page.goto('/books/dry-test')
    await hand.tap(hand.page.locator('[name="of"]').nth(1))
    await hand.choose('state', 'as_delivered')
    await hand.digits('tin', '20')
    await hand.digits('wet', '140')
    await hand.digits('dry', '115.2')
    expect(await hand.wouldBe()).not.toBe('')
    await hand.look('dry-test')
    expect(await hand.press()).toContain('Sample dried')
    await hand.look('dried')
  })

  test('bisque goes in and comes out, with one lost; glaze, and what came out is graded', async () => {
    await hand.go('Kiln')
    await hand.look('kiln')
    await hand.go('Load for bisque')
    await hand.tap(hand.page.getByRole('checkbox', { name: 'All 11' }))
    await hand.tap(hand.page.getByRole('checkbox', { name: 'All 12' }))
    await hand.look('load-bisque')
    await hand.go('In the kiln', 'button')
    await hand.look('in-the-kiln')
    await hand.go('Unload')
    await hand.tap(hand.page.getByRole('button', { name: /^One less/ }).first())
    await hand.unfold('Why the others broke')
    await hand.words(
      (await hand.page.locator('[name^="cause-"]').first().getAttribute('name')) ?? '',
      'cracked rim',
    )
    await hand.look('unload-bisque')
    expect(await hand.press()).toMatch(/Bisque fired: 23 pieces, .*, now bisque/)
    expect(await hand.read()).toMatch(/Waiting for the glaze fire .*1[01] Mug, bisque/)
    await hand.look('out-of-bisque')
    await hand.go('Load for the glaze fire')
    await hand.tap(hand.page.getByRole('checkbox', { name: /^All 1[0-2]/ }).first())
    await hand.go('In the kiln', 'button')
    await hand.go('Unload')
    await hand.look('unload-glaze')
    expect(await hand.press()).toContain('Glaze fired:')
    await hand.go(/^Mug, .*out of the glaze fire/)
    await hand.step('Seconds', 1)
    await hand.step('Wasters', 1)
    await hand.look('grade')
    expect(await hand.press()).toMatch(/Graded: \d+ pieces, 1 lost/)
    await hand.look('graded')
  })

  test('pots are sold by touch, and from a file', async () => {
    // Where is asked once; the next sale offers it.
    await hand.page.goto('/books/sell')
    await hand.go(/^Mug, firsts/)
    await hand.words('channel', 'the shop')
    expect(await hand.press()).toContain('Sold: 1 for £18.00 each (the shop)')
    await counts('sell', async () => {
      await hand.go(/^Sold/)
      await hand.go(/^Mug, firsts/)
      await hand.look('sell')
      expect(await hand.press()).toContain('Sold: 1 for £18.00 each (the shop)')
    })
    await hand.look('sold')
    await hand.page.goto('/books/sales/import')
    const day = new Date().toISOString().slice(0, 'yyyy-mm-dd'.length)
    const rows = [`${day},A-1,Mug,2,18.00`, `${day},A-2,Mug,1,17.00`]
    await hand.words('pasted', ['Date,Order,Item,Qty,Price', ...rows].join('\n'))
    await hand.look('import-file')
    await hand.go('Look at it', 'button')
    await hand.words('where', 'by post')
    await hand.look('import-columns')
    await hand.go('Go on to the pieces', 'button')
    await hand.look('import-pieces')
    await hand.go('See what will be recorded', 'button')
    await hand.look('import-to-be-recorded')
    await hand.go(/^Record 2/, 'button')
    expect(await hand.read()).toMatch(/Recorded/)
    await hand.look('imported')
  })

  test('a sale is taken back from the strip', async () => {
    await hand.page.goto('/books/sell')
    const shelf = await hand.read()
    await hand.go(/^Mug, firsts/)
    expect(await hand.press()).toContain('Sold: 1 for')
    expect(await hand.read()).not.toContain(shelf)
    await hand.go('Take it back', 'button')
    expect(await hand.recorded()).toMatch(/^Recorded: Taken back/)
    await hand.look('taken-back')
    await hand.page.goto('/books/sell')
    expect(await hand.read()).toBe(shelf)
  })

  test('today, the month, the stock and the yield say what the books say', async () => {
    const { page } = hand
    await today()
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
      const { taps, digits } = touches.get(act as keyof typeof TOUCHES_AT_MOST) ?? {}
      console.log(`${act}: ${String(taps)} taps and ${String(digits)} digits`)
      expect(taps, act).toBeLessThanOrEqual(limit)
    }
  })
})
