import { salesSummed, type KnownSale } from '../../../../shared/sales-identity.ts'
import type { RowFault } from '../../../../shared/sales-rows.ts'
import type { Voice } from '../../voice.ts'
import type { Brought } from './brought.ts'
import { SALES_IMPORT, Way } from './carried.tsx'
import { saleWords } from './preview-step.tsx'
import type { Outcome } from './progress.ts'
import { refusedCsv } from './refused-csv.ts'

/** What came of a file. */
export interface Result extends Outcome {
  readonly known: readonly KnownSale[]
  /** Perhaps in the books already, or taken back: left out because nobody ticked them. */
  readonly notTicked: readonly KnownSale[]
  readonly notOurs: number
  readonly faults: readonly RowFault[]
}

const LISTED_MAX = 300

/** Last: what was recorded and what was not, by line, with a file of what is to be mended. */
export function ResultStep(props: { brought: Brought; result: Result; voice: Voice }) {
  const { brought, result, voice } = props
  const { recorded, refused, faults } = result
  const isMissing = refused.length > 0 || faults.length > 0
  return (
    <>
      <h1>{recorded.length === 0 ? 'Nothing was recorded' : countWords(recorded.length)}</h1>
      <Way at="record" />
      <Counts result={result} voice={voice} />
      {refused.length === 0 ? null : (
        <section class="faulty">
          <h2>Not taken by the books</h2>
          <ul>
            {refused.slice(0, LISTED_MAX).map(({ sale, detail }) => (
              <li>
                <strong>Line {String(sale.line)}</strong>: {saleWords(sale, voice)}. {detail}
              </li>
            ))}
          </ul>
          <More count={refused.length} />
        </section>
      )}
      {faults.length === 0 ? null : (
        <section class="faulty">
          <h2>Could not be read</h2>
          <ul>
            {faults.slice(0, LISTED_MAX).map(({ line, found, detail }) => (
              <li>
                <strong>Line {String(line)}</strong>
                {found === '' ? ': ' : `: “${found.slice(0, 60)}”. `}
                {detail}
              </li>
            ))}
          </ul>
          <More count={faults.length} />
        </section>
      )}
      {isMissing ? <RowsToMend brought={brought} result={result} /> : null}
      <p class="row">
        <a class="button" href={SALES_IMPORT}>
          Another file
        </a>
        <a class="button" href="/books">
          To the books
        </a>
      </p>
    </>
  )
}

function RowsToMend({ brought, result }: { brought: Brought; result: Result }) {
  return (
    <form
      method="post"
      action={`${SALES_IMPORT}/refused.csv?studio=${brought.studioId}`}
      enctype="multipart/form-data"
    >
      <textarea name="csv" hidden aria-hidden="true" tabindex={-1} readonly>
        {`\n${refusedCsv(brought, result)}`}
      </textarea>
      <p>
        Take these rows away as a file, mend them, and bring the file in again. What was recorded is
        not in it.
      </p>
      <button class="press">The rows to mend, as CSV</button>
    </form>
  )
}

function More({ count }: { count: number }) {
  if (count <= LISTED_MAX) return null
  return <p>And {String(count - LISTED_MAX)} more, which are in the file below.</p>
}

function countWords(sales: number): string {
  return sales === 1 ? '1 sale recorded' : `${String(sales)} sales recorded`
}

function Counts({ result, voice }: { result: Result; voice: Voice }) {
  const { recorded, known, knownMeanwhile, notTicked, notOurs, refused, faults } = result
  const sums = salesSummed(recorded)
  const pieces = sums.reduce((sum, one) => sum + one.pieces, 0)
  const [first, ...others] = sums.map(({ paid }) => paid)
  const paid = others.reduce((sum, one) => sum?.plus(one), first)
  const left = [
    { name: 'Known already', count: known.length + knownMeanwhile.length },
    { name: 'Left out, not ticked', count: notTicked.length },
    { name: 'Left out, not ours', count: notOurs },
    { name: 'Not taken by the books', count: refused.length },
    { name: 'Could not be read', count: faults.length },
  ]
  return (
    <dl class="figures" role="status">
      <div>
        <dt>Recorded</dt>
        <dd>
          {String(recorded.length)}
          {paid === undefined ? null : (
            <small>
              {String(pieces)} pieces, {voice.money(paid)}
            </small>
          )}
        </dd>
      </div>
      {left.map(({ name, count }) => (
        <div>
          <dt>{name}</dt>
          <dd>{String(count)}</dd>
        </div>
      ))}
    </dl>
  )
}
