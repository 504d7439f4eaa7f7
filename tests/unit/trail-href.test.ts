import { describe, expect, test } from 'vitest'
import { trailHref } from '../../api/pages/trail-href.ts'
import { entriesTrail, holdingsTrail, trailTo } from '../../db/trail-links.ts'

describe('a trail link as the page that shows it', () => {
  test.each([
    [
      entriesTrail({ month: '2026-10', flow: 'turned_off,lost' }),
      '/books/trail/entries?month=2026-10&flow=turned_off%2Clost',
    ],
    [entriesTrail({}), '/books/trail/entries'],
    [holdingsTrail({ place: 'bench', bodyId: null }), '/books/trail/holdings?place=bench'],
    [trailTo('entries', '0199c1de'), '/books/trail/entry/0199c1de'],
    [trailTo('holdings', 'b0e5f2'), '/books/trail/holding/b0e5f2'],
    [trailTo('lots', 'bags'), '/books/trail/lot/bags'],
    [trailTo('runs', 'mugs-1'), '/books/trail/run/mugs-1'],
    [trailTo('bodies', 'buff'), '/books/things/bodies/buff'],
    [trailTo('forms', 'mug'), '/books/things/forms/mug'],
    [trailTo('vessels', 'bucket-1'), '/books/things/vessels/bucket-1'],
    [trailTo('bats', 'bat-a'), '/books/things/bats/bat-a'],
    ['/v1/runs', '/books/trail/runs'],
    ['/v1/lots?kind=delivery', '/books/trail/lots?kind=delivery'],
    ['/v1/sales?month=2026-05', '/books/trail/sales?month=2026-05'],
    ['/v1/reports/turning/dinner-plate', '/books/turning/dinner-plate'],
    ['/v1/reports/turning', '/books/turning'],
    ['/v1/reports/yield?from=2026-03', '/books/yield?from=2026-03'],
    [
      '/v1/reports/mass-balance?month=2026-05&bodyId=buff',
      '/books/balance?month=2026-05&bodyId=buff',
    ],
    ['/v1/reports/month?month=2026-05&format=csv', '/books/month/2026-05'],
    ['/v1/reports/dust?month=2026-05', '/books/dust?month=2026-05'],
    ['/v1/reports/reclaim?from=2026-05', '/books/reclaim?from=2026-05'],
  ])('%s is %s', (trail, page) => {
    expect(trailHref(trail)).toBe(page)
  })

  test('an id keeps whatever was written into it', () => {
    expect(trailHref(trailTo('lots', 'a/b c?d'))).toBe('/books/trail/lot/a%2Fb%20c%3Fd')
  })

  test.each([
    'https://elsewhere.example/v1/entries',
    '//elsewhere.example/x',
    '/v2/entries',
    '/v1/acts/turn',
    '',
  ])('“%s” leads nowhere but into the books', (address) => {
    expect(trailHref(address)).toMatch(/^\/books\//)
  })
})
