import type { Context } from 'hono'
import { stockReport, type StockReport } from '../../../db/reports/stock.ts'
import type { Environment } from '../../services.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { daySaid } from '../day-said.ts'
import { ChoiceField, CountField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import type { Missing } from '../first-needed.tsx'
import { saidOnly } from '../typed.ts'
import type { Voice } from '../voice.ts'

type Holding = StockReport['holdings'][number]

interface Bags {
  /** Lots in the store that have bags. */
  readonly store: readonly Holding[]
  /** Open clay that more can be put to. */
  readonly bench: readonly Holding[]
}

async function bagsHere(c: Context<Environment>): Promise<Bags> {
  const { holdings } = await stockReport(c.get('services').db, { studioId: c.get('studioId') })
  const isAt = (place: string) => (held: Holding) => held.place === place && held.lotId !== null
  return {
    store: holdings.filter(isAt('store')).filter(({ bags }) => bags !== '0'),
    bench: holdings.filter(isAt('bench')).filter(({ dryGrams }) => dryGrams !== '0'),
  }
}

/** Where no bag is in the store, what brings some. */
export async function noBags(c: Context<Environment>): Promise<Missing | undefined> {
  if ((await bagsHere(c)).store.length > 0) return undefined
  return {
    title: 'Open bags',
    words: 'By the books no bag is in the store.',
    ways: [
      { href: '/books/delivery', name: 'Clay came in', words: 'bags from the supplier' },
      { href: '/books/opening/bags', name: 'Bags were here already', words: 'opening balances' },
    ],
  }
}

/** Bags that go from the store to the bench. */
export const openBags: ActPage<Bags & { readonly voice: Voice }> = {
  path: '/books/open-bag',
  act: actCalled('open-bag'),
  here: 'books',
  press: 'Onto the bench',
  load: async (c) => ({ ...(await bagsHere(c)), voice: c.get('voice') }),
  title: () => 'Open bags',
  said: (typed, { store, voice }) => {
    const [only, other] = store
    const lotId = typed.text('lotId') ?? (other === undefined ? only?.lotId : undefined)
    const name = store.find((held) => held.lotId === lotId)?.bodyName
    const label = name && `${name}, opened ${daySaid(typed, voice)}`
    const intoLotId = typed.text('intoLotId')
    return saidOnly({
      lotId,
      bags: typed.count('bags'),
      reading: typed.net('weighed'),
      intoLotId,
      label: typed.text('label') ?? (intoLotId === undefined ? label : undefined),
    })
  },
  fieldOf: {
    '/lotId': 'lotId',
    '/bags': 'bags',
    '/reading': 'weighed',
    '/intoLotId': 'intoLotId',
    '/label': 'label',
  },
  next: () => '/books/stock',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    const [only, other] = data.store
    return (
      <>
        <ChoiceField
          {...field}
          name="lotId"
          label="Which bags"
          usual={other === undefined ? (only?.lotId ?? undefined) : undefined}
          isNeeded
          choices={data.store.map(({ lotId, label, bags, wetGrams }) => ({
            value: lotId ?? '',
            name: label,
            hint: `${bags} ${bags === '1' ? 'bag' : 'bags'}, ${voice.mass(wetGrams)}`,
          }))}
        />
        <CountField {...field} name="bags" label="How many are opened" usual={1} isNeeded />
        {data.bench.length === 0 ? null : (
          <ChoiceField
            {...field}
            name="intoLotId"
            label="Where the clay goes"
            usual=""
            choices={[
              { value: '', name: 'By itself' },
              ...data.bench.map(({ lotId, label, bodyName, wetGrams }) => ({
                value: lotId ?? '',
                name: `To: ${label}`,
                hint: `${bodyName}, ${voice.mass(wetGrams)}. Only clay of the same body.`,
              })),
            ]}
          />
        )}
        <MassField
          {...field}
          voice={voice}
          name="weighed"
          label="Weighed, without its bag"
          hint="Empty: the label is believed. Weighed, it says how true the label is."
        />
        <details class="more" open={typed.text('label') !== undefined}>
          <summary>What to call it</summary>
          <TextField
            {...field}
            name="label"
            label="What to call it on the bench"
            hint="Only where it goes by itself. Empty: the clay, and the day it was opened."
          />
        </details>
      </>
    )
  },
  Below: () => (
    <p>
      <a href="/books/dry-test">Dry a sample</a> of a bag, and the books know its water instead of
      guessing it.
    </p>
  ),
}
