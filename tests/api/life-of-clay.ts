import { g, kg } from '../support/studio.ts'

/** A life of clay in the order in which it happens: every act at least once. */
export const LIFE: readonly (readonly [act: string, said: object])[] = [
  [
    'open-books',
    {
      items: [
        { what: 'bags', bodyId: 'white', lotId: 'old', bags: 3, bagMass: kg('10'), cost: '30.00' },
        { what: 'clay', bodyId: 'white', lotId: 'old-clay', reading: { net: kg('4.5') } },
        { what: 'scrap', bodyId: 'white', vesselId: 'bucket-3', reading: { net: kg('2.2') } },
        { what: 'basin', bodyId: 'white', vesselId: 'basin-2', reading: { net: kg('5.0') } },
        {
          what: 'load',
          bodyId: 'white',
          batId: 'bat-b',
          lotId: 'from-before',
          reading: { net: kg('3.0') },
        },
        {
          what: 'pots',
          bodyId: 'white',
          runId: 'old-plates',
          formId: 'plate',
          at: 'finished',
          grade: 'second',
          pieces: 6,
          reading: { net: kg('6.6') },
        },
      ],
    },
  ],
  [
    'receive-delivery',
    {
      clays: [{ bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }],
      freight: '20.00',
    },
  ],
  ['open-bag', { lotId: 'd1', bags: 2, newLotId: 'o1', reading: { net: kg('24.90') } }],
  ['rewet', { lotId: 'o1', place: 'bench', water: g('100') }],
  [
    'dry-test',
    {
      bodyId: 'buff',
      state: 'wedged',
      lotId: 'o1',
      sample: { tin: g('20.0'), wetWithTin: g('120.0'), dryWithTin: g('98.0') },
    },
  ],
  [
    'throw',
    {
      formId: 'mug',
      runId: 'r1',
      from: [{ lotId: 'o1', balls: 20, ballMass: kg('0.400') }],
      happenedAt: '2026-06-15T13:00:00+01:00',
      by: 'Ines',
      note: 'first of the week',
    },
  ],
  [
    'join',
    {
      runId: 'r1',
      from: [{ lotId: 'o1', reading: { net: kg('1.60') } }],
      offCuts: { reading: { net: kg('0.4') }, vesselId: 'bucket-1' },
    },
  ],
  [
    'collect-slops',
    { runIds: ['r1'], vesselId: 'bucket-1', state: 'slops', reading: { net: kg('0.90') } },
  ],
  [
    'turn',
    { runId: 'r1', vesselId: 'bucket-1', before: { net: kg('7.0') }, after: { net: kg('6.4') } },
  ],
  ['weigh-run', { runId: 'r1', place: 'greenware', reading: { net: kg('7.2') } }],
  ['lose', { runId: 'r1', pieces: 2, stage: 'drying', cause: 'handle off', vesselId: 'bucket-1' }],
  [
    'weigh-scrap',
    { vesselId: 'bucket-1', bodyId: 'buff', state: 'slops', reading: { net: kg('3.1') } },
  ],
  ['bisque', { runs: [{ runId: 'r1' }] }],
  ['lose', { runId: 'r1', pieces: 1, stage: 'bisque_firing', cause: 'blew' }],
  ['glaze-fire', { runs: [{ runId: 'r1' }] }],
  ['grade', { runId: 'r1', firsts: 14, seconds: 2, wasters: 1, cause: 'crawled' }],
  ['sell', { formId: 'mug', grade: 'first', pieces: 6, priceEach: '18.00', channel: 'fair' }],
  ['give-away', { formId: 'mug', grade: 'first', pieces: 1, reason: 'a wedding' }],
  ['keep', { formId: 'mug', grade: 'second', pieces: 1 }],
  ['break-in-shop', { formId: 'mug', grade: 'first', pieces: 1, reason: 'fell' }],
  ['slake', { fromVesselId: 'bucket-1', basinVesselId: 'basin-1', water: { net: kg('2.0') } }],
  ['decant', { basinVesselId: 'basin-1', reading: { net: kg('0.5') }, clarity: 'clear' }],
  [
    'read-slurry',
    {
      basinVesselId: 'basin-1',
      slurry: { net: g('1300') },
      volume: { value: '1000', unit: 'ml' },
      celsius: '18.5',
    },
  ],
  [
    'pour',
    {
      basinVesselId: 'basin-1',
      loads: [
        { batId: 'bat-a', lotId: 'l0', reading: { net: kg('2.0') }, thicknessMillimetres: '24' },
      ],
    },
  ],
  ['lift', { lotId: 'from-before', newLotId: 'rec0', bat: { net: kg('7.6') } }],
  [
    'move-load',
    {
      lotId: 'l0',
      batId: 'bat-b',
      newLotId: 'l1',
      reading: { net: kg('1.85') },
      bat: { net: kg('7.12') },
    },
  ],
  [
    'weigh-on-plaster',
    {
      lotId: 'l1',
      reading: { net: kg('1.7') },
      withPlaster: false,
      bat: { net: kg('7.2') },
      turned: true,
    },
  ],
  ['weigh-on-plaster', { lotId: 'l1', reading: { net: kg('8.7') }, withPlaster: true }],
  ['lift', { lotId: 'l1', newLotId: 'rec1', reading: { net: kg('1.5') } }],
  [
    'wedge',
    {
      from: [
        { lotId: 'rec1', whatIsLeft: true },
        { lotId: 'o1', reading: { net: kg('3') } },
      ],
      additions: [{ name: 'grog', reading: { net: g('50') }, price: '0.10' }],
      newLotId: 'w1',
    },
  ],
]
