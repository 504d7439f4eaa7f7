import { z } from '@hono/zod-openapi'
import { bats as catalogue } from '../../db/catalogue.ts'
import { decimalText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

const name = labelText('What it is called; new in the studio.', 'Window bat')
const millimetres = (description: string) =>
  decimalText(description, { above: '0', atMost: '10000' }).openapi({ example: '400' }).nullable()
const known = {
  dryGrams: decimalText('What it weighs dry, g.', { above: '0', atMost: '1000000' })
    .openapi({ example: '9400' })
    .nullable(),
  lengthMillimetres: millimetres('Length, mm.'),
  widthMillimetres: millimetres('Width, mm.'),
  thicknessMillimetres: millimetres('Thickness, mm.'),
}

const created = z
  .strictObject({
    batId: idText('An id of your own; made where none is given.', 'bat-1').optional(),
    name,
    dryGrams: known.dryGrams.optional(),
    lengthMillimetres: known.lengthMillimetres.optional(),
    widthMillimetres: known.widthMillimetres.optional(),
    thicknessMillimetres: known.thicknessMillimetres.optional(),
  })
  .openapi('NewBat')

/** Plaster slabs on which slurry dries. */
export const BATS: CatalogueResource = {
  path: 'bats',
  one: 'plaster bat',
  idName: 'batId',
  catalogue,
  created,
  changed: changeOf({ name, ...known }, 'BatChange'),
  shown: z.object({ batId: z.string(), name, ...known, changedAt: z.string() }).openapi('Bat'),
  example: { batId: 'bat-1', name: 'Window bat', dryGrams: '9400', lengthMillimetres: '400' },
  exampleOfChange: { dryGrams: '9350' },
}
