import { z } from '@hono/zod-openapi'
import { RECLAIM_WAYS } from '../../shared/reclaim-worth.ts'
import { decimalText } from '../decimal-text.ts'

const MINUTES_IN_A_DAY = '1440'

/** How long hands were at it: for the report on what reclaiming is worth. */
export const minutesTold = {
  minutes: decimalText(
    'How long hands were at it, in minutes, drying and waiting left out. It costs nothing in the books; GET /v1/reports/reclaim compares with it.',
    { above: '0', atMost: MINUTES_IN_A_DAY, digitsAfterMax: 2 },
  )
    .openapi({ example: '25' })
    .optional(),
}

/** The same, with how scrap was made into clay again. */
export const wayTold = {
  ...minutesTold,
  way: z
    .enum(RECLAIM_WAYS)
    .openapi({
      description:
        'How scrap was made into clay again: by_hand (slaked, dried on plaster, wedged) or by_mill (through a pug mill).',
      example: 'by_hand',
    })
    .optional(),
}
