import type { Context } from 'hono'
import { plasterBoard } from '../../../db/reports/plaster.ts'
import { stockReport } from '../../../db/reports/stock.ts'
import { waitingReport } from '../../../db/reports/waiting.ts'
import { weighList } from '../../../db/reports/weigh-list.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import { show } from '../show.tsx'
import { weighAddress } from '../weigh/address.ts'
import { FirstSteps, missingThings } from './first-steps.tsx'
import { StockAtAGlance } from './stock-at-a-glance.tsx'
import { ToDo, todosOf } from './to-do.tsx'

/** What waits for whom, and what is there. */
export const today = newRouter()

today.get('/', async (c) => {
  const voice = c.get('voice')
  const { stock, board, waiting, things } = await readToday(c)
  const missing = missingThings(stock, things)
  const last = things[0]
  return show(
    c,
    { title: voice.studio.name, here: 'today' },
    <>
      <h1>Today</h1>
      {last === undefined ? null : (
        <ul class="targets">
          <li>
            <a class="target" href="/weigh" data-offline>
              <strong>Weigh in</strong>
              <span>bucket, slab, open clay, pots</span>
            </a>
          </li>
          {last.lastWeighedAt === null ? null : (
            <li>
              <a class="target" href={weighAddress(last)} data-offline>
                <strong>{last.name}</strong>
                <span>weighed last, {voice.moment(last.lastWeighedAt)}</span>
              </a>
            </li>
          )}
          {stock.places.some(({ place }) => place === 'finished') ? (
            <li>
              <a class="target" href="/books/sell">
                <strong>Sold</strong>
                <span>off the shelf</span>
              </a>
            </li>
          ) : null}
        </ul>
      )}
      {missing.length > 0 ? <FirstSteps missing={missing} /> : null}
      <ToDo todos={todosOf({ board, waiting, voice })} />
      <StockAtAGlance stock={stock} waiting={waiting} voice={voice} />
    </>,
  )
})

async function readToday(c: Context<Environment>) {
  const { db, now } = c.get('services')
  const studioId = c.get('studioId')
  const asked = { studioId, now: now() }
  const [stock, board, waiting, things] = await Promise.all([
    stockReport(db, { studioId }),
    plasterBoard(db, asked),
    waitingReport(db, asked),
    weighList(db, studioId),
  ])
  return { stock, board, waiting, things }
}
