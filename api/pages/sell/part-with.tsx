import type { ShelfRow } from '../../../db/reports/shelf.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { CountField, TextField } from '../fields.tsx'
import { refuseMissing } from '../missing.ts'
import { saidOnly } from '../typed.ts'
import { GRADE_WORDS } from './shelf.tsx'
import { shelfHere } from './shelf-here.ts'

const WAYS = [
  { act: 'give-away', title: 'Given away', hint: 'A gift, a raffle, a thank-you.' },
  { act: 'keep', title: 'Kept', hint: 'For your own kitchen, or as a sample.' },
  { act: 'break-in-shop', title: 'Broken', hint: 'On the shelf, at a fair, on the way.' },
] as const

/** Finished pots that leave the shelf without money. */
export const partWithPages: readonly ActPage<ShelfRow>[] = WAYS.map(({ act, title, hint }) => ({
  path: `/books/sell/:formId/:grade/${act}`,
  act: actCalled(act),
  here: 'books',
  press: title,
  load: shelfHere,
  title: (shelf) => `${title}: ${shelf.formName}, ${GRADE_WORDS[shelf.grade]}`,
  said: (typed, shelf) =>
    saidOnly({
      formId: shelf.formId,
      grade: shelf.grade,
      pieces: typed.count('pieces') ?? refuseMissing('pieces', 'How many?'),
      reason: typed.text('reason'),
    }),
  fieldOf: { '/pieces': 'pieces', '/reason': 'reason', '/formId': 'pieces' },
  next: () => '/books/sell',
  Form: ({ data, typed, faults }) => (
    <>
      <CountField
        name="pieces"
        label="How many"
        hint={`${data.pieces} on the shelf.`}
        usual={1}
        isNeeded
        typed={typed}
        faults={faults}
      />
      <TextField name="reason" label="Why" hint={hint} typed={typed} faults={faults} />
    </>
  ),
}))
