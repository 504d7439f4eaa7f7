import { Refusal } from '../../../shared/refusal.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, CountField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { SCRAP_STATES, STATE_WORDS } from '../state-words.ts'
import { allScales, allVessels, type Scale, type Vessel } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { OtherTare, ScaleFigures } from '../weigh/scale-figures.tsx'
import { holdingOfAddress, type Holding } from './holdings-here.tsx'

interface Counted {
  readonly held: Holding
  readonly vessel: Vessel | undefined
  readonly scales: readonly Scale[]
}

const isToldInPieces = ({ pieces }: Holding) => pieces !== '0'
const isFired = ({ place }: Holding) => place === 'glazed' || place === 'finished'

/** The page on which something is counted: what stands on a scale daily has a page of its own. */
export function countAddress(held: Holding): string {
  const { place, lotId, vesselId, holdingId } = held
  if (place === 'scrap' && vesselId !== null) return `/weigh/vessel/${vesselId}`
  if (place === 'bench' && lotId !== null) return `/weigh/lot/${lotId}`
  return `/books/count/${holdingId}`
}

/** What is truly there, counted or weighed; the difference to the books shows as unexplained. */
export const count: ActPage<Counted> = {
  path: '/books/count/:holdingId',
  act: actCalled('count'),
  here: 'books',
  press: 'That is there',
  keysFor: 'gross',
  async load(c) {
    const held = await holdingOfAddress(c)
    if (held.place === 'plaster') {
      throw new Refusal(
        'holding_not_found',
        'A slab on plaster is not counted: weigh it on its bat.',
      )
    }
    const vessels = await allVessels(c)
    const vessel = vessels.find(({ vesselId }) => vesselId === held.vesselId)
    return { held, vessel, scales: await allScales(c) }
  },
  title: ({ held }) => held.label,
  said: (typed, { held, vessel }) =>
    saidOnly({
      holdingId: held.holdingId,
      pieces: isToldInPieces(held) ? typed.count('pieces') : undefined,
      reading: typed.gross('gross', vessel?.vesselId),
      state: typed.text('state') ?? (held.place === 'basin' ? 'slurry' : undefined),
    }),
  fieldOf: {
    '/holdingId': 'pieces',
    '/pieces': 'pieces',
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/state': 'state',
  },
  next: () => '/books/count',
  Form: (props) => (isToldInPieces(props.data.held) ? <Pieces {...props} /> : <Whole {...props} />),
  After: (props) =>
    isToldInPieces(props.data.held) ? null : (
      <OtherTare {...props} tareGrams={props.data.vessel?.tareGrams} scales={props.data.scales} />
    ),
}

function Pieces({ data, typed, voice, faults }: ActFormProps<Counted>) {
  const { held } = data
  const field = { typed, faults }
  const things = held.place === 'store' ? 'bags' : 'pieces'
  return (
    <>
      <p>
        By the books there are <strong>{held.pieces}</strong> {things}.
      </p>
      <CountField {...field} name="pieces" label={`How many ${things} are there`} isNeeded />
      {isFired(held) ? null : (
        <details class="more" open={typed.text('gross') !== undefined}>
          <summary>Weighed too</summary>
          <MassField
            {...field}
            voice={voice}
            name="gross"
            label="All of them together"
            hint="Without boards, and without polythene. Empty: each is as heavy as the books say."
          />
        </details>
      )}
    </>
  )
}

function Whole({ data, typed, voice, faults }: ActFormProps<Counted>) {
  const { held, vessel } = data
  return (
    <>
      {held.place === 'scrap' ? (
        <ChoiceField
          name="state"
          label="What is in it"
          isNeeded
          choices={SCRAP_STATES.map((state) => ({
            value: state,
            name: voice.words(STATE_WORDS[state]),
          }))}
          typed={typed}
          faults={faults}
        />
      ) : null}
      {held.place === 'basin' ? (
        <p class="hint">
          How much clay a slurry holds is told better by its density:{' '}
          <a href="/plaster/slurry">read a slurry</a>.
        </p>
      ) : null}
      <ScaleFigures
        label={vessel === undefined ? 'All of it shows' : 'It shows, vessel and all'}
        tareGrams={vessel?.tareGrams}
        typed={typed}
        voice={voice}
        faults={faults}
        of={`By the books ${voice.mass(held.wetGrams)}.`}
      />
    </>
  )
}
