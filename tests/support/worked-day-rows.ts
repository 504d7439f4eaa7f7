/**
 * The worked day of the handbook, section 8 (a fictional day of two potters): the rows that the replay
 * sends, with the net mass and the water content as printed and the dry mass as printed, in kg.
 *
 * Source: the project's handbook of the trade, section 8, "Worked day". Standing: computed there from
 * stated inputs, rows rounded to 1 g.
 */
export const ROWS = {
  sealed: ['175.00', '20.5', '139.125'],
  openBag: ['6.40', '20.5', '5.088'],
  reclaim: ['10.00', '22.0', '7.800'],
  slabA: ['11.20', '42.0', '6.496'],
  platesOld: ['17.55', '16.5', '14.654'],
  jugsOld: ['12.74', '17.0', '10.574'],
  plantersOld: ['12.40', '1.0', '12.276'],
  scrap: ['9.60', '1.5', '9.456'],
  slops: ['7.50', '62.0', '2.850'],
  slurry1: ['24.00', '46.0', '12.960'],
  platesInKiln: ['18.00', '1.0', '17.820'],
  decanted: ['3.40', '99.7', '0.010'],
  planterCollapsed: ['2.25', '23.5', '1.721'],
  plateTorn: ['1.52', '23.0', '1.170'],
  plugs: ['0.70', '22.5', '0.543'],
  skirts: ['0.50', '22.5', '0.388'],
  splashPans: ['8.00', '80.0', '1.600'],
  plantersThrown: ['25.40', '22.6', '19.660'],
  jugsThrown: ['13.60', '22.3', '10.567'],
  platesThrown: ['20.25', '22.2', '15.755'],
  plateTurnings: ['3.30', '15.5', '2.789'],
  plateTurnedThrough: ['1.17', '16.0', '0.983'],
  platesTurned: ['12.90', '16.0', '10.836'],
  jugTurnings: ['1.05', '16.0', '0.882'],
  handleOffCuts: ['0.62', '26.0', '0.459'],
  jugsWithHandles: ['12.75', '16.6', '10.634'],
  planterKnocked: ['1.56', '1.0', '1.544'],
  mopped: ['0.20', '75.0', '0.050'],
} as const

export type RowName = keyof typeof ROWS

/** What the handbook says is where in the evening, in dry kg. */
export const CLOSING = {
  sealed: '99.375',
  openBag: '5.883',
  reclaim: '0.294',
  rewedgePile: '4.281',
  plantersThrown: '19.660',
  jugsThrown: '10.567',
  platesThrown: '15.755',
  platesTurned: '10.836',
  jugsWithHandles: '10.634',
  plantersInKiln: '10.732',
  scrap: '6.198',
  slops: '4.450',
  slurry2: '9.456',
  slurry1: '5.406',
  bats: '7.544',
  settling: '0.060',
  waste: '0.010',
  unexplained: '0.138',
} as const
