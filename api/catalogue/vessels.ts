import { z } from '@hono/zod-openapi'
import { vessels as catalogue } from '../../db/catalogue.ts'
import { decimalText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

const facts = {
  name: labelText('What it is called; new in the studio.', 'Turnings, white lid'),
  kind: z
    .enum(['bucket', 'basin', 'board', 'tin', 'other'])
    .openapi({ description: 'What it is.', example: 'bucket' }),
  tareGrams: decimalText('What it weighs empty, g.', {
    atLeast: '0',
    atMost: '100000',
  }).openapi({ example: '610' }),
}

/** Buckets, basins, boards and tins, with what they weigh empty. */
export const VESSELS: CatalogueResource = {
  path: 'vessels',
  one: 'vessel',
  idName: 'vesselId',
  catalogue,
  created: z
    .strictObject({
      vesselId: idText('An id of your own; made where none is given.', 'bucket-1').optional(),
      ...facts,
    })
    .openapi('NewVessel'),
  changed: changeOf(facts, 'VesselChange'),
  shown: z.object({ vesselId: z.string(), ...facts, changedAt: z.string() }).openapi('Vessel'),
  example: { vesselId: 'bucket-1', name: 'Turnings, white lid', kind: 'bucket', tareGrams: '610' },
  exampleOfChange: { tareGrams: '595' },
}
