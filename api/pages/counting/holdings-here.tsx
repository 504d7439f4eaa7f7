import type { Context } from 'hono'
import { stockReport, type StockReport } from '../../../db/reports/stock.ts'
import { PLACE_WORDS, PLACES_INSIDE, type PlaceInside } from '../../../shared/place.ts'
import { Refusal } from '../../../shared/refusal.ts'
import type { Environment } from '../../services.ts'
import { holdingWords } from '../books/holding-words.ts'
import type { Voice } from '../voice.ts'

export type Holding = StockReport['holdings'][number]

/** All that holds something now. */
export async function holdingsHere(c: Context<Environment>): Promise<readonly Holding[]> {
  const { holdings } = await stockReport(c.get('services').db, { studioId: c.get('studioId') })
  return holdings
}

/** The one that the address names. Refuses: `holding_not_found`. */
export async function holdingOfAddress(c: Context<Environment>): Promise<Holding> {
  const holdingId = c.req.param('holdingId')
  const held = (await holdingsHere(c)).find((one) => one.holdingId === holdingId)
  if (held === undefined) {
    throw new Refusal('holding_not_found', 'By the books nothing is there. Choose from what is.')
  }
  return held
}

interface HoldingListProps {
  readonly holdings: readonly Holding[]
  readonly voice: Voice
  readonly href: (held: Holding) => string
}

/** What is here by the books, place by place, each one touch. */
export function HoldingList({ holdings, voice, href }: HoldingListProps) {
  const isUsed = (place: PlaceInside) => holdings.some((held) => held.place === place)
  return (
    <>
      {PLACES_INSIDE.filter(isUsed).map((place) => (
        <section>
          <h2 class="sentence">{voice.words(PLACE_WORDS[place])}</h2>
          <ul class="targets">
            {holdings
              .filter((held) => held.place === place)
              .map((held) => (
                <li>
                  <a class="target" href={href(held)}>
                    <strong>{held.label}</strong>
                    <span>{holdingWords(held, voice)}</span>
                  </a>
                </li>
              ))}
          </ul>
        </section>
      ))}
    </>
  )
}
