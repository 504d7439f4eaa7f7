import { z } from '@hono/zod-openapi'
import { forms as catalogue } from '../../db/catalogue.ts'
import { decimalText, fractionText, moneyText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

const name = labelText('What it is called; new in the studio.', 'Mug')
const known = {
  ballGrams: decimalText('What one ball weighs, wet, g.', { above: '0', atMost: '100000' })
    .openapi({ example: '420' })
    .nullable(),
  turnedOffFraction: fractionText('What is turned off, of what was thrown.').nullable(),
  price: moneyText('What a first sells for, in the studio’s currency.')
    .openapi({ example: '24.00' })
    .nullable(),
}

const created = z
  .strictObject({
    formId: idText('An id of your own; made where none is given.', 'mug').optional(),
    name,
    ballGrams: known.ballGrams.optional(),
    turnedOffFraction: known.turnedOffFraction.optional(),
    price: known.price.optional(),
  })
  .openapi('NewForm')

/** Shapes that are made again and again. */
export const FORMS: CatalogueResource = {
  path: 'forms',
  one: 'form',
  idName: 'formId',
  catalogue,
  created,
  changed: changeOf({ name, ...known }, 'FormChange'),
  shown: z.object({ formId: z.string(), name, ...known, changedAt: z.string() }).openapi('Form'),
  example: { formId: 'mug', name: 'Mug', ballGrams: '420', price: '24.00' },
  exampleOfChange: { price: '26.00' },
}
