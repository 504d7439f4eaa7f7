import { expect } from 'vitest'
import type { Day } from './day.ts'

/** Scrap is slaked, poured on plaster, and a slab weighed alone. */
export async function slakeAndPour(day: Day): Promise<void> {
  const { hand } = day
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
  await day.counts('weigh a slab', async () => {
    await hand.go(/^Weigh in/)
    await hand.go(/Window bat/)
    await hand.digits('gross', '2.30')
    await hand.look('slab-alone')
    expect(await hand.press()).toMatch(
      /Slab weighed: 2\.30 kg net, .* dry clay, 700 g of water less/,
    )
  })
}

/** A slab with its bat tells nothing, and the page says so before and after. */
export async function weighSlabWithBat(day: Day): Promise<void> {
  const { hand } = day
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
}

/** A slab is lifted, and what is left of the heap is thrown. */
export async function liftAndThrow(day: Day): Promise<void> {
  const { hand } = day
  await hand.page.goto('/plaster')
  await hand.go('Window bat')
  await hand.look('slab')
  await hand.go(/^Lift/)
  await hand.digits('gross', '2.20')
  await hand.look('lift')
  expect(await hand.press()).toMatch(/Slab lifted: 2\.20 kg net, .* into reclaimed from Window bat/)
  await hand.page.goto('/wheel/throw/plate')
  await hand.choose('lotId', /^reclaimed from Window bat/)
  await hand.choose('how', 'left')
  await hand.digits('pieces', '1')
  await hand.look('throw-what-is-left')
  expect(await hand.press()).toMatch(/Thrown: 1 piece, .* from reclaimed from Window bat/)
}

/** Bags are counted, and a sample is dried. */
export async function countAndDry(day: Day): Promise<void> {
  const { hand } = day
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
}

/** Bisque goes in and comes out, with one lost; glaze, and what came out is graded. */
export async function fire(day: Day): Promise<void> {
  const { hand } = day
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
}

/** Pots are sold by touch, and from a file. */
export async function sell(day: Day): Promise<void> {
  const { hand } = day
  // Where is asked once; the next sale offers it.
  await hand.page.goto('/books/sell')
  await hand.go(/^Mug, firsts/)
  await hand.words('channel', 'the shop')
  expect(await hand.press()).toContain('Sold: 1 for £18.00 each (the shop)')
  await day.counts('sell', async () => {
    await hand.go(/^Sold/)
    await hand.go(/^Mug, firsts/)
    await hand.look('sell')
    expect(await hand.press()).toContain('Sold: 1 for £18.00 each (the shop)')
  })
  await hand.look('sold')
  await hand.page.goto('/books/sales/import')
  const soldOn = new Date().toISOString().slice(0, 'yyyy-mm-dd'.length)
  const rows = [`${soldOn},A-1,Mug,2,18.00`, `${soldOn},A-2,Mug,1,17.00`]
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
}

/** A sale is taken back from the strip. */
export async function takeBack(day: Day): Promise<void> {
  const { hand } = day
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
}
