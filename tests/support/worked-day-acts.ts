import { decimal } from '../../shared/decimal.ts'
import { BODY, openDay, tell, type Day, type Telling } from './worked-day.ts'
import type { RowName } from './worked-day-rows.ts'

type Row = ReturnType<typeof tell>

/** The whole day, row by row, as the two potters would have told it. */
export async function replay(telling: Telling): Promise<Day> {
  const day = await openDay(telling)
  const row = tell(telling)
  await playMorning(day, row)
  await playNoon(day, telling, row)
  await playAfternoon(day, row)
  return day
}

async function playMorning(day: Day, row: Row): Promise<void> {
  const at = (time: string) => ({ happenedAt: `2026-05-14T${time}:00+01:00` })
  const pots = (of: { runId: string; formId: string }, pieces: number, name: RowName) => ({
    what: 'pots',
    bodyId: BODY,
    ...of,
    at: 'greenware',
    pieces,
    ...row(name),
  })
  await day.does('open-books', {
    ...at('07:30'),
    items: [
      { what: 'bags', bodyId: BODY, lotId: 'sealed', bags: 14, cost: '210.00', ...row('sealed') },
      { what: 'clay', bodyId: BODY, lotId: 'open-bag', cost: '7.68', ...row('openBag') },
      { what: 'clay', bodyId: BODY, lotId: 'reclaim', ...row('reclaim') },
      { what: 'load', bodyId: BODY, lotId: 'slab-a', batId: 'bat-a', ...row('slabA') },
      {
        ...pots({ runId: 'plates-old', formId: 'plate' }, 12, 'platesOld'),
        reading: { gross: { value: '21.95', unit: 'kg' }, tare: { value: '4.40', unit: 'kg' } },
      },
      pots({ runId: 'jugs-old', formId: 'jug' }, 10, 'jugsOld'),
      pots({ runId: 'planters-old', formId: 'planter' }, 8, 'plantersOld'),
      pots({ runId: 'plates-in-kiln', formId: 'plate' }, 18, 'platesInKiln'),
      { what: 'scrap', bodyId: BODY, vesselId: 'scrap-bin', ...row('scrap') },
      { what: 'scrap', bodyId: BODY, vesselId: 'slops-bucket', ...row('slops') },
      { what: 'basin', bodyId: BODY, vesselId: 'bucket-1', ...row('slurry1') },
    ],
  })
  await day.does('lift', {
    ...at('07:45'),
    by: 'B',
    lotId: 'slab-a',
    newLotId: 'reclaim-a',
    reading: { net: { value: '8.38', unit: 'kg' } },
    scrapings: {
      reading: { net: { value: '10', unit: 'g' } },
      water: { content: '0', basis: 'wet', standing: 'stated' },
    },
  })
  await day.does('open-bag', {
    ...at('08:10'),
    by: 'A',
    lotId: 'sealed',
    bags: 4,
    intoLotId: 'open-bag',
    reading: { net: { value: '50.00', unit: 'kg' } },
  })
  await day.does('throw', {
    ...at('08:20'),
    by: 'A',
    formId: 'planter',
    runId: 'planters-new',
    pieces: 12,
    from: [
      { lotId: 'reclaim', whatIsLeft: true },
      { lotId: 'reclaim-a', reading: { net: { value: '8.00', unit: 'kg' } } },
      { lotId: 'open-bag', reading: { net: { value: '10.80', unit: 'kg' } } },
    ],
  })
  const ballsOf = (balls: number, value: string) => [
    { lotId: 'open-bag', balls, ballMass: { value, unit: 'kg' } },
  ]
  await day.does('throw', {
    ...at('08:35'),
    by: 'B',
    formId: 'jug',
    runId: 'jugs-new',
    from: ballsOf(10, '1.40'),
  })
  await day.does('throw', {
    ...at('08:40'),
    by: 'B',
    formId: 'plate',
    runId: 'plates-new',
    from: ballsOf(14, '1.60'),
  })
}

async function playNoon(day: Day, telling: Telling, row: Row): Promise<void> {
  const at = (time: string) => ({ happenedAt: `2026-05-14T${time}:00+01:00` })
  await day.does('bisque', {
    ...at('10:00'),
    by: 'B',
    runs: [{ runId: 'plates-in-kiln', reading: { net: { value: '16.50', unit: 'kg' } } }],
  })
  await day.does('slake', {
    ...at('11:00'),
    by: 'B',
    fromVesselId: 'scrap-bin',
    basinVesselId: 'bucket-2',
    water: { net: { value: '7.00', unit: 'kg' } },
  })
  const solids = telling === 'dry masses as printed' ? decimal('0.010').dividedBy('3.40') : '0.003'
  await day.does('decant', {
    ...at('11:10'),
    by: 'B',
    basinVesselId: 'bucket-1',
    reading: row('decanted').reading,
    clarity: 'clear',
    solidsFraction: decimal(solids).toDecimalPlaces(12).toFixed(),
    intoVesselId: 'settling',
  })
  await day.does('pour', {
    ...at('11:20'),
    by: 'B',
    basinVesselId: 'bucket-1',
    loads: ['bat-b', 'bat-c'].map((batId) => ({
      batId,
      lotId: `load-${batId}`,
      reading: { net: { value: '6.00', unit: 'kg' } },
    })),
  })
  await day.does('lose', {
    ...at('12:30'),
    by: 'A',
    runId: 'planters-new',
    pieces: 1,
    stage: 'wheel',
    cause: 'collapsed',
    vesselId: 'rewedge-pile',
    ...row('planterCollapsed'),
  })
  await day.does('lose', {
    ...at('12:30'),
    by: 'B',
    runId: 'plates-new',
    pieces: 1,
    stage: 'wheel',
    cause: 'torn lifting',
    vesselId: 'rewedge-pile',
    ...row('plateTorn'),
  })
  const offCuts = { state: 'off_cuts', vesselId: 'rewedge-pile' }
  await day.does('collect-slops', {
    ...at('12:35'),
    by: 'A',
    runIds: ['planters-new'],
    ...offCuts,
    ...row('plugs'),
  })
  await day.does('collect-slops', {
    ...at('12:35'),
    by: 'B',
    runIds: ['jugs-new', 'plates-new'],
    ...offCuts,
    ...row('skirts'),
  })
  await day.does('collect-slops', {
    ...at('12:40'),
    by: 'A',
    runIds: ['planters-new', 'jugs-new', 'plates-new'],
    state: 'slops',
    vesselId: 'slops-bucket',
    ...row('splashPans'),
  })
  for (const [runId, name] of [
    ['planters-new', 'plantersThrown'],
    ['jugs-new', 'jugsThrown'],
    ['plates-new', 'platesThrown'],
  ] as const) {
    await day.does('weigh-run', { ...at('12:45'), runId, place: 'greenware', ...row(name) })
  }
}

async function playAfternoon(day: Day, row: Row): Promise<void> {
  const at = (time: string) => ({ happenedAt: `2026-05-14T${time}:00+01:00` })
  const turnings = (name: RowName) => ({ turnings: row(name).reading, water: row(name).water })
  await day.does('turn', {
    ...at('14:40'),
    by: 'A',
    runId: 'plates-old',
    vesselId: 'scrap-bin',
    ...turnings('plateTurnings'),
  })
  await day.does('lose', {
    ...at('14:40'),
    by: 'A',
    runId: 'plates-old',
    pieces: 1,
    stage: 'leather_hard',
    cause: 'turned through',
    vesselId: 'scrap-bin',
    ...row('plateTurnedThrough'),
  })
  await day.does('weigh-run', {
    ...at('14:45'),
    by: 'A',
    runId: 'plates-old',
    place: 'greenware',
    ...row('platesTurned'),
  })
  await day.does('turn', {
    ...at('15:30'),
    by: 'B',
    runId: 'jugs-old',
    vesselId: 'scrap-bin',
    ...turnings('jugTurnings'),
  })
  await day.does('join', {
    ...at('15:35'),
    by: 'B',
    runId: 'jugs-old',
    from: [{ lotId: 'open-bag', balls: 10, ballMass: { value: '0.18', unit: 'kg' } }],
    offCuts: { vesselId: 'rewedge-pile', ...row('handleOffCuts') },
  })
  await day.does('weigh-run', {
    ...at('15:35'),
    by: 'B',
    runId: 'jugs-old',
    place: 'greenware',
    ...row('jugsWithHandles'),
  })
  await day.does('lose', {
    ...at('16:00'),
    by: 'A',
    runId: 'planters-old',
    pieces: 1,
    stage: 'drying',
    cause: 'knocked',
    vesselId: 'scrap-bin',
    ...row('planterKnocked'),
  })
  await day.does('weigh-scrap', {
    ...at('18:15'),
    by: 'B',
    vesselId: 'mop',
    bodyId: BODY,
    state: 'slops',
    ...row('mopped'),
  })
}
