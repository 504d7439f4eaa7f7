import { monthsToClose, type MonthsToClose } from '../../../db/reports/months-to-close.ts'
import { waitingReport, type WaitingReport } from '../../../db/reports/waiting.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import type { Voice } from '../voice.ts'

interface Closing extends MonthsToClose {
  readonly waiting: WaitingReport
}

/** A month after which nothing more changes in it. */
export const closeMonth: ActPage<Closing> = {
  path: '/books/close-month',
  act: actCalled('close-month'),
  here: 'books',
  press: 'Close it for good',
  async load(c) {
    const { db, now } = c.get('services')
    const asked = { studioId: c.get('studioId'), now: now() }
    return { ...(await monthsToClose(db, asked)), waiting: await waitingReport(db, asked) }
  },
  title: () => 'Close a month',
  said: (typed) => ({ month: typed.text('month') }),
  fieldOf: { '/month': 'month' },
  next: () => '/books',
  Form: ({ data, typed, voice, faults }) => (
    <>
      <div class="ask">
        <p>
          <strong>A closed month stays closed.</strong> Nothing can be dated into it any more, and
          nothing in it taken back. Every month before it is closed with it. What turns out wrong
          later is put right in an open month.
        </p>
        <p>
          Weigh-ins of that month that still wait on a phone without a network will be refused. Let
          each phone of the studio send first.
        </p>
      </div>
      <StillOpen waiting={data.waiting} />
      <ChoiceField
        name="month"
        label="Which month"
        isNeeded
        choices={data.months.map(({ month, entries }) => ({
          value: month,
          name: voice.month(month),
          hint: `${String(entries)} ${entries === 1 ? 'entry' : 'entries'}`,
        }))}
        typed={typed}
        faults={faults}
      />
    </>
  ),
  Below: ({ data, voice }) => <LookFirst months={data.months} voice={voice} />,
}

/** What might still belong into the month. */
function StillOpen({ waiting }: { waiting: WaitingReport }) {
  const { countsDue } = waiting
  const ungraded = waiting.pots.filter(({ place }) => place === 'glazed').length
  const open = [
    countsDue.length === 0 ? null : (
      <li>
        <a href="/books/count">Not counted for a month</a>:{' '}
        {countsDue.map(({ name }) => name).join(', ')}
      </li>
    ),
    ungraded === 0 ? null : (
      <li>
        <a href="/kiln">Not graded yet</a>:{' '}
        {ungraded === 1 ? 'one run' : `${String(ungraded)} runs`} out of the glaze firing
      </li>
    ),
  ].filter((one) => one !== null)
  return (
    <>
      <h2>Still open</h2>
      {open.length === 0 ? <p>Nothing that is known of.</p> : <ul>{open}</ul>}
    </>
  )
}

function LookFirst({ months, voice }: { months: MonthsToClose['months']; voice: Voice }) {
  return (
    <section>
      <h2>Look first</h2>
      <ul>
        {months.map(({ month }) => (
          <li>
            {voice.month(month)}: <a href={`/books/month/${month}`}>its sheet</a>,{' '}
            <a href={`/books/balance?month=${month}`}>do its weigh-ins agree?</a>
          </li>
        ))}
      </ul>
    </section>
  )
}
