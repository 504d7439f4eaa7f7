import type { Context } from 'hono'
import { monthsToClose } from '../../../db/reports/months-to-close.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import { actPage } from '../act-page.tsx'
import { enterFirst, firstNeeded, Ways, type Missing } from '../first-needed.tsx'
import { show } from '../show.tsx'
import { allBodies } from '../things.ts'
import { closeMonth } from './close-month.tsx'
import { count, countAddress } from './count.tsx'
import { canBeThrownAway, discard } from './discard.tsx'
import { dryTest } from './dry-test.tsx'
import { HoldingList, holdingsHere, type Holding } from './holdings-here.tsx'

/** Counting what is here, drying samples, throwing away, closing. */
export const counting = newRouter()

const WHERE_CLAY_COMES_FROM = [
  { href: '/books/opening', name: 'Enter what is here already' },
  { href: '/books/delivery', name: 'Clay came in' },
]

counting.get('/books/count', async (c) => {
  const holdings = (await holdingsHere(c)).filter(({ place }) => place !== 'plaster')
  return showChoice(c, {
    title: 'Count what is here',
    words:
      'Touch what you have counted or weighed. The difference to the books shows as unexplained.',
    holdings,
    href: countAddress,
  })
})
actPage(counting, count)

counting.get('/books/discard', async (c) => {
  const holdings = (await holdingsHere(c)).filter(canBeThrownAway)
  return showChoice(c, {
    title: 'Throw clay away',
    words:
      'Which clay goes? Pots that are lost are told at the wheel or the kiln, and bags are opened first.',
    holdings,
    href: ({ holdingId }) => `/books/discard/${holdingId}`,
  })
})
actPage(counting, discard)

firstNeeded(counting, dryTest.path, async (c): Promise<Missing | undefined> => {
  if ((await allBodies(c)).length > 0) return undefined
  return {
    title: 'A dried sample',
    words: 'First say what clay it is: its name is enough.',
    ways: [enterFirst('bodies', 'Enter a clay', dryTest.path)],
  }
})
actPage(counting, dryTest)

firstNeeded(counting, closeMonth.path, async (c): Promise<Missing | undefined> => {
  const { db, now } = c.get('services')
  const { months, closedUpTo } = await monthsToClose(db, {
    studioId: c.get('studioId'),
    now: now(),
  })
  if (months.length > 0) return undefined
  const closed =
    closedUpTo === null ? '' : ` All up to ${c.get('voice').month(closedUpTo)} is closed.`
  return {
    title: 'Close a month',
    words: `There is no month to close: only one that is over, and has something in it, can be.${closed}`,
    ways: [
      { href: '/books/month', name: 'This month' },
      { href: '/books', name: 'The books' },
    ],
  }
})
actPage(counting, closeMonth)

interface ChoiceShown {
  readonly title: string
  readonly words: string
  readonly holdings: readonly Holding[]
  readonly href: (held: Holding) => string
}

/** Holdings to choose from; where there are none, what brings some. */
function showChoice(c: Context<Environment>, { title, words, holdings, href }: ChoiceShown) {
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      {holdings.length === 0 ? (
        <>
          <p>By the books nothing is here that could be.</p>
          <Ways ways={WHERE_CLAY_COMES_FROM} />
        </>
      ) : (
        <>
          <p>{words}</p>
          <HoldingList holdings={holdings} voice={c.get('voice')} href={href} />
          <p>
            Something that is not here by the books:{' '}
            <a href="/books/opening">enter it as here already</a>.
          </p>
        </>
      )}
      <p>
        <a href="/books">The books</a>
      </p>
    </>,
  )
}
