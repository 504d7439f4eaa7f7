import { LETTERS, type Letters } from '../../../sales-file.ts'
import type { FormFaults } from '../../field-words.tsx'
import { FaultSummary } from '../../fields.tsx'
import { SALES_IMPORT, Way } from './carried.tsx'

const LETTER_NAMES: Readonly<Record<Letters, string>> = {
  found: 'Find out from the file',
  'utf-8': 'UTF-8',
  'windows-1252': 'Windows-1252 (older Windows)',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16, the other way round',
  macintosh: 'Older Macintosh',
}

/** First: a file, or its text. */
export function FileStep(props: { studioId: string; faults?: FormFaults | undefined }) {
  const { studioId, faults } = props
  return (
    <>
      <h1>Bring sales in from a file</h1>
      <Way at="file" />
      <FaultSummary faults={faults} />
      <p>
        A list of sales as your shop, till or market book gives it out: one row for each piece sold,
        as CSV. At most 1 MB and 5,000 rows. Nothing is recorded before the last step.
      </p>
      <form
        method="post"
        action={`${SALES_IMPORT}?studio=${studioId}`}
        enctype="multipart/form-data"
        class="sales-import"
      >
        <div class="field">
          <label for="file">The file</label>
          <input id="file" name="file" type="file" accept=".csv,.tsv,.txt,text/csv,text/plain" />
        </div>
        <div class="field">
          <label for="pasted">Or paste its rows here</label>
          <textarea id="pasted" name="pasted" rows={6} spellcheck={false}></textarea>
        </div>
        <details class="more">
          <summary>If letters such as £ or é come out wrong</summary>
          <div class="field">
            <label for="letters">How its letters are written</label>
            <select id="letters" name="letters">
              {LETTERS.map((letters) => (
                <option value={letters}>{LETTER_NAMES[letters]}</option>
              ))}
            </select>
          </div>
        </details>
        <button class="press" name="step" value="columns">
          Look at it
        </button>
      </form>
      <p class="quiet">
        Bringing the same file again, or one that overlaps, records nothing twice.
      </p>
    </>
  )
}
