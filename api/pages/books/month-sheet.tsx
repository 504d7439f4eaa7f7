import type { Child } from 'hono/jsx'
import { monthAfter, monthBefore } from '../../../shared/month.ts'
import { columnUnit, massAlone, massGiveOrTake } from '../../../shared/month-printed.ts'
import { decimal } from '../../../shared/decimal.ts'
import { NOT_DISTINGUISHABLE } from '../../../shared/how-sure.ts'
import { Stream, StreamKey } from '../drawings/stream.tsx'
import { trailHref } from '../trail-href.ts'
import { MonthCostInAll, MonthCosts } from './month-costs.tsx'
import { linesOf, MonthLines, MovedWithin } from './month-lines.tsx'
import { MonthPlaces } from './month-places.tsx'
import { MonthStreamFigures } from './month-stream-figures.tsx'
import { MonthYields } from './month-yields.tsx'
import type { MonthRead, SheetProps } from './month-read.ts'
import type { Voice } from '../voice.ts'

/** A month of the books on one sheet of paper, or down a phone. */
export function MonthSheet({ read, voice, by }: SheetProps & { readonly by: string | undefined }) {
  const { month, sheet, stream } = read
  const unit = columnUnit(voice.studio.massUnits)
  const name = sheet.bodyName ?? 'all clays'
  const id = `clay-of-${month}`
  return (
    <article class={isFull(read, voice) ? 'sheet full' : 'sheet'}>
      <SheetHead read={read} voice={voice} by={by} />
      <div class="sheet-tables">
        <MonthLines read={read} voice={voice} />
        <Unexplained read={read} voice={voice} />
        <MovedWithin read={read} voice={voice} />
        <MonthPlaces read={read} voice={voice} />
        <Purchases read={read} voice={voice} />
        <MonthCostInAll read={read} voice={voice} />
        <MonthCosts read={read} voice={voice} />
      </div>
      <div class="sheet-drawings">
        <section>
          <h2>
            Where the clay went <small>dry clay, {unit.words}</small>
          </h2>
          <Stream
            id={id}
            title={`The clay of ${voice.month(month)}, ${name}, from bag to shelf and back round`}
            stream={stream}
            unit={unit}
          />
          <StreamKey id={id} stream={stream} />
          <MonthStreamFigures read={read} voice={voice} />
        </section>
        <MonthYields read={read} voice={voice} />
      </div>
      <SheetFoot voice={voice} />
    </article>
  )
}

/** So many lines in its tables fit on paper at the usual size. */
const USUAL_LINES = 35

function isFull({ sheet, stream, costs }: MonthRead, voice: Voice): boolean {
  const lines = linesOf(sheet.summary, columnUnit(voice.studio.massUnits)).length
  const within = sheet.summary.filter(({ isBalance, isWorld }) => !isBalance && !isWorld).length
  const forms = costs.forms.filter(({ soldPieces }) => soldPieces !== '0').length
  return lines + within + stream.stocks.length + forms > USUAL_LINES
}

function SheetHead({ read, voice, by }: SheetProps & { readonly by: string | undefined }) {
  const { month, latest, report, sheet } = read
  const clay = sheet.bodyId === null ? '' : `?bodyId=${encodeURIComponent(sheet.bodyId)}`
  const clays = report.bodies.map(({ bodyName }) => bodyName ?? '').join(', ')
  return (
    <header class="sheet-head">
      <h1>
        {voice.month(month)} <small>the clay, in mass and in money</small>
      </h1>
      <p class="of-whom">
        <strong>{voice.studio.name}</strong> ·{' '}
        {sheet.bodyName ?? (clays === '' ? 'no clay yet' : `all clays together: ${clays}`)} ·{' '}
        {report.isClosed ? 'closed' : 'still open'} · printed {voice.moment(voice.now)}
        {by === undefined ? '' : ` by ${by}`}
      </p>
      <nav class="off-paper choices-of-month" aria-label="Which month, which clay">
        <p class="row">
          <a class="button" href={`/books/month/${monthBefore(month)}${clay}`} rel="prev">
            ← {voice.month(monthBefore(month))}
          </a>
          {month < latest ? (
            <a class="button" href={`/books/month/${monthAfter(month)}${clay}`} rel="next">
              {voice.month(monthAfter(month))} →
            </a>
          ) : null}
        </p>
        <p class="row">
          <ClayChoice month={month} read={read} />
        </p>
        <p class="row">
          <button type="button" data-print hidden>
            Print
          </button>
          <a class="button" href={`/books/month/${month}/costs`}>
            What it cost
          </a>
          <a class="button" href={`/books/month/${month}/csv${clay}`}>
            As CSV
          </a>
          {report.isClosed ? null : (
            <a class="button" href="/books/close-month">
              Close the month
            </a>
          )}
        </p>
        <p class="hint">It prints on one sheet, A4 or Letter.</p>
      </nav>
    </header>
  )
}

function ClayChoice({ month, read }: { readonly month: string; readonly read: MonthRead }) {
  const { report, sheet } = read
  if (report.bodies.length < 2) return null
  const choice = (bodyId: string | null, words: Child) => (
    <a
      class="button"
      href={`/books/month/${month}${bodyId === null ? '' : `?bodyId=${encodeURIComponent(bodyId)}`}`}
      aria-current={sheet.bodyId === bodyId ? 'page' : undefined}
    >
      {words}
    </a>
  )
  return (
    <>
      {choice(null, 'All clays')}
      {report.bodies.map(({ bodyId, bodyName }) => choice(bodyId, bodyName))}
    </>
  )
}

/** What nobody can explain, and whether it may as well be nothing. */
function Unexplained({ read, voice }: SheetProps) {
  const row = read.sheet.summary.find((one) => one.row === 'unexplained')
  if (row === undefined) return null
  const unit = columnUnit(voice.studio.massUnits)
  const { isDistinguishableFromZero } = row.sure.dry
  const isNothing = decimal(row.dryGrams).isZero()
  const grams = massAlone(decimal(row.dryGrams), unit).replace('-', '−')
  const give = massGiveOrTake(decimal(row.dryUncertaintyGrams), unit)
  const verdict = isDistinguishableFromZero
    ? 'more than what was measured leaves open'
    : NOT_DISTINGUISHABLE
  const clay = read.sheet.bodyId === null ? '' : `&bodyId=${encodeURIComponent(read.sheet.bodyId)}`
  return (
    <p class={isDistinguishableFromZero ? 'told stands-out-words' : 'told'}>
      Unexplained:{' '}
      {isNothing ? (
        'nothing.'
      ) : (
        <>
          <a href={trailHref(row.trail)}>
            {grams} {unit.words}
          </a>{' '}
          of dry clay,{' '}
          {give === '' ? 'surely' : `${give.replace('±', 'give or take')} ${unit.words}`}:{' '}
          <strong>{verdict}</strong>.
        </>
      )}
      <span class="off-paper">
        {' '}
        <a href={`/books/balance?month=${read.month}${clay}`}>Which weigh-in does not fit?</a>
      </span>
    </p>
  )
}

function Purchases({ read, voice }: SheetProps) {
  const { shown, trail } = read.sheet.purchases
  const { currency } = voice.studio
  return (
    <p class="told">
      Paid in the month for clay{' '}
      <a href={trailHref(trail)}>
        {shown.goods} and for its freight {shown.freight}, together {shown.total} {currency}
      </a>
      ; powders wedged in are not in it. A purchase is not a cost: the cost is opening and bought
      less closing.
    </p>
  )
}

function SheetFoot({ voice }: Pick<SheetProps, 'voice'>) {
  return (
    <footer class="sheet-foot">
      <p>
        ±: 19 times in 20 the true figure is so near. These do not add up, because what makes one
        line unsure makes others unsure too. Cost is what clay, glaze and fire cost;{' '}
        {voice.words('labour is not in the books.')} Printed figures add up as printed.
      </p>
    </footer>
  )
}
