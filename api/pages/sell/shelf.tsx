import type { ShelfRow } from '../../../db/reports/shelf.ts'
import type { Voice } from '../voice.ts'

/** What each grade is called where several are. */
export const GRADE_WORDS = { first: 'firsts', second: 'seconds' } as const

/** The shelf: each form and grade one touch. */
export function Shelf({ rows, voice }: { rows: readonly ShelfRow[]; voice: Voice }) {
  return (
    <>
      <h1>What was sold?</h1>
      {rows.length === 0 ? (
        <p>
          Nothing is on the shelf by the books. <a href="/kiln">Grade</a> what came out of the glaze
          fire.
        </p>
      ) : null}
      <ul class="targets">
        {rows.map(({ formId, formName, grade, pieces, usualPrice }) => (
          <li>
            <a class="target" href={`/books/sell/${formId}/${grade}`} data-offline>
              <strong>
                {formName}, {GRADE_WORDS[grade]} <span class="many">{pieces}</span>
              </strong>
              <span>
                {usualPrice === null ? 'no price yet' : `${voice.money(usualPrice)} each`}
              </span>
            </a>
          </li>
        ))}
      </ul>
      <p>
        Sold elsewhere and listed in a file? <a href="/books/sales/import">Take the list in</a>.
      </p>
    </>
  )
}
