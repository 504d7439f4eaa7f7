import type { Context } from 'hono'
import { stockReport } from '../../../db/reports/stock.ts'
import { PLACE_WORDS } from '../../../shared/place.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import { actPage } from '../act-page.tsx'
import { enterFirst, firstNeeded, Ways, type Missing } from '../first-needed.tsx'
import { show } from '../show.tsx'
import { allBodies } from '../things.ts'
import { delivery } from './delivery.tsx'
import { noBags, openBags } from './open-bag.tsx'
import { OPENING_KINDS } from './opening-kinds.tsx'
import { openingNeeds, openingPage } from './opening-known.tsx'

/** Clay that comes in, is opened, or was here before the books. */
export const clayIn = newRouter()

firstNeeded(clayIn, delivery.path, noClay)
actPage(clayIn, delivery)

firstNeeded(clayIn, openBags.path, noBags)
actPage(clayIn, openBags)

for (const kind of OPENING_KINDS) {
  const page = openingPage(kind)
  firstNeeded(clayIn, page.path, openingNeeds(kind))
  actPage(clayIn, page)
}

/** Nothing can come in before it is known what it is. */
async function noClay(c: Context<Environment>): Promise<Missing | undefined> {
  if ((await allBodies(c)).some(({ isBlend }) => !isBlend)) return undefined
  return {
    title: 'Clay came in',
    words: 'First say what clay it is: its name is enough.',
    ways: [enterFirst('bodies', 'Enter a clay', delivery.path)],
  }
}

clayIn.get('/books/opening', async (c) => {
  const voice = c.get('voice')
  const { places } = await stockReport(c.get('services').db, { studioId: c.get('studioId') })
  return show(
    c,
    { title: 'What is here already', here: 'books' },
    <>
      <h1>What is here already</h1>
      <p>
        The books may begin in the middle. Enter what you see, one thing after the other, as well as
        you know it. More can follow on any day, and nothing has to be complete.
      </p>
      <Ways
        ways={[
          ...OPENING_KINDS.map(({ name, title, words }) => ({
            href: `/books/opening/${name}`,
            name: title,
            words: voice.words(words),
          })),
          {
            href: '/books/opening/material',
            name: 'A powder, box or shelf that is here',
            words: 'also packaging and gas',
          },
          {
            href: '/books/opening/glaze',
            name: 'A glaze that is here',
            words: 'mixed, in its bucket',
          },
        ]}
      />
      <h2>In the books so far</h2>
      {places.length === 0 ? <p>Nothing yet.</p> : null}
      <ul>
        {places.map(({ place, dryGrams, bags, pots, standardUncertaintyGrams }) => (
          <li>
            {place === null ? '' : voice.words(PLACE_WORDS[place])}:{' '}
            {bags === '0' ? '' : `${bags} bags, `}
            {pots === '0' ? '' : `${pots} pieces, `}
            {voice.massSure(dryGrams, standardUncertaintyGrams)} dry clay
          </li>
        ))}
      </ul>
      <Ways
        ways={[{ href: '/books/stock', name: 'That is all for now', words: 'see what is there' }]}
      />
    </>,
  )
})
