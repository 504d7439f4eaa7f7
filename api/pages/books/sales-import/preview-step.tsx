import { decimal } from '../../../../shared/decimal.ts'
import { salesSummed, type KnownSale } from '../../../../shared/sales-identity.ts'
import type { RowFault } from '../../../../shared/sales-rows.ts'
import type { FormFaults } from '../../field-words.tsx'
import { FaultSummary, TextField } from '../../fields.tsx'
import type { Form } from '../../things.ts'
import { Typed } from '../../typed.ts'
import type { Voice } from '../../voice.ts'
import type { Brought } from './brought.ts'
import { Carrying, ColumnsCarried, NamesCarried, Way, Ways } from './carried.tsx'
import type { NameAsked } from './meanings.ts'
import { rowsWords } from './pieces-step.tsx'
import type { Plan, SalePlanned } from './planned.ts'

interface PreviewProps {
  readonly brought: Brought
  readonly names: readonly NameAsked[]
  readonly forms: readonly Form[]
  readonly plan: Plan
  readonly voice: Voice
  readonly by: string | undefined
  readonly faults?: FormFaults | undefined
}

const LISTED_MAX = 300

/** Fourth: what will be recorded, and what will not and why. */
export function PreviewStep(props: PreviewProps) {
  const { brought, names, plan, voice, by, faults } = props
  const fresh = plan.planned.filter(({ why }) => why === undefined).map(({ sale }) => sale)
  const mayRecord = plan.planned.length > 0
  return (
    <>
      <h1>What will be recorded</h1>
      <Way at="preview" />
      <FaultSummary faults={faults} />
      <Carrying brought={brought}>
        <ColumnsCarried brought={brought} />
        <NamesCarried names={names} />
        <Sums sales={fresh} {...props} />
        <Remarks plan={plan} brought={brought} fresh={fresh} />
        <FaultyRows faults={plan.faults} />
        <Doubles plan={plan} voice={voice} />
        {mayRecord ? (
          <TextField
            name="by"
            label="Who brings them in"
            typed={new Typed()}
            usual={by}
            faults={faults}
          />
        ) : null}
        <Ways
          {...(mayRecord ? { on: 'record' as const, press: pressWords(fresh.length) } : {})}
          back={['columns', 'pieces']}
        />
      </Carrying>
    </>
  )
}

function pressWords(sales: number): string {
  if (sales === 0) return 'Record what is ticked'
  return sales === 1 ? 'Record 1 sale' : `Record ${String(sales)} sales`
}

/** What the new sales come to by form and grade, beside what is on the shelf. */
export function Sums(props: {
  sales: readonly KnownSale[]
  forms: readonly Form[]
  plan: Pick<Plan, 'shelf'>
  voice: Voice
}) {
  const { sales, forms, plan, voice } = props
  if (sales.length === 0) return <p class="ask">Nothing in this file is new.</p>
  const nameOf = (formId: string) => forms.find((form) => form.formId === formId)?.name ?? formId
  return (
    <div class="scroll" role="region" aria-label="New sales" tabindex={0}>
      <table>
        <caption>New sales</caption>
        <thead>
          <tr>
            <th scope="col">Form</th>
            <th scope="col" class="number">
              Pieces
            </th>
            <th scope="col" class="number">
              On the shelf
            </th>
            <th scope="col" class="number">
              Paid
            </th>
            <th scope="col">Days</th>
          </tr>
        </thead>
        <tbody>
          {salesSummed(sales).map((sum) => (
            <tr>
              <th scope="row">
                {nameOf(sum.formId)}, {sum.grade}
              </th>
              <td class="number">{String(sum.pieces)}</td>
              <td class="number">
                <Shelf {...sum} shelf={plan.shelf} />
              </td>
              <td class="number">{voice.money(sum.paid)}</td>
              <td>{daysWords(sum, voice)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function Shelf(props: { formId: string; grade: string; pieces: number; shelf: Plan['shelf'] }) {
  const { formId, grade, pieces, shelf } = props
  const there = shelf.find((one) => one.formId === formId && one.grade === grade)?.pieces ?? '0'
  const short = decimal(pieces).minus(there)
  return (
    <>
      {there}
      {short.greaterThan(0) ? <strong class="short"> {short.toFixed()} too few</strong> : null}
    </>
  )
}

function daysWords({ firstDay, lastDay }: { firstDay: string; lastDay: string }, voice: Voice) {
  return firstDay === lastDay
    ? voice.day(firstDay)
    : `${voice.day(firstDay)} to ${voice.day(lastDay)}`
}

function Remarks(props: { plan: Plan; brought: Brought; fresh: readonly KnownSale[] }) {
  const { plan, brought, fresh } = props
  const withoutOrder = fresh.filter(({ order }) => order === '').length
  return (
    <ul>
      <li>Each sale is dated to the end of its day.</li>
      {brought.columns.order === undefined || withoutOrder > 0 ? (
        <li>
          {withoutOrder === fresh.length ? 'These rows have' : rowsWordsHave(withoutOrder)} no order
          number. When the file comes again they are known by day, time where there is one, piece,
          count and price, and by how often the same comes in the file.
        </li>
      ) : (
        <li>When the file comes again, rows are known by order number and what they say.</li>
      )}
      {plan.leftOut.length === 0 ? null : (
        <li>{rowsWords(plan.leftOut.length)} of what is not ours: left out.</li>
      )}
      {plan.parted.length === 0 ? null : (
        <li>
          Line {plan.parted.slice(0, LISTED_MAX).join(', ')}: the price does not part evenly. It is
          recorded as two sales whose prices differ by the smallest coin.
        </li>
      )}
    </ul>
  )
}

function rowsWordsHave(rows: number): string {
  return rows === 1 ? '1 row has' : `${String(rows)} rows have`
}

/** Rows that cannot be read, by line, with what would be right. */
export function FaultyRows({ faults }: { faults: readonly RowFault[] }) {
  if (faults.length === 0) return null
  return (
    <section class="faulty">
      <h2>{rowsWords(faults.length)} that cannot be recorded</h2>
      <p>The others can be recorded without them. You can take these away as a file to mend.</p>
      <ul>
        {faults.slice(0, LISTED_MAX).map(({ line, found, detail }) => (
          <li>
            <strong>Line {String(line)}</strong>
            {found === '' ? ': ' : `: “${shortened(found)}”. `}
            {detail}
          </li>
        ))}
      </ul>
      {faults.length > LISTED_MAX ? <p>And {String(faults.length - LISTED_MAX)} more.</p> : null}
    </section>
  )
}

function shortened(found: string): string {
  return found.length > 60 ? `${found.slice(0, 60)}…` : found
}

const DOUBLES = [
  {
    why: 'brought',
    heading: 'Known already',
    words: 'These were brought in before and stay as they are. Tick one that is another sale.',
  },
  {
    why: 'taken_back',
    heading: 'Brought before and taken back since',
    words: 'They stay out. Tick one to record it once more.',
  },
  {
    why: 'alike',
    heading: 'Perhaps in the books already',
    words:
      'A sale of that day, form, count and price was recorded by hand. These are taken for the same and left out. Tick one that is another sale.',
  },
] as const

function Doubles({ plan, voice }: { plan: Plan; voice: Voice }) {
  return (
    <>
      {DOUBLES.map(({ why, heading, words }) => {
        const found = plan.planned.filter((one) => one.why === why)
        if (found.length === 0) return null
        return (
          <details class="more">
            <summary>
              {heading}: {rowsWords(found.length)}
            </summary>
            <p>{words}</p>
            {found.slice(0, LISTED_MAX).map((one) => (
              <AgainChoice one={one} voice={voice} />
            ))}
            {found.length > LISTED_MAX ? (
              <p>And {String(found.length - LISTED_MAX)} more, which stay out.</p>
            ) : null}
          </details>
        )
      })}
    </>
  )
}

function AgainChoice({ one, voice }: { one: SalePlanned; voice: Voice }) {
  const { sale, key, earlier } = one
  return (
    <div class="again">
      <label>
        <input type="checkbox" name="again" value={key} /> <strong>Line {String(sale.line)}</strong>
        : {saleWords(sale, voice)}
      </label>
      {earlier === undefined ? null : (
        <a href={`/books/trail/entry/${earlier.entryId}`}>In the books</a>
      )}
    </div>
  )
}

/** A sale of the file in one line. */
export function saleWords(sale: KnownSale, voice: Voice): string {
  const { pieces, name, priceEach, day, order } = sale
  const number = order === '' ? '' : `, order ${order}`
  return `${String(pieces)} × ${name} at ${voice.money(priceEach)}, ${voice.day(day)}${number}`
}
