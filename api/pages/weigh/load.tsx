import type { Context } from 'hono'
import type { WeighableThing } from '../../../db/reports/weigh-list.ts'
import type { Environment } from '../../services.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allScales, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { OtherTare, ScaleFigures } from './scale-figures.tsx'
import { thingWeighed } from './thing-weighed.ts'

interface LoadWeighed {
  readonly load: WeighableThing
  readonly scales: readonly Scale[]
}

async function loadOn(c: Context<Environment>): Promise<LoadWeighed> {
  const batId = c.req.param('batId')
  const load = await thingWeighed(c, {
    isIt: (thing) => thing.kind === 'load' && thing.batId === batId,
    code: 'lot_not_found',
    words: 'Nothing lies on this bat. Pour on it first.',
  })
  return { load, scales: await allScales(c) }
}

/** A slab on plaster, lifted and put on the scale. The page of the bat, as its printed code leads there. */
export const weighLoad: ActPage<LoadWeighed> = {
  path: '/weigh/bat/:batId',
  act: actCalled('weigh-on-plaster'),
  here: 'weigh',
  press: 'Weigh in',
  load: loadOn,
  title: ({ load }) => `Slab on ${load.name}`,
  said: (typed, { load }) =>
    saidOnly({
      lotId: load.id,
      reading: typed.gross('gross'),
      withPlaster: typed.isYes('withPlaster'),
      bat: typed.net('bat'),
      turned: typed.isYes('turned') ? true : undefined,
    }),
  fieldOf: {
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/withPlaster': 'withPlaster',
    '/bat': 'bat',
    '/turned': 'turned',
  },
  next: () => '/plaster',
  keysFor: 'gross',
  Form: ({ data, typed, voice, faults }) => (
    <ScaleFigures
      typed={typed}
      faults={faults}
      voice={voice}
      label="The scale shows"
      knownDryGrams={data.load.dryGrams}
      of={typed.isYes('withPlaster') ? WITH_ITS_BAT : ALONE}
    />
  ),
  After: (props) => (
    <>
      <HowItStood {...props} />
      <OtherTare {...props} scales={props.data.scales} />
    </>
  ),
}

const ALONE = 'Taken as the slab alone, lifted off its bat. Change it below.'
const WITH_ITS_BAT =
  'Taken with its bat: what the clay lost the plaster drank, so this tells nothing of its water.'

function HowItStood({ typed, voice, faults }: ActFormProps<LoadWeighed>) {
  const field = { typed, faults }
  return (
    <>
      <ChoiceField
        {...field}
        name="withPlaster"
        label="What stood on the scale"
        usual="no"
        choices={[
          { value: 'no', name: 'The slab alone', hint: 'tells its water', takenAs: ALONE },
          {
            value: 'yes',
            name: 'Slab and bat together',
            hint: 'tells nothing of its water',
            takenAs: WITH_ITS_BAT,
            tellsNothing: true,
          },
        ]}
      />
      <ChoiceField
        {...field}
        name="turned"
        label="And then"
        isMany
        choices={[{ value: 'yes', name: 'Turned it over' }]}
      />
      <details class="more">
        <summary>The bat alone was weighed too</summary>
        <MassField
          {...field}
          voice={voice}
          name="bat"
          label="The bat alone"
          hint="Tells how much water the plaster holds."
        />
      </details>
    </>
  )
}
