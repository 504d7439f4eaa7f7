import { weighList, type WeighableThing } from '../../../db/reports/weigh-list.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allScales, type Scale } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import { OtherTare, ScaleFigures } from '../weigh/scale-figures.tsx'
import { near } from './near.ts'
import { slabAsked } from './slab-asked.ts'
import type { Slab } from './slab-figures.tsx'
import { WORK_FIELDS, WorkTold, workSaid } from './work-told.tsx'

interface Lifted {
  readonly slab: Slab
  /** Clay of the same body on the bench, what was used last first. */
  readonly lots: readonly WeighableThing[]
  readonly scales: readonly Scale[]
}

/** A slab lifted off its bat: it is clay on the bench again. */
export const liftPage: ActPage<Lifted> = {
  path: '/plaster/:lotId/lift',
  act: actCalled('lift'),
  here: 'plaster',
  press: 'Lift',
  async load(c) {
    const slab = await slabAsked(c)
    const things = await weighList(c.get('services').db, c.get('studioId'))
    const lots = things.filter(({ kind, bodyId }) => kind === 'lot' && bodyId === slab.bodyId)
    return { slab, lots, scales: await allScales(c) }
  },
  title: ({ slab }) => `Lift: slab on ${slab.batName}`,
  keeps: ({ slab }) => `Slab lifted off ${slab.batName}`,
  said: (typed, { slab }) => {
    const intoLotId = typed.text('intoLotId')
    const scrapings = typed.net('scrapings')
    return saidOnly({
      ...workSaid(typed),
      lotId: slab.lotId,
      reading: typed.gross('gross'),
      bat: typed.net('bat'),
      scrapings: scrapings === undefined ? undefined : { reading: scrapings },
      intoLotId,
      label: intoLotId === undefined ? typed.text('label') : undefined,
    })
  },
  fieldOf: {
    ...WORK_FIELDS,
    '/lotId': 'gross',
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/bat': 'bat',
    '/scrapings': 'scrapings',
    '/intoLotId': 'intoLotId',
    '/label': 'label',
  },
  next: () => '/plaster',
  keysFor: 'gross',
  Form: ({ data: { slab }, typed, voice, faults }) => (
    <>
      <LiftedAlready slab={slab} voice={voice} />
      <ScaleFigures
        typed={typed}
        faults={faults}
        voice={voice}
        label="The slab alone weighs"
        knownDryGrams={slab.dryGrams}
        of={`Ready at ${voice.mass(slab.readyGrams)}. Left empty, it is taken to be as wet as clay that is ready to wedge. It becomes a heap of its own; change that below.`}
        isOptional
      />
    </>
  ),
  After: (props) => {
    const { data, typed, voice, faults } = props
    const { slab, lots } = data
    const field = { typed, faults }
    return (
      <>
        <ChoiceField
          {...field}
          name="intoLotId"
          label="Where it goes"
          usual=""
          choices={[
            { value: '', name: 'A heap of its own', hint: 'reclaimed clay, new on the bench' },
            ...lots.map(({ id, name, wetGrams }) => ({
              value: id,
              name: `To ${name}`,
              hint: voice.mass(wetGrams),
            })),
          ]}
        />
        <details class="more" open={isMoreTyped(typed)}>
          <summary>The bat alone, scrapings, or a name for the heap</summary>
          <MassField
            {...field}
            voice={voice}
            name="bat"
            label={`${slab.batName} alone`}
            hint="Tells how much water the plaster holds, and so when it can be used again."
          />
          <MassField
            {...field}
            voice={voice}
            name="scrapings"
            label="Scraped off and thrown away"
            hint="What may have plaster in it. Plaster in clay breaks pots."
            unit="g"
          />
          <TextField
            {...field}
            name="label"
            label="What the heap is called"
            hint={`“reclaimed from ${slab.batName}” where it is left empty. Counts for a heap of its own.`}
          />
        </details>
        <WorkTold {...field} asksWay />
        <OtherTare {...props} scales={data.scales} />
      </>
    )
  },
}

function isMoreTyped(typed: Typed): boolean {
  return typed.hasMass('bat') || typed.hasMass('scrapings') || typed.text('label') !== undefined
}

/** Said on top where the slab is no longer there: the form may come back after a lost answer. */
export function LiftedAlready({
  slab,
  voice,
}: Pick<ActFormProps<unknown>, 'voice'> & { slab: Slab }) {
  if (slab.endedAt === null) return null
  return (
    <p class="ask">
      By the books this slab left {slab.batName} {near(slab.endedAt, voice)}.
    </p>
  )
}
