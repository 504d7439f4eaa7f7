import { decimal } from '../../../shared/decimal.ts'
import { DRY_ACTS, silicaCautions, type DryAct } from '../../../shared/silica.ts'
import { bodies } from '../../../db/catalogue.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { saidOnly } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { holdingOfAddress, type Holding } from './holdings-here.tsx'

interface Discarded {
  readonly held: Holding
  readonly dustThreshold: string | null
  readonly jurisdiction: Voice['studio']['jurisdiction']
}

const REASONS = [
  'plaster in it',
  'swept from the floor',
  'two clays mixed',
  'glaze in it',
  'mouldy',
]

const DRY_ACT_WORDS: Readonly<Record<DryAct, string>> = {
  sweeping: 'Sweeping',
  sanding: 'Sanding',
  dry_fettling: 'Fettling dry',
  crushing: 'Crushing',
  mixing_powders: 'Mixing powders',
  grinding_fired_ware: 'Grinding fired ware',
  cleaning_dry_moulds: 'Cleaning dry moulds',
}

/** True for clay that is told by its mass; pots are lost and bags opened instead. */
export function canBeThrownAway({ pieces, dryGrams }: Holding): boolean {
  return pieces === '0' && dryGrams !== '0'
}

/** Clay that goes to waste, with its cost. */
export const discard: ActPage<Discarded> = {
  path: '/books/discard/:holdingId',
  act: actCalled('discard'),
  here: 'books',
  press: 'Throw it away',
  async load(c) {
    const held = await holdingOfAddress(c)
    const body = await bodies.find(c.get('services').db, c.get('studioId'), held.bodyId)
    const dustThreshold = body['dustThresholdWetBasis'] as string | null
    return { held, dustThreshold, jurisdiction: c.get('voice').studio.jurisdiction }
  },
  title: ({ held }) => `Throw away: ${held.label}`,
  said: (typed, { held }) =>
    saidOnly({
      holdingId: held.holdingId,
      reading: typed.net('net'),
      reason: typed.text('reason'),
      dryAct: typed.text('dryAct'),
    }),
  fieldOf: {
    '/holdingId': 'net',
    '/reading': 'net',
    '/reason': 'reason',
    '/dryAct': 'dryAct',
  },
  cautions: ({ held, dustThreshold, jurisdiction }) =>
    silicaCautions({
      handlesDryClay: false,
      dryAct: undefined,
      waterContentWetBasis:
        held.waterContentWetBasis === null ? undefined : decimal(held.waterContentWetBasis),
      dustThresholdWetBasis: dustThreshold === null ? undefined : decimal(dustThreshold),
      jurisdiction,
    }),
  next: () => '/books/stock',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    return (
      <>
        <p>
          By the books <strong>{voice.mass(data.held.wetGrams)}</strong> is here, which cost{' '}
          <strong>{voice.money(data.held.cost)}</strong>. What it cost goes with it.
        </p>
        <TextField {...field} name="reason" label="Why" before={REASONS} isNeeded />
        <MassField
          {...field}
          voice={voice}
          name="net"
          label="How much of it"
          hint="Without its vessel. Empty: all of it."
        />
        <ChoiceField
          {...field}
          name="dryAct"
          label="Was it worked dry"
          usual=""
          choices={[
            { value: '', name: 'No' },
            ...DRY_ACTS.map((act) => ({ value: act, name: DRY_ACT_WORDS[act] })),
          ]}
        />
        <p class="hint">
          Clay belongs in no drain, and plaster neither. Where it goes is for the rules of the
          place: ask there about glaze and its sludge.
        </p>
      </>
    )
  },
}
