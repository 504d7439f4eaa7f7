import type { DecimalMark } from '../../../../shared/amount-told.ts'
import { amountTold, DECIMAL_MARKS } from '../../../../shared/amount-told.ts'
import { dayTold } from '../../../../shared/day-told.ts'
import type { SalesRole } from '../../../../shared/sales-columns.ts'
import type { FileRow } from '../../../../shared/sales-reading.ts'
import type { FormFaults } from '../../field-words.tsx'
import { ChoiceField, FaultSummary, TextField } from '../../fields.tsx'
import { Typed } from '../../typed.ts'
import type { Voice } from '../../voice.ts'
import { cellsIn, cutOf, DELIMITER_NAMES, type Brought } from './brought.ts'
import { Carrying, Way, Ways } from './carried.tsx'

const SAMPLE_ROWS = 3
const SAMPLE_CHARACTERS = 24

interface RoleAsked {
  readonly role: SalesRole
  readonly label: string
  readonly none: string
}

const NEEDED: readonly RoleAsked[] = [
  { role: 'day', label: 'The day of the sale', none: 'Choose the column' },
  { role: 'piece', label: 'The piece, by name', none: 'Choose the column' },
  { role: 'price', label: 'The price', none: 'Choose the column' },
  { role: 'pieces', label: 'How many', none: 'Not in the file: each row is one piece' },
  { role: 'order', label: 'The number of the order or receipt', none: 'Not in the file' },
  { role: 'channel', label: 'Where it was sold', none: 'Not in the file' },
]
const SELDOM: readonly RoleAsked[] = [
  { role: 'variant', label: 'More of its name: colour, size', none: 'Not in the file' },
  { role: 'grade', label: 'First or second', none: 'Not in the file' },
  { role: 'currency', label: 'The currency', none: 'Not in the file' },
  { role: 'nth', label: 'Which of equal rows', none: 'Not in the file' },
]

interface StepProps {
  readonly brought: Brought
  readonly voice: Voice
  readonly faults?: FormFaults | undefined
}

/** Second: which column is what. */
export function ColumnsStep({ brought, voice, faults }: StepProps) {
  const { headings, rows, headingsAt } = brought
  return (
    <>
      <h1>Which column is what?</h1>
      <Way at="columns" />
      <FaultSummary faults={faults} />
      <p>
        {String(rows.length)} rows
        {headingsAt === 0 ? ', without headings' : `, headings on line ${String(headingsAt)}`}.
        These are our guesses from the headings and from what stands below them. Put right what is
        wrong.
      </p>
      <Carrying brought={brought}>
        <Sample headings={headings} rows={rows.slice(0, SAMPLE_ROWS)} />
        {NEEDED.map((asked) => (
          <RoleField asked={asked} brought={brought} faults={faults} />
        ))}
        <TextField
          name="where"
          label="Where these were sold, where the file does not say it"
          hint="The shop, a fair, a gallery."
          typed={new Typed(new URLSearchParams({ where: brought.channel }))}
          faults={faults}
        />
        <DayQuestion brought={brought} voice={voice} />
        <MarkQuestion brought={brought} />
        <PriceQuestion brought={brought} voice={voice} />
        <details class="more" open={SELDOM.some(({ role }) => brought.columns[role] !== undefined)}>
          <summary>Colour, grade, currency</summary>
          {SELDOM.map((asked) => (
            <RoleField asked={asked} brought={brought} faults={faults} />
          ))}
        </details>
        <Cut brought={brought} />
        <Ways on="pieces" press="Go on to the pieces" back={[]} />
      </Carrying>
    </>
  )
}

function Sample({ headings, rows }: { headings: readonly string[]; rows: readonly FileRow[] }) {
  return (
    <div class="scroll" role="region" aria-label="The first rows of the file" tabindex={0}>
      <table>
        <caption>The first rows of the file</caption>
        <thead>
          <tr>
            <th scope="col">Line</th>
            {headings.map((heading) => (
              <th scope="col">{heading}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ line, cells }) => (
            <tr>
              <th scope="row">{String(line)}</th>
              {headings.map((_, column) => (
                <td>{cells[column] ?? ''}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function RoleField(props: { asked: RoleAsked; brought: Brought; faults: FormFaults | undefined }) {
  const { asked, brought, faults } = props
  const { role, label, none } = asked
  const details = faults?.all.filter(({ field }) => field === role) ?? []
  const fault = details.length === 0 ? undefined : `${role}-fault`
  return (
    <div class="field">
      <label for={role}>{label}</label>
      {fault === undefined ? null : (
        <p class="fault" id={fault}>
          {details.map(({ detail }) => detail).join(' ')}
        </p>
      )}
      <select
        id={role}
        name={role}
        aria-describedby={fault}
        aria-invalid={fault === undefined ? undefined : 'true'}
      >
        <option value="">{none}</option>
        {brought.headings.map((heading, column) => (
          <option value={String(column)} selected={brought.columns[role] === column}>
            {withSample(heading, cellsIn(brought.rows.slice(0, SAMPLE_ROWS), column))}
          </option>
        ))}
      </select>
    </div>
  )
}

function withSample(heading: string, cells: readonly string[]): string {
  const sample = [...new Set(cells)].join(' · ')
  const short =
    sample.length > SAMPLE_CHARACTERS ? `${sample.slice(0, SAMPLE_CHARACTERS)}…` : sample
  return sample === '' ? heading : `${heading}: ${short}`
}

/** Asked only where the cells leave it open; each answer shows what it would make of one of them. */
function DayQuestion({ brought, voice }: { brought: Brought; voice: Voice }) {
  const { columns, dayOrders, rows, dayOrder } = brought
  if (dayOrders.length < 2) return null
  const { timeZone } = voice.studio
  const cells = cellsIn(rows, columns.day)
  const daysOf = (cell: string) => dayOrders.map((order) => dayTold(cell, { order, timeZone }))
  const cell = cells.find((one) => new Set(daysOf(one)).size > 1) ?? cells[0] ?? ''
  return (
    <>
      <ChoiceField
        name="dayOrder"
        label={`Which day is ${cell}?`}
        hint="Every day in the file can be read in more than one way."
        typed={new Typed()}
        usual={dayOrder}
        choices={dayOrders.flatMap((order) => {
          const day = dayTold(cell, { order, timeZone })
          return day === undefined ? [] : [{ value: order, name: voice.day(day) }]
        })}
      />
      <input type="hidden" name="dayAsked" value={columns.day?.toString()} />
    </>
  )
}

const MARK_WORDS: Readonly<Record<DecimalMark, string>> = {
  point: 'The point stands before the small coins',
  comma: 'The comma stands before the small coins',
}

function MarkQuestion({ brought }: { brought: Brought }) {
  const { columns, marks, rows, decimalMark } = brought
  if (marks.length < 2) return null
  const cells = cellsIn(rows, columns.price)
  const amountsOf = (cell: string) =>
    DECIMAL_MARKS.map((mark) => amountTold(cell, mark)?.amount.toFixed())
  const cell = cells.find((one) => new Set(amountsOf(one)).size > 1) ?? ''
  return (
    <>
      <ChoiceField
        name="decimalMark"
        label={`How much is ${cell}?`}
        typed={new Typed()}
        usual={decimalMark}
        choices={marks.map((mark) => ({
          value: mark,
          name: amountTold(cell, mark)?.amount.toFixed() ?? cell,
          hint: MARK_WORDS[mark],
        }))}
      />
      <input type="hidden" name="markAsked" value={columns.price?.toString()} />
    </>
  )
}

function PriceQuestion({ brought, voice }: { brought: Brought; voice: Voice }) {
  const { columns, rows, decimalMark, priceFor } = brought
  const amounts = cellsIn(rows, columns.price).map((cell) => amountTold(cell, decimalMark)?.amount)
  const amount = amounts.find((one) => one?.greaterThan(0))
  const hintOf = (pieces: 1 | 2) =>
    amount === undefined ? undefined : `Two of them: ${voice.money(amount.times(pieces))}`
  return (
    <ChoiceField
      name="priceFor"
      label={`Where a row has several pieces, its price${amount === undefined ? '' : ` (${voice.money(amount)})`} is`}
      typed={new Typed()}
      usual={priceFor}
      choices={[
        { value: 'each', name: 'for each piece', hint: hintOf(2) },
        { value: 'line', name: 'for the whole row', hint: hintOf(1) },
      ]}
    />
  )
}

/** How the text was cut into cells, for when the columns look odd. */
function Cut({ brought }: { brought: Brought }) {
  const { delimiter, headingsAt, top } = brought
  return (
    <details class="more">
      <summary>If the columns look wrong</summary>
      <div class="field">
        <label for="delimiter">What stands between the cells</label>
        <select id="delimiter" name="delimiter">
          {Object.entries(DELIMITER_NAMES).map(([sign, { value, name }]) => (
            <option value={value} selected={sign === delimiter}>
              {name}
            </option>
          ))}
        </select>
      </div>
      <div class="field">
        <label for="headings">The headings</label>
        <select id="headings" name="headings">
          <option value="0">There are none: the first row is a sale</option>
          {top.map(({ line, cells }) => (
            <option value={String(line)} selected={line === headingsAt}>
              {withSample(`Line ${String(line)}`, cells)}
            </option>
          ))}
        </select>
      </div>
      <input type="hidden" name="cut" value={cutOf(delimiter, headingsAt)} />
      <button name="step" value="columns" formnovalidate>
        Look again
      </button>
    </details>
  )
}
