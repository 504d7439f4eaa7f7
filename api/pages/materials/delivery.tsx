import { CARE_WITH_INGREDIENTS } from '../../../shared/material-hazards.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { TextField } from '../fields.tsx'
import { allMaterials, type Material } from '../things.ts'
import { saidOnly } from '../typed.ts'
import {
  FIELDS_OF_ROWS,
  MaterialOfDelivery,
  materialSaid,
  ROWS,
  rowsTyped,
} from './delivery-row.tsx'

/** Powders, boxes, shelves and gas that came from the supplier. */
export const materialsIn: ActPage<{ readonly materials: readonly Material[] }> = {
  path: '/books/materials-in',
  act: actCalled('receive-materials'),
  here: 'books',
  press: 'On the shelf',
  load: async (c) => ({ materials: await allMaterials(c) }),
  title: () => 'Materials came in',
  said: (typed) =>
    saidOnly({
      materials: rowsTyped(typed).map((row) => materialSaid(typed, row)),
      freight: typed.decimal('freight'),
    }),
  fieldOf: { '/materials': 'materialId', '/freight': 'freight', ...FIELDS_OF_ROWS },
  next: () => '/books/materials',
  Form: ({ data, typed, voice, faults }) => {
    const shown = { data, typed, voice, faults }
    return (
      <>
        <MaterialOfDelivery row="" {...shown} />
        <TextField
          name="freight"
          label="Freight of the whole delivery"
          hint="Spread by mass where all of it is weighed, and else by price. Empty where there was none."
          inputmode="decimal"
          after={voice.studio.currency}
          typed={typed}
          faults={faults}
        />
        <details class="more" open={rowsTyped(typed).length > 1}>
          <summary>Others in the same delivery</summary>
          {ROWS.slice(1).map((row) => (
            <fieldset class="clay-of-delivery">
              <legend>The {NTH[row]}</legend>
              <MaterialOfDelivery row={row} {...shown} />
            </fieldset>
          ))}
        </details>
        <p class="hint">
          {CARE_WITH_INGREDIENTS[0]} A sack of 25 kg is too heavy for many backs: use a trolley, or
          lift with two. Gas: stand it upright, outside, as its supplier and local codes say.
        </p>
      </>
    )
  },
  Below: () => (
    <p>
      One that is not in the list:{' '}
      <a href="/books/things/materials/new?then=/books/materials-in">enter it first</a>. What was
      here before the books: <a href="/books/opening">opening balances</a>.
    </p>
  ),
}

const NTH: Readonly<Record<string, string>> = {
  2: 'second',
  3: 'third',
  4: 'fourth',
  5: 'fifth',
  6: 'sixth',
}
