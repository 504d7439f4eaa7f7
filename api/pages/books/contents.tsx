import { monthOf } from '../../../shared/month.ts'
import { newRouter } from '../../router.ts'
import { show } from '../show.tsx'

interface Chapter {
  readonly heading: string
  readonly pages: readonly { href: string; name: string; words: string }[]
}

/** Everything for the table, in the order in which a potter asks for it. */
const CHAPTERS: readonly Chapter[] = [
  {
    heading: 'How it went',
    pages: [
      {
        href: '/books/month',
        name: 'This month',
        words: 'clay and money, from opening to closing; prints on a sheet',
      },
      {
        href: '/books/yield',
        name: 'How many come through',
        words: 'yield, form by form and stage by stage',
      },
      {
        href: '/books/turning',
        name: 'Turning',
        words: 'how much is turned off, and whether it drifts',
      },
      {
        href: '/books/reclaim',
        name: 'Is reclaiming worth it?',
        words: 'what an hour at it saves, clay by clay',
      },
      {
        href: '/books/balance',
        name: 'Do the weigh-ins agree?',
        words: 'which reading fits the month least',
      },
      {
        href: '/books/dust',
        name: 'Dust',
        words: 'dry work as it was recorded, with the published limits',
      },
    ],
  },
  {
    heading: 'What it costs',
    pages: [
      {
        href: '/books/piece',
        name: 'What a piece costs',
        words: 'clay, glaze, fire, wear and packing, with its share of what failed',
      },
      {
        href: '/books/month-costs',
        name: 'What this month cost',
        words: 'by what for and by where it went; a piece and a kilogram sold',
      },
      {
        href: '/books/firings',
        name: 'Firings',
        words: 'what each cost a piece, and what its empty room cost',
      },
      {
        href: '/books/stock-value',
        name: 'What the stock is worth',
        words: 'at the end of a year or of any day, for the accountant',
      },
      {
        href: '/books/what-if',
        name: 'What if?',
        words: 'clay goes up, the kiln is fuller, fewer crack: what a piece costs then',
      },
    ],
  },
  {
    heading: 'What is here, and what happened',
    pages: [
      {
        href: '/books/stock',
        name: 'Stock',
        words: 'all clay and pots, with how sure and what they cost',
      },
      {
        href: '/books/trail',
        name: 'What happened',
        words: 'every entry, newest first; take one back',
      },
      { href: '/books/count', name: 'Count', words: 'bags, pots, open clay: what is truly there' },
      { href: '/books/dry-test', name: 'Dry a sample', words: 'how much water a clay holds' },
    ],
  },
  {
    heading: 'Clay comes and goes',
    pages: [
      { href: '/books/delivery', name: 'Clay came in', words: 'bags, mass, price, freight' },
      { href: '/books/open-bag', name: 'Open bags', words: 'from the store to the bench' },
      {
        href: '/books/opening',
        name: 'What is here already',
        words: 'to begin the books in the middle',
      },
      { href: '/books/discard', name: 'Throw clay away', words: 'dirty, mixed, or plaster in it' },
    ],
  },
  {
    heading: 'Glaze and materials',
    pages: [
      {
        href: '/books/materials',
        name: 'Materials',
        words: 'powders, boxes, kiln shelves, gas: what is here, and what to order',
      },
      {
        href: '/books/materials-in',
        name: 'Materials came in',
        words: 'how much, price, freight',
      },
      { href: '/glaze', name: 'Glaze', words: 'buckets, recipes, what to weigh out' },
    ],
  },
  {
    heading: 'Pots leave',
    pages: [
      { href: '/books/sell', name: 'Sold', words: 'or given away, kept, broken in the shop' },
      {
        href: '/books/sales/import',
        name: 'Sales from a file',
        words: 'what the shop online wrote down',
      },
    ],
  },
  {
    heading: 'The studio',
    pages: [
      {
        href: '/books/things',
        name: 'Things of the studio',
        words: 'clays, forms, materials, kilns, buckets, scales, plaster bats',
      },
      { href: '/books/labels', name: 'Labels', words: 'to stick on buckets and bats' },
      { href: '/books/wall', name: 'A sheet for the wall', words: 'what to weigh, and when' },
      { href: '/books/studio', name: 'Settings', words: 'units, days, words, who works here' },
      {
        href: '/books/close-month',
        name: 'Close a month',
        words: 'when nothing more is to change in it',
      },
    ],
  },
  {
    heading: 'For those who want to know more',
    pages: [
      { href: '/problems', name: 'What may be refused', words: 'and what to do then' },
      {
        href: '/v1',
        name: 'For programs',
        words: 'the same books, for other programs to read and write',
      },
    ],
  },
]

/** The table of contents of the books. */
export const contents = newRouter()

contents.get('/books', (c) => {
  const voice = c.get('voice')
  const month = voice.month(monthOf(voice.now, voice.studio.timeZone))
  return show(
    c,
    { title: 'The books', here: 'books' },
    <>
      <h1>The books</h1>
      <p>For the table, with dry hands. It is {month}.</p>
      {CHAPTERS.map(({ heading, pages }) => (
        <section>
          <h2>{heading}</h2>
          <ul class="targets contents">
            {pages.map(({ href, name, words }) => (
              <li>
                <a class="target" href={href}>
                  <strong>{voice.words(name)}</strong>
                  <span>{voice.words(words)}</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>,
  )
})
