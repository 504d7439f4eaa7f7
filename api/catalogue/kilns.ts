import { z } from '@hono/zod-openapi'
import { kilns as catalogue } from '../../db/catalogue.ts'
import { SHARE_RULES } from '../../shared/firing-share.ts'
import { USABLE_FRACTION_OF_KILN } from '../../shared/kiln-fill.ts'
import { decimalText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

const name = labelText('What it is called; new in the studio.', 'Top loader')

const usual = {
  usableFraction: decimalText(
    'How much of its volume ware can fill, between shelves and props, as a fraction.',
    { above: '0', atMost: '1' },
  ).openapi({ example: '0.6' }),
  shareBy: z.enum(SHARE_RULES).openapi({
    description:
      'By what a firing is shared out over the pots in it: shelf_space (footprint times height of the form, litres), mass (dry, as loaded, g) or count (pieces).',
    example: 'shelf_space',
  }),
  wearPerFiring: decimalText(
    'What each firing is charged for elements and kiln furniture, in the studio’s currency.',
    { atLeast: '0', atMost: '1000000', digitsAfterMax: 6 },
  ).openapi({ example: '2.40' }),
}

const hours = (of: string) =>
  decimalText(`How long ${of} usually takes, hours; for the rule where nobody read a meter.`, {
    above: '0',
    atMost: '1000',
  }).openapi({ example: '9.5' })

const known = {
  volumeLitres: decimalText('The room inside it, l.', { above: '0', atMost: '1000000' })
    .openapi({ example: '198' })
    .nullable(),
  ratedKilowatts: decimalText('Its rated power, kW.', { above: '0', atMost: '100000' })
    .openapi({ example: '11.5' })
    .nullable(),
  pricePerKilowattHour: decimalText(
    'What a kilowatt-hour costs, in the studio’s currency; finer than its coins if need be.',
    { atLeast: '0', atMost: '1000000' },
  )
    .openapi({ example: '0.28' })
    .nullable(),
  bisqueHours: hours('a bisque firing').nullable(),
  glazeHours: hours('a glaze firing').nullable(),
  fuelMaterialId: idText(
    'What it burns, where its gas is weighed: a material of the kind fuel.',
    'propane',
  ).nullable(),
}

const created = z
  .strictObject({
    kilnId: idText('An id of your own; made where none is given.', 'top-loader').optional(),
    name,
    usableFraction: usual.usableFraction.default(USABLE_FRACTION_OF_KILN.toFixed()),
    shareBy: usual.shareBy.default('shelf_space'),
    wearPerFiring: usual.wearPerFiring.default('0'),
    volumeLitres: known.volumeLitres.optional(),
    ratedKilowatts: known.ratedKilowatts.optional(),
    pricePerKilowattHour: known.pricePerKilowattHour.optional(),
    bisqueHours: known.bisqueHours.optional(),
    glazeHours: known.glazeHours.optional(),
    fuelMaterialId: known.fuelMaterialId.optional(),
  })
  .openapi('NewKiln')

/** Kilns: their room, their power, and how what they cost is shared out. */
export const KILNS: CatalogueResource = {
  path: 'kilns',
  one: 'kiln',
  idName: 'kilnId',
  catalogue,
  created,
  changed: changeOf({ name, ...usual, ...known }, 'KilnChange'),
  shown: z
    .object({ kilnId: z.string(), name, ...usual, ...known, changedAt: z.string() })
    .openapi('Kiln'),
  example: {
    kilnId: 'top-loader',
    name: 'Top loader',
    volumeLitres: '198',
    ratedKilowatts: '11.5',
    pricePerKilowattHour: '0.28',
    wearPerFiring: '2.40',
    bisqueHours: '9.5',
    glazeHours: '11',
  },
  exampleOfChange: { pricePerKilowattHour: '0.31' },
}
