import type { Context } from 'hono'
import { traceEntry } from '../../../../db/reports/entries.ts'
import type { MassBalance } from '../../../../db/reports/mass-balance.ts'
import type { Environment } from '../../../services.ts'
import type { Voice } from '../../voice.ts'
import { mendAddress } from '../trail/mend.ts'

type Offer = MassBalance['suspicions'][number]['offers'][number]
export type OfferAddresses = ReadonlyMap<Offer, string>

/** What may be done about what stands out, as the way to where it is done. */
export function Offers(props: {
  readonly offers: readonly Offer[]
  readonly addresses: OfferAddresses
  readonly voice: Voice
}) {
  const { offers, addresses, voice } = props
  if (offers.length === 0) return null
  return (
    <ul class="targets">
      {offers.map((offer) => (
        <li>
          <a class="target" href={addresses.get(offer)}>
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

/** Where each offer of a report is taken up. */
export async function offerAddresses(
  c: Context<Environment>,
  { suspicions }: MassBalance,
): Promise<OfferAddresses> {
  const offers = suspicions.flatMap((one) => one.offers)
  const addresses = new Map<Offer, string>()
  for (const offer of offers) addresses.set(offer, await addressOf(c, offer))
  return addresses
}

async function addressOf(c: Context<Environment>, { what, body }: Offer): Promise<string> {
  const text = (name: string) => encodeURIComponent(String(body[name]))
  if (what === 'count') return `/books/count/${text('holdingId')}`
  if (what === 'dry_test') return `/books/dry-test?bodyId=${text('bodyId')}&state=${text('state')}`
  return (await correctionAddress(c, body)) ?? `/books/trail/entry/${text('entryId')}`
}

interface Correction {
  readonly entryId: string
  readonly note?: string
  /** Where the month of the entry is closed: when it is taken back. */
  readonly happenedAt?: string
  readonly postAgain: {
    readonly act: string
    readonly content: Readonly<Record<string, unknown>> & { readonly happenedAt?: string }
  }
}

/** The act's own page, with what it should have been told filled in. */
async function correctionAddress(
  c: Context<Environment>,
  body: Offer['body'],
): Promise<string | undefined> {
  const { entryId, note, happenedAt, postAgain } = body as unknown as Correction
  const entry = await traceEntry(c.get('services').db, { studioId: c.get('studioId'), entryId })
  const address = await mendAddress(c, {
    entryId,
    kind: postAgain.act.replaceAll('-', '_'),
    happenedAt: happenedAt ?? postAgain.content.happenedAt ?? entry.happenedAt,
    recordedBy: entry.recordedBy,
    note: note ?? entry.note,
    said: postAgain.content,
  })
  if (address === undefined || happenedAt === undefined) return address
  return `${address}&${new URLSearchParams({ backAt: happenedAt }).toString()}`
}
