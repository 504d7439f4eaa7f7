import { createRoute, z } from '@hono/zod-openapi'
import { firingsReport, type FiringsReport } from '../../../db/reports/firings.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  idOrNull,
  REPORT_TAG,
  reportAnswer,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { monthText, studioHeader } from '../../schemas.ts'
import { faultOfMonths, together } from '../../together.ts'

const firing = z
  .object({
    entryId: figure('The entry of the fire.', '0199c1de'),
    happenedAt: figure('When.', '2026-04-10T09:00:00.000Z'),
    kilnId: figure('The kiln.', 'big'),
    kilnName: figure('Its name.', 'Big kiln'),
    kind: figure('bisque, glaze or empty.', 'bisque'),
    how: figure('How its energy is known.', 'meter'),
    standing: figure('measured, estimated or assumed.', 'measured'),
    kilowattHours: idOrNull('All that it took, kWh.'),
    candlingKilowattHours: idOrNull('Of which drying the ware before, kWh.'),
    energyCost: figure('What the energy cost.', '5'),
    candlingCost: figure('Of which candling.', '1'),
    wearCost: figure('What was charged for elements and shelves.', '1'),
    fullFraction: idOrNull('How full the kiln was, 0 to 1.'),
    sharedByWords: idOrNull('How it was shared out over the pots.'),
    pieces: figure('Pieces in it.', '10'),
    firedGrams: figure('Fired clay and glaze that came out, g.', '2944'),
    cost: figure('Energy and wear.', '6'),
    costPerPiece: idOrNull('That, a piece; null of an empty kiln.'),
    emptyRoom: z
      .object({
        costPerPiece: figure('A piece.', '0.6'),
        costPerPieceIfFull: figure('A piece in a full kiln.', '0.3'),
        emptyRoomCostPerPiece: figure('The empty room, a piece.', '0.3'),
        emptyRoomCost: figure('The empty room of the load.', '3'),
      })
      .openapi('EmptyRoomCost')
      .nullable()
      .openapi({ description: 'Null where nobody knows how full it was.' }),
    kilowattHoursPerKilogram: idOrNull('kWh a kilogram fired.'),
    kilowattHoursPerLitre: idOrNull('kWh a litre of the kiln.'),
    words: figure('In words.', '0.60 a piece. In a full kiln about 0.30.'),
    trail,
  })
  .openapi('FiringRead')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    currency: z.string().openapi({ example: 'GBP' }),
    from: idOrNull('The first month that was asked for.'),
    to: idOrNull('The last.'),
    firings: z.array(firing),
    idle: z.array(firing).openapi({ description: 'With nothing in the kiln: on no pot.' }),
    energyCost: figure('Energy of the firings together.', '13'),
    idleCost: figure('Energy and wear of the idle kiln.', '3'),
    wear: z
      .object({
        chargedSoFar: figure('Charged to firings, of all time.', '2.6'),
        putIn: figure('Put into kilns.', '10'),
        stillToCharge: figure('Put in less charged.', '7.4'),
        putInPerFiring: idOrNull('Put in, for each firing so far.'),
        words: figure(
          'In words.',
          'Charged so far 2.60, put in 10.00. Firings have 7.40 still to pay.',
        ),
        trail,
      })
      .openapi('WearBalance'),
  })
  .openapi('FiringsReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/firings',
  operationId: 'reportFirings',
  tags: [REPORT_TAG],
  summary: 'What each firing took and cost, and what its empty room cost',
  description:
    'Energy, candling and wear of each firing, how full the kiln was, what it cost a piece and would have cost in a full kiln, kWh a kilogram fired and a litre of kiln. A kiln that fired nothing stands apart. What firings were charged for wear is set against what was put into kilns.',
  request: {
    headers: studioHeader,
    query: z
      .strictObject({
        from: monthText('Fired in this month or later.').optional(),
        to: monthText('Fired in this month or earlier, and not before from.').optional(),
        format: formatQuery(['json', 'csv']),
      })
      .superRefine(together(faultOfMonths)),
  },
  responses: { 200: reportAnswer('The firings', report, ['text/csv']), ...problemsOfReading },
})

/** GET /v1/reports/firings */
export const firings = newRouter().openapi(route, async (c) => {
  const { format, ...asked } = c.req.valid('query')
  const studioId = c.get('studioId')
  const found = await firingsReport(c.get('services').db, { studioId, ...asked })
  if (format !== 'csv') return c.json(found, 200)
  const rows = [...found.firings, ...found.idle]
  return answerCsv(c, { fileName: 'firings', columns: columnsOf(found.currency), rows }) as never
})

type Row = FiringsReport['firings'][number]

function columnsOf(currency: string): Column<Row>[] {
  return [
    { heading: 'happened_at', value: (row) => row.happenedAt },
    { heading: 'kiln', value: (row) => row.kilnName },
    { heading: 'kind', value: (row) => row.kind },
    { heading: 'how', value: (row) => row.how },
    { heading: 'standing', value: (row) => row.standing },
    { heading: 'kilowatt_hours', value: (row) => row.kilowattHours },
    { heading: 'candling_kilowatt_hours', value: (row) => row.candlingKilowattHours },
    { heading: `energy_cost_${currency}`, value: (row) => row.energyCost },
    { heading: `candling_cost_${currency}`, value: (row) => row.candlingCost },
    { heading: `wear_cost_${currency}`, value: (row) => row.wearCost },
    { heading: 'full_fraction', value: (row) => row.fullFraction },
    { heading: 'pieces', value: (row) => row.pieces },
    { heading: 'fired_grams', value: (row) => row.firedGrams },
    { heading: `cost_per_piece_${currency}`, value: (row) => row.costPerPiece },
    {
      heading: `cost_per_piece_if_full_${currency}`,
      value: (row) => row.emptyRoom?.costPerPieceIfFull ?? null,
    },
    { heading: 'kilowatt_hours_per_kilogram', value: (row) => row.kilowattHoursPerKilogram },
    { heading: 'kilowatt_hours_per_litre', value: (row) => row.kilowattHoursPerLitre },
    { heading: 'words', value: (row) => row.words },
    { heading: 'trail', value: (row) => row.trail },
  ]
}
