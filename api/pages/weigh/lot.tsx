import { moistureOfBody, type MoistureRow } from '../../../db/reports/moisture.ts'
import type { WeighableThing } from '../../../db/reports/weigh-list.ts'
import { present } from '../../../shared/assert.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { allScales, type Scale } from '../things.ts'
import { OtherTare, ScaleFigures } from './scale-figures.tsx'
import { thingWeighed } from './thing-weighed.ts'

interface LotWeighed {
  readonly lot: WeighableThing
  readonly scales: readonly Scale[]
  readonly wedged: MoistureRow
}

/** Open clay on the bench, all of it on the scale. */
export const weighLot: ActPage<LotWeighed> = {
  path: '/weigh/lot/:lotId',
  act: actCalled('count'),
  here: 'weigh',
  press: 'Weigh in',
  async load(c) {
    const { db } = c.get('services')
    const studioId = c.get('studioId')
    const lotId = c.req.param('lotId')
    const lot = await thingWeighed(c, {
      isIt: ({ kind, id }) => kind === 'lot' && id === lotId,
      code: 'lot_not_found',
      words: 'Nothing of this clay is on the bench.',
    })
    const rows = await moistureOfBody(
      db,
      studioId,
      present(lot.bodyId ?? undefined, 'clay is of a body'),
    )
    const wedged = present(
      rows.find(({ state }) => state === 'wedged'),
      'each state has its figure',
    )
    return { lot, scales: await allScales(c), wedged }
  },
  title: ({ lot }) => lot.name,
  said: (typed, { lot }) => ({ holdingId: lot.holdingId, reading: typed.gross('gross') }),
  fieldOf: {
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/holdingId': 'gross',
  },
  next: () => '/weigh',
  keysFor: 'gross',
  Form: ({ data, typed, voice, faults }) => (
    <ScaleFigures
      typed={typed}
      faults={faults}
      voice={voice}
      label="The scale shows"
      of={`All of it that is on the bench. By the books there should be ${voice.mass(data.lot.wetGrams)}.`}
      water={{
        content: data.wedged.waterContentWetBasis,
        uncertainty: data.wedged.standardUncertainty,
      }}
    />
  ),
  After: (props) => <OtherTare {...props} scales={props.data.scales} />,
}
