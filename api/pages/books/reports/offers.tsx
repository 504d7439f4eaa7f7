import type { Context } from 'hono'
import type { MassBalance } from '../../../../db/reports/mass-balance.ts'
import type { Environment } from '../../../services.ts'

type Offer = MassBalance['suspicions'][number]['offers'][number]

/** What may be done about what stands out, as the way to where it is done. */
export function Offers({ offers, c }: { offers: readonly Offer[]; c: Context<Environment> }) {
  if (offers.length === 0) return null
  const voice = c.get('voice')
  return (
    <ul class="targets">
      {offers.map((offer) => (
        <li>
          <a class="target" href={addressOf(offer)}>
            <strong>{NAMES[offer.what]}</strong>
            <span>{voice.words(offer.words)}</span>
          </a>
        </li>
      ))}
    </ul>
  )
}

const NAMES: Readonly<Record<Offer['what'], string>> = {
  correct: 'Look at what was written down',
  count: 'Weigh and count it now',
  dry_test: 'Dry a sample',
}

function addressOf({ what, body }: Offer): string {
  const text = (name: string) => encodeURIComponent(String(body[name]))
  if (what === 'correct') return `/books/trail/entry/${text('entryId')}`
  if (what === 'count') return `/books/count/${text('holdingId')}`
  return `/books/dry-test?bodyId=${text('bodyId')}&state=${text('state')}`
}
