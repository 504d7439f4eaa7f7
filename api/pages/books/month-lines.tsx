import { decimal } from '../../../shared/decimal.ts'
import {
  columnUnit,
  massAlone,
  massesLeading,
  massGiveOrTake,
  moneyGiveOrTake,
  signed,
  type ColumnUnit,
} from '../../../shared/month-printed.ts'
import { trailHref } from '../trail-href.ts'
import type { MonthRead, SheetProps } from './month-read.ts'

type Row = MonthRead['sheet']['summary'][number]

interface Line {
  readonly row: Row
  readonly mass: string
}

const ALWAYS = ['opening', 'bought', 'sold', 'unexplained', 'closing']

/** The lines from opening to closing, as printed; those of water and pieces alone are left out. */
export function linesOf(summary: readonly Row[], unit: ColumnUnit): Line[] {
  const inSum = summary.filter(({ isBalance, isWorld }) => isBalance || isWorld)
  const masses = massesLeading(
    inSum.map(({ dryGrams }) => decimal(dryGrams)),
    unit,
  )
  return inSum
    .map((row, index) => ({ row, mass: masses[index] ?? '' }))
    .filter(({ row, mass }) => ALWAYS.includes(row.row) || isSome(mass) || isSome(row.shown.cost))
}

function isSome(figure: string): boolean {
  return !decimal(figure).isZero()
}

/** From opening to closing in mass and in money. */
export function MonthLines({ read, voice }: SheetProps) {
  const unit = columnUnit(voice.studio.massUnits)
  return (
    <section>
      <h2>From opening to closing</h2>
      <table class="ledger">
        <Heads unit={unit.words} currency={voice.studio.currency} />
        <tbody>
          {linesOf(read.sheet.summary, unit).map(({ row, mass }) => (
            <FigureRow
              row={row}
              words={voice.words(row.words)}
              mass={row.isBalance ? mass : signed(mass)}
              cost={row.isBalance ? row.shown.cost : signed(row.shown.cost)}
              unit={unit}
              currency={voice.studio.currency}
            />
          ))}
        </tbody>
      </table>
    </section>
  )
}

/** What moved from place to place in the studio: no part of the sum. */
export function MovedWithin({ read, voice }: SheetProps) {
  const unit = columnUnit(voice.studio.massUnits)
  const rows = read.sheet.summary.filter(({ isBalance, isWorld }) => !isBalance && !isWorld)
  return (
    <section>
      <h2>
        Moved within <small>no part of the sum above</small>
      </h2>
      <table class="ledger">
        <Heads unit={unit.words} currency={voice.studio.currency} />
        <tbody>
          {rows.map((row) => (
            <FigureRow
              row={row}
              words={voice.words(row.words)}
              mass={massAlone(decimal(row.dryGrams), unit)}
              cost={row.shown.cost}
              unit={unit}
              currency={voice.studio.currency}
            />
          ))}
        </tbody>
      </table>
    </section>
  )
}

function Heads({ unit, currency }: { readonly unit: string; readonly currency: string }) {
  return (
    <thead>
      <tr>
        <td></td>
        <th scope="col" class="number with-doubt">
          dry clay, {unit}
        </th>
        <th scope="col" class="number with-doubt">
          cost, {currency}
        </th>
      </tr>
    </thead>
  )
}

interface FigureRowProps {
  readonly row: Row
  readonly words: string
  readonly mass: string
  readonly cost: string
  readonly unit: ColumnUnit
  readonly currency: string
}

function FigureRow({ row, words, mass, cost, unit, currency }: FigureRowProps) {
  return (
    <tr class={row.isBalance ? 'balance' : undefined} data-row={row.row}>
      <th scope="row">{words}</th>
      <td class="number">
        <a href={trailHref(row.trail)}>{mass}</a>{' '}
        <small>{massGiveOrTake(decimal(row.dryUncertaintyGrams), unit)}</small>
      </td>
      <td class="number">
        <a href={trailHref(row.trail)}>{cost}</a>{' '}
        <small>{moneyGiveOrTake(decimal(row.costUncertainty), currency)}</small>
      </td>
    </tr>
  )
}
