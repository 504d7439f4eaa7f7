import type { MonthReport } from '../db/reports/month.ts'
import { LAYER_WORDS } from '../shared/cost-layer.ts'
import { MONEY_COLUMNS } from '../shared/money-accounted.ts'

type Sheet = Pick<MonthReport, 'summary' | 'bodyName' | 'purchases' | 'unexplainedWords'>
type Row = MonthReport['summary'][number]

const HEADINGS = ['dry kg', '± kg', 'water kg', 'bags', 'pots'] as const
const WORDS_COLUMNS = 58
const FIGURE_COLUMNS = 12

/**
 * A month report as a sheet for a terminal, to be added by hand.
 *
 * The lines with a sign lead from the opening to the closing; the lines in brackets are moves within
 * the studio and no part of the sum.
 */
export function monthReportText(report: MonthReport): string {
  const sheets: readonly Sheet[] = [report, ...(report.bodies.length > 1 ? report.bodies : [])]
  return [
    `${report.studioName}: month report of ${report.month}${report.isClosed ? ' (closed)' : ''}`,
    ...sheets.map((sheet) => sheetText(sheet, report.currency)),
    ...(report.costs === null ? [] : [costsText(report.costs, report.currency)]),
    'Lines in brackets are moves within the studio: they are no part of the sum. ±: 19 times in 20 the dry clay is truly within it; these do not add up, because what makes one line unsure makes others unsure too.',
    '',
  ].join('\n\n')
}

function sheetText(sheet: Sheet, currency: string): string {
  const rule = '-'.repeat(WORDS_COLUMNS + (HEADINGS.length + 1) * FIGURE_COLUMNS)
  const lines = sheet.summary.flatMap((row) => {
    const line = lineOf(row)
    return row.row === 'closing' ? [rule, line] : [line]
  })
  const { goods, freight } = sheet.purchases.shown
  return [
    aligned(sheet.bodyName ?? 'All clays together', [...HEADINGS, currency]),
    rule,
    ...lines,
    '',
    sheet.unexplainedWords,
    `Paid in the month for clay ${goods}, for its freight ${freight} ${currency}; powders wedged in are not in it. A purchase is not a cost: that is opening and bought less closing.`,
  ].join('\n')
}

/** What the month cost, by where it went and by what for. */
function costsText(costs: NonNullable<MonthReport['costs']>, currency: string): string {
  const figures = (shown: typeof costs.total.shown) => MONEY_COLUMNS.map((layer) => shown[layer])
  const headings = MONEY_COLUMNS.map((layer) => (layer === 'total' ? currency : SHORT[layer]))
  const rule = '-'.repeat(WORDS_COLUMNS + headings.length * FIGURE_COLUMNS)
  return [
    aligned('What the month cost', headings),
    rule,
    ...costs.rows.map(({ words, shown }) => aligned(`  ${words}`, figures(shown))),
    rule,
    aligned(costs.total.words, figures(costs.total.shown)),
    ...costs.forms.map((form) =>
      aligned(`    (a sold ${form.formName.toLowerCase()})`, figures(form.perPieceShown)),
    ),
    '',
    `Paid in the month: ${costs.paid.map(({ words, shown }) => `${words} ${shown}`).join('; ')}; together ${costs.paidTotalShown} ${currency}.`,
    costs.words,
  ].join('\n')
}

const SHORT = { ...LAYER_WORDS, fire: 'firing', wear: 'kiln wear' }

function lineOf(row: Row): string {
  const { dryKilograms, waterKilograms, cost } = row.shown
  const { plusMinusKilograms } = row
  const figures = [dryKilograms, waterKilograms, row.bags, row.pots, cost]
  const with95 = (all: readonly string[]) => all.toSpliced(1, 0, `±${plusMinusKilograms}`)
  if (row.isBalance) return aligned(row.words, with95(figures))
  if (row.isWorld) return aligned(`  ${row.words}`, with95(figures.map(withSign)))
  return aligned(`    (${row.words})`, with95(figures.map((one) => `(${one})`)))
}

/** Zero has no sign: nothing came and nothing went. */
function withSign(figure: string): string {
  if (/^-?0(\.0+)?$/.test(figure)) return figure.replace('-', '')
  return figure.startsWith('-') ? figure : `+${figure}`
}

function aligned(words: string, figures: readonly string[]): string {
  const shown = words.length < WORDS_COLUMNS ? words : `${words.slice(0, WORDS_COLUMNS - 2)}…`
  return (
    shown.padEnd(WORDS_COLUMNS) + figures.map((one) => one.padStart(FIGURE_COLUMNS)).join('')
  ).trimEnd()
}
