import { z } from '@hono/zod-openapi'
import { forms as catalogue } from '../../db/catalogue.ts'
import { decimalText, fractionText, moneyText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

const PACKING_MAX = 20

const name = labelText('What it is called; new in the studio.', 'Mug')
const known = {
  ballGrams: decimalText('What one ball weighs, wet, g.', { above: '0', atMost: '100000' })
    .openapi({ example: '420' })
    .nullable(),
  turnedOffFraction: fractionText('What is turned off, of what was thrown.').nullable(),
  price: moneyText('What a first sells for, in the studio’s currency.')
    .openapi({ example: '24.00' })
    .nullable(),
  kilnFootprintSquareCentimetres: decimalText(
    'The room that one takes on a kiln shelf, with the gap to its neighbours, cm².',
    { above: '0', atMost: '100000' },
  )
    .openapi({ example: '110' })
    .nullable(),
  kilnHeightCentimetres: decimalText('How high it stands in the kiln, with the gap above, cm.', {
    above: '0',
    atMost: '1000',
  })
    .openapi({ example: '12' })
    .nullable(),
  glazeGramsPerPiece: decimalText('The dry glaze on one, g; goes until glazing it was weighed.', {
    above: '0',
    atMost: '100000',
  })
    .openapi({ example: '38' })
    .nullable(),
}

const packing = z
  .array(
    z
      .strictObject({
        materialId: idText('The packaging.', 'mug-box'),
        perPiece: decimalText(
          'How much of it goes with one sold piece: pieces, or grams as supplied where it is kept by mass.',
          { above: '0', atMost: '100000' },
        ).openapi({ example: '1' }),
      })
      .openapi('PackingPart'),
  )
  .max(PACKING_MAX)
  .refine((parts) => new Set(parts.map((part) => part.materialId)).size === parts.length, {
    error: 'Name each packaging once.',
  })
  .openapi({ description: 'What a sold piece is packed in; replaced as a whole.' })

const created = z
  .strictObject({
    formId: idText('An id of your own; made where none is given.', 'mug').optional(),
    name,
    ballGrams: known.ballGrams.optional(),
    turnedOffFraction: known.turnedOffFraction.optional(),
    price: known.price.optional(),
    kilnFootprintSquareCentimetres: known.kilnFootprintSquareCentimetres.optional(),
    kilnHeightCentimetres: known.kilnHeightCentimetres.optional(),
    glazeGramsPerPiece: known.glazeGramsPerPiece.optional(),
    packing: packing.default([]),
  })
  .openapi('NewForm')

/** Shapes that are made again and again. */
export const FORMS: CatalogueResource = {
  path: 'forms',
  one: 'form',
  idName: 'formId',
  catalogue,
  created,
  changed: changeOf({ name, ...known, packing }, 'FormChange'),
  shown: z
    .object({ formId: z.string(), name, ...known, packing, changedAt: z.string() })
    .openapi('Form'),
  example: { formId: 'mug', name: 'Mug', ballGrams: '420', price: '24.00' },
  exampleOfChange: { price: '26.00' },
}
