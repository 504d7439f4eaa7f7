import { channelsBefore } from '../../../db/reports/said-before.ts'
import type { ShelfRow } from '../../../db/reports/shelf.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { begunWith } from '../begun-with.ts'
import { CountField, TextField } from '../fields.tsx'
import { refuseMissing } from '../missing.ts'
import { saidOnly } from '../typed.ts'
import { Packed, packingOf, packingSaid, type Packing } from './packed.tsx'
import { SaidBeforeField, wordsSaid } from '../said-before.tsx'
import { GRADE_WORDS } from './shelf.tsx'
import { shelfHere } from './shelf-here.ts'

interface Selling {
  readonly shelf: ShelfRow
  readonly channels: readonly string[]
  readonly packing: Packing
}

const FIELDS = {
  '/pieces': 'pieces',
  '/priceEach': 'priceEach',
  '/channel': 'channel',
  '/formId': 'pieces',
  '/grade': 'pieces',
  '/packing': 'packing',
}

/** Pots of one form and grade go out of the door for money. */
export const sellPage: ActPage<Selling> = {
  path: '/books/sell/:formId/:grade',
  act: actCalled('sell'),
  here: 'books',
  press: 'Sold',
  async load(c) {
    const channels = await channelsBefore(c.get('services').db, c.get('studioId'))
    const shelf = await shelfHere(c)
    return { shelf, channels, packing: await packingOf(c, shelf.formId) }
  },
  title: ({ shelf }) => `Sold: ${shelf.formName}, ${GRADE_WORDS[shelf.grade]}`,
  said: (typed, { shelf, packing }) =>
    saidOnly({
      formId: shelf.formId,
      grade: shelf.grade,
      pieces: typed.count('pieces') ?? refuseMissing('pieces', 'How many?'),
      priceEach:
        typed.decimal('priceEach') ?? refuseMissing('priceEach', 'What was paid for each?'),
      channel: wordsSaid(typed, 'channel') ?? refuseMissing('channel', 'Where? The shop, a fair…'),
      packing: packingSaid(typed, packing),
    }),
  fieldOf: FIELDS,
  next: () => '/books/sell',
  Form: SellForm,
  After: ({ data, typed, voice, faults }) => (
    <Packed packing={data.packing} typed={typed} voice={voice} faults={faults} />
  ),
  Below: ({ data: { shelf } }) => {
    const at = `/books/sell/${shelf.formId}/${shelf.grade}`
    return (
      <section>
        <h2>Not sold, but gone</h2>
        <p class="row">
          <a class="button" href={`${at}/give-away`}>
            Given away
          </a>
          <a class="button" href={`${at}/keep`}>
            Kept
          </a>
          <a class="button" href={`${at}/break-in-shop`}>
            Broken
          </a>
        </p>
      </section>
    )
  },
}

function SellForm({ data, typed, voice, faults }: ActFormProps<Selling>) {
  const { shelf, channels } = data
  const field = { typed, faults }
  const price = begunWith(typed, { priceEach: shelf.usualPrice ?? undefined })
  return (
    <>
      <CountField
        {...field}
        name="pieces"
        label="How many"
        hint={`${shelf.pieces} on the shelf.`}
        usual={1}
        isNeeded
      />
      <TextField
        faults={faults}
        typed={price}
        name="priceEach"
        label="Paid for each"
        inputmode="decimal"
        after={voice.studio.currency}
        isNeeded
      />
      <SaidBeforeField
        {...field}
        name="channel"
        label="Where"
        before={channels}
        usual={channels[0]}
      />
    </>
  )
}
