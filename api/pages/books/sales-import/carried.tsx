import type { Child } from 'hono/jsx'
import { SALES_ROLES } from '../../../../shared/sales-columns.ts'
import { cutOf, DELIMITER_NAMES, type Brought } from './brought.ts'
import type { NameAsked } from './meanings.ts'

export const SALES_IMPORT = '/books/sales/import'

/** The steps of bringing a file in, as their buttons name them. */
export const STEPS = ['file', 'columns', 'pieces', 'preview', 'record'] as const
export type Step = (typeof STEPS)[number]

const STEP_NAMES: Readonly<Record<Step, string>> = {
  file: 'The file',
  columns: 'Its columns',
  pieces: 'The pieces',
  preview: 'To be recorded',
  record: 'Done',
}

/** Where one is on the way. */
export function Way({ at }: { at: Step }) {
  return (
    <ol class="way" aria-label="Steps">
      {STEPS.map((step) => (
        <li aria-current={step === at ? 'step' : undefined}>{STEP_NAMES[step]}</li>
      ))}
    </ol>
  )
}

/** A form that carries the file and what was said so far on to the next step; nothing is kept meanwhile. */
export function Carrying({ brought, children }: { brought: Brought; children: Child }) {
  return (
    <form
      method="post"
      action={`${SALES_IMPORT}?studio=${brought.studioId}`}
      enctype="multipart/form-data"
      class="sales-import"
    >
      {children}
      <textarea name="text" hidden aria-hidden="true" tabindex={-1} readonly>
        {/* The first line break in a field of text is dropped by whoever reads the page. */}
        {`\n${brought.text}`}
      </textarea>
    </form>
  )
}

/** The answers about the columns, for the steps that no longer ask them. */
export function ColumnsCarried({ brought }: { brought: Brought }) {
  const { delimiter, headingsAt, columns } = brought
  const fields: [string, string | undefined][] = [
    ['delimiter', DELIMITER_NAMES[delimiter].value],
    ['headings', String(headingsAt)],
    ['cut', cutOf(delimiter, headingsAt)],
    ...SALES_ROLES.map((role): [string, string | undefined] => [role, columns[role]?.toString()]),
    ['dayOrder', brought.dayOrder],
    ['dayAsked', columns.day?.toString()],
    ['decimalMark', brought.decimalMark],
    ['markAsked', columns.price?.toString()],
    ['priceFor', brought.priceFor],
    ['where', brought.channel],
  ]
  return (
    <>
      {fields.map(([name, value]) =>
        value === undefined ? null : <input type="hidden" name={name} value={value} />,
      )}
    </>
  )
}

/** The answers about the pieces, for the steps that no longer ask them. */
export function NamesCarried({ names }: { names: readonly NameAsked[] }) {
  return (
    <>
      {names.map(({ key, chosen }) => (
        <>
          <input type="hidden" name="called" value={key} />
          <input type="hidden" name="is" value={chosen} />
        </>
      ))}
    </>
  )
}

/** On, and back, each a button that says which step it leads to. */
export function Ways({ on, press, back }: { on?: Step; press?: string; back: readonly Step[] }) {
  return (
    <>
      {on === undefined ? null : (
        <button class="press" name="step" value={on}>
          {press}
        </button>
      )}
      <div class="row">
        {back.map((step) => (
          <button name="step" value={step} formnovalidate>
            Back: {STEP_NAMES[step].toLowerCase()}
          </button>
        ))}
        <a class="button" href={SALES_IMPORT}>
          Another file
        </a>
      </div>
    </>
  )
}
