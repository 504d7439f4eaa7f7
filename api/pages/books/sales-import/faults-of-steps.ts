import type { SalesRole } from '../../../../shared/sales-columns.ts'
import type { FormFaults } from '../../field-words.tsx'
import type { Form } from '../../things.ts'
import { cellsIn, type Brought } from './brought.ts'
import { meaningOf, type NameAsked } from './meanings.ts'
import { pieceNamesIn } from '../../../../shared/sales-rows.ts'

const NAMES_MAX = 400
const WHERE_CHARACTERS_MAX = 120

type Fault = FormFaults['all'][number]

/** What is not said yet about the columns, or not right; nothing where all of it is. */
export function faultsOfColumns(brought: Brought): FormFaults | undefined {
  const all = [
    ...faultsOfCut(brought),
    ...missing(brought),
    ...doubled(brought),
    ...faultsOfPlace(brought),
    ...faultsOfCells(brought),
  ]
  return all.length === 0 ? undefined : { title: 'Something is missing or not right', all }
}

function faultsOfCut({ isSaid }: Brought): Fault[] {
  return isSaid
    ? []
    : [{ detail: 'The file is cut into cells in another way now. Look at its columns again.' }]
}

function missing({ columns }: Brought): Fault[] {
  const asked: readonly { field: SalesRole; detail: string }[] = [
    { field: 'day', detail: 'Say which column is the day.' },
    { field: 'piece', detail: 'Say which column is the piece.' },
    { field: 'price', detail: 'Say which column is the price.' },
  ]
  return asked.filter(({ field }) => columns[field] === undefined)
}

function doubled({ columns, headings }: Brought): Fault[] {
  const seen = new Set<number>()
  return Object.entries(columns).flatMap(([field, column]) => {
    const isSeen = seen.has(column)
    seen.add(column)
    const heading = headings[column] ?? ''
    return isSeen ? [{ field, detail: `“${heading}” is chosen for two things.` }] : []
  })
}

/** Each sale says where; where the file does not, somebody has to. */
function faultsOfPlace({ columns, rows, channel }: Brought): Fault[] {
  if (channel.length > WHERE_CHARACTERS_MAX) {
    return [{ field: 'where', detail: 'The name of the place is too long. Shorten it.' }]
  }
  const isInFile = cellsIn(rows, columns.channel).length === rows.length
  return channel === '' && !isInFile
    ? [{ field: 'where', detail: 'Say where these were sold.' }]
    : []
}

function faultsOfCells({ isDayOpen, isMarkOpen, rows, columns }: Brought): Fault[] {
  const names = columns.piece === undefined ? 0 : pieceNamesIn(rows, columns).length
  return [
    ...(isDayOpen
      ? [{ field: 'dayOrder', detail: 'The days can be read in two ways. Say which is right.' }]
      : []),
    ...(isMarkOpen
      ? [
          {
            field: 'decimalMark',
            detail: 'The prices can be read in two ways. Say which is right.',
          },
        ]
      : []),
    ...(names > NAMES_MAX
      ? [{ field: 'piece', detail: `There are ${String(names)} names in it. Is this the piece?` }]
      : []),
  ]
}

/** Names that nothing is chosen for. */
export function faultsOfNames(
  names: readonly NameAsked[],
  forms: readonly Form[],
): FormFaults | undefined {
  const all = names.flatMap(({ name, chosen }, place) =>
    meaningOf(chosen, forms) === undefined
      ? [
          {
            field: `is-${String(place)}`,
            detail: `Say which form “${name}” is, or that it is not ours.`,
          },
        ]
      : [],
  )
  return all.length === 0 ? undefined : { title: 'Something is missing', all }
}
