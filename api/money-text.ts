import type { StudioMoney } from '../db/reports/money.ts'
import { LAYER_WORDS } from '../shared/cost-layer.ts'
import { MONEY_COLUMNS, type MoneyByLayer } from '../shared/money-accounted.ts'

const WORDS_COLUMNS = 44
const FIGURE_COLUMNS = 16

/** A studio's money from where it came to where it is, as a table for a terminal, to the last unit of the ledger. */
export function moneyText({ studioId, studioName, currency, account }: StudioMoney): string {
  const rule = '-'.repeat(WORDS_COLUMNS + MONEY_COLUMNS.length * FIGURE_COLUMNS)
  const of = (side: 'came_in' | 'is_now') =>
    account.rows
      .filter((row) => row.side === side)
      .map(({ words, money }) => line(`  ${words}`, figures(money)))
  const columns = MONEY_COLUMNS.map((one) => (one === 'total' ? 'together' : headings[one]))
  return [
    '',
    `${studioName} (${studioId}): where its money came from and where it is, ${currency}`,
    line('', columns),
    rule,
    'Came in',
    ...of('came_in'),
    line('Came in, together', figures(account.cameIn)),
    'Is now',
    ...of('is_now'),
    line('Is now, together', figures(account.isNow)),
    rule,
    line('Missing', figures(account.missing)),
  ].join('\n')
}

const headings = { ...LAYER_WORDS, fire: 'firing', wear: 'wear' }

function figures(money: MoneyByLayer): string[] {
  return MONEY_COLUMNS.map((column) => money[column].toFixed(6))
}

function line(words: string, all: readonly string[]): string {
  return (
    words.padEnd(WORDS_COLUMNS) + all.map((one) => one.padStart(FIGURE_COLUMNS)).join('')
  ).trimEnd()
}
