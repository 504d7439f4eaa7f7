import { z } from '@hono/zod-openapi'
import { scales as catalogue } from '../../db/catalogue.ts'
import { decimal } from '../../shared/decimal.ts'
import { decimalText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { together } from '../together.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

const facts = {
  name: labelText('What it is called; new in the studio.', 'Bench scale'),
  divisionGrams: decimalText('The step of its display, g.', {
    above: '0',
    atMost: '10000',
  }).openapi({ example: '5' }),
  capacityGrams: decimalText('The most that it can weigh, g.', {
    above: '0',
    atMost: '10000000',
  }).openapi({ example: '30000' }),
}

/** Scales: the step of the display tells how sure a reading is. */
export const SCALES: CatalogueResource = {
  path: 'scales',
  one: 'scale',
  idName: 'scaleId',
  catalogue,
  created: z
    .strictObject({
      scaleId: idText('An id of your own; made where none is given.', 'bench-scale').optional(),
      ...facts,
    })
    .superRefine(
      together((said) => {
        if (decimal(said.divisionGrams).lessThanOrEqualTo(said.capacityGrams)) return undefined
        const message = 'A scale carries at least one step of its display. Were the two exchanged?'
        return { message, path: ['divisionGrams'] }
      }),
    )
    .openapi('NewScale'),
  changed: changeOf(facts, 'ScaleChange'),
  shown: z.object({ scaleId: z.string(), ...facts, changedAt: z.string() }).openapi('Scale'),
  example: {
    scaleId: 'bench-scale',
    name: 'Bench scale',
    divisionGrams: '5',
    capacityGrams: '30000',
  },
  exampleOfChange: { divisionGrams: '2' },
}
