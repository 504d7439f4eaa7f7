import { plasterBoard } from '../../../db/reports/plaster.ts'
import { driestFirst } from '../../../shared/plaster-urgency.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allScales, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { OtherTare, ScaleFigures } from '../weigh/scale-figures.tsx'
import { emptyWords, type EmptyBat } from './empty-bats.tsx'
import { LiftedAlready } from './lift.tsx'
import { slabAsked } from './slab-asked.ts'
import type { Slab } from './slab-figures.tsx'

interface Moved {
  readonly slab: Slab
  /** The driest first. */
  readonly bats: readonly EmptyBat[]
  readonly scales: readonly Scale[]
}

/** A slab that goes on drying on another bat. */
export const movePage: ActPage<Moved> = {
  path: '/plaster/:lotId/move',
  act: actCalled('move-load'),
  here: 'plaster',
  press: 'Move',
  async load(c) {
    const { db, now } = c.get('services')
    const slab = await slabAsked(c)
    const board = await plasterBoard(db, { studioId: c.get('studioId'), now: now() })
    return { slab, bats: driestFirst(board.emptyBats), scales: await allScales(c) }
  },
  title: ({ slab }) => `Move: slab on ${slab.batName}`,
  keeps: ({ slab }) => `Slab moved off ${slab.batName}`,
  said: (typed, { slab }) =>
    saidOnly({
      lotId: slab.lotId,
      batId: typed.text('batId'),
      reading: typed.gross('gross'),
      bat: typed.net('bat'),
    }),
  fieldOf: {
    '/lotId': 'gross',
    '/batId': 'batId',
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/bat': 'bat',
  },
  next: () => '/plaster',
  keysFor: 'gross',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    const { slab, bats } = data
    return (
      <>
        <LiftedAlready slab={slab} voice={voice} />
        {bats.length === 0 ? (
          <p class="ask">
            Every other bat carries a slab. Lift one first, or{' '}
            <a href="/books/things/bats/new">enter a bat</a>.
          </p>
        ) : null}
        <ChoiceField
          {...field}
          name="batId"
          label="Onto"
          hint="The one that should be driest comes first."
          usual={bats[0]?.batId}
          choices={bats.map((bat) => ({
            value: bat.batId,
            name: bat.batName,
            hint: emptyWords(bat, voice),
          }))}
        />
        <ScaleFigures
          {...field}
          voice={voice}
          label="The slab alone weighs"
          knownDryGrams={slab.dryGrams}
          of="Weigh it while it is off its bat: left empty, nobody can say how it dries on."
          isOptional
        />
      </>
    )
  },
  After: (props) => (
    <>
      <MassField
        {...props}
        name="bat"
        label={`${props.data.slab.batName} alone`}
        hint="What it has drunk. Nothing where it was not weighed."
      />
      <OtherTare {...props} scales={props.data.scales} />
    </>
  ),
}
