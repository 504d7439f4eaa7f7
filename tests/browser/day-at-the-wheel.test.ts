import { afterAll, beforeAll, expect, test } from 'vitest'
import { reconcile } from '../../db/reports/reconcile.ts'
import { monthOf } from '../../shared/month.ts'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { Hand, type Touches } from './support/hand.ts'
import { monthOnPage, stockOnPage, yieldOnPage } from './support/printed.ts'
import { openEmptyBooks, type EmptyBooks } from './support/server.ts'

/** What a common act may cost, from Today on: taps beside the digits, our choice. */
const TOUCHES_AT_MOST = {
  'weigh in turnings': 3,
  'throw the same as last time': 3,
  'turn, with the turnings weighed': 4,
  'weigh a slab': 3,
  sell: 3,
} as const

/** A day from the first page of an empty ledger to the month's sheet, on a phone, by touch alone. */
describeInBrowser('a day at the wheel', () => {
  let books: EmptyBooks
  let phone: Phone
  let hand: Hand
  const touches = new Map<keyof typeof TOUCHES_AT_MOST, Touches>()

  beforeAll(async () => {
    books = await openEmptyBooks()
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
})
