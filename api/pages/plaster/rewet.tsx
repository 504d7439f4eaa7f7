import type { HoldingView } from '../../../db/holding-view.ts'
import { listHoldings } from '../../../db/reports/holdings.ts'
import { listLots } from '../../../db/reports/lots.ts'
import type { Context } from 'hono'
import type { Environment } from '../../services.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allBodies, type Body } from '../things.ts'
import { saidOnly } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { dustCautions } from './dust.ts'

interface HardClay {
  /** Place and lot, as the form sends them. */
  readonly value: string
  readonly name: string
  readonly holding: HoldingView
}

interface Rewetted {
  readonly clays: readonly HardClay[]
  readonly bodies: readonly Body[]
  readonly jurisdiction: Voice['studio']['jurisdiction']
}

const LISTED_MAX = 500

/** Clay on the bench, then clay in its bags; what holds least water first. */
export async function clayThatMayBeHard(c: Context<Environment>): Promise<readonly HardClay[]> {
  const { db } = c.get('services')
  const studioId = c.get('studioId')
  const page = { limit: LISTED_MAX }
  const at = (place: 'bench' | 'store') =>
    listHoldings(db, { studioId, place, nonEmpty: true, page })
  const [bench, store, lots] = await Promise.all([
    at('bench'),
    at('store'),
    listLots(db, { studioId, page }),
  ])
  const labelOf = new Map(lots.items.map(({ lotId, label }) => [lotId, label]))
  return [bench, store].flatMap(({ items }) =>
    items
      .filter(({ dryGrams }) => dryGrams !== '0')
      .toSorted((one, other) => waterOf(one) - waterOf(other))
      .map((holding) => ({
        value: `${holding.place}/${holding.lotId ?? ''}`,
        name: labelOf.get(holding.lotId ?? '') ?? holding.lotId ?? '',
        holding,
      })),
  )
}

function waterOf({ waterContentWetBasis }: HoldingView): number {
  return Number(waterContentWetBasis ?? 1)
}

/** Clay that went hard, brought back with water. */
export const rewetPage: ActPage<Rewetted> = {
  path: '/plaster/rewet',
  act: actCalled('rewet'),
  here: 'plaster',
  press: 'Wet it',
  async load(c) {
    return {
      clays: await clayThatMayBeHard(c),
      bodies: await allBodies(c),
      jurisdiction: c.get('voice').studio.jurisdiction,
    }
  },
  title: () => 'Wet hard clay',
  keeps: () => 'Hard clay wetted',
  said: (typed) => {
    const [place, lotId] = typed.text('clay')?.split('/') ?? []
    return saidOnly({ lotId, place, water: typed.mass('water') })
  },
  fieldOf: { '/lotId': 'clay', '/place': 'clay', '/water': 'water' },
  cautions: ({ clays, bodies, jurisdiction }) =>
    dustCautions(
      clays.map(({ holding }) => holding),
      { bodies, jurisdiction },
    ),
  keysFor: 'water',
  next: () => '/plaster',
  Form: ({ data, typed, voice, faults }) => (
    <>
      <ChoiceField
        typed={typed}
        faults={faults}
        name="clay"
        label="Which clay"
        usual={data.clays[0]?.value}
        choices={data.clays.map(({ value, name, holding }) => ({
          value,
          name,
          hint: clayWords(holding, voice),
        }))}
      />
      <MassField
        typed={typed}
        faults={faults}
        voice={voice}
        name="water"
        label="Water put to it"
        unit="g"
        isNeeded
        hasKeys
      />
    </>
  ),
}

function clayWords({ place, wetGrams, waterContentWetBasis: water }: HoldingView, voice: Voice) {
  const parts = [
    place === 'store' ? 'in its bags' : 'on the bench',
    voice.mass(wetGrams),
    water === null ? '' : `${voice.share(water, 0)} water`,
  ]
  return parts.filter((part) => part !== '').join(', ')
}
