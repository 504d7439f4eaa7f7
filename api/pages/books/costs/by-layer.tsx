import type { Child } from 'hono/jsx'
import { ALL_LAYERS } from '../../../../shared/cost-layer.ts'
import { decimal } from '../../../../shared/decimal.ts'
import type { MoneyShown } from '../../../../shared/month-costs.ts'

const COLUMNS = [...ALL_LAYERS, 'total'] as const
export type LayerColumn = (typeof COLUMNS)[number]

const HEADS: Readonly<Record<LayerColumn, string>> = {
  clay: 'clay',
  glaze: 'glaze',
  fire: 'fire',
  wear: 'wear',
  packaging: 'pack',
  total: 'all',
}

export interface LayerRow {
  readonly name: Child
  readonly shown: MoneyShown
  /** Where the entries behind its figures are listed. */
  readonly href: string | undefined
  readonly isSum?: boolean
}

interface ByLayerProps {
  readonly label: string
  /** What stands over the names, with the unit of the figures. */
  readonly heading: string
  readonly rows: readonly LayerRow[]
}

/** Money by what it was paid for, a row each; a layer of which no row has anything is left out. */
export function ByLayer({ label, heading, rows }: ByLayerProps) {
  const told = COLUMNS.filter(
    (column) => column === 'total' || rows.some(({ shown }) => !decimal(shown[column]).isZero()),
  )
  return (
    <div class="across" tabindex={0} role="region" aria-label={label}>
      <table class="ledger by-layer">
        <thead>
          <tr>
            <th scope="col">{heading}</th>
            {told.map((column) => (
              <th scope="col" class="number">
                {HEADS[column]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, shown, href, isSum }) => (
            <tr class={isSum === true ? 'balance' : undefined}>
              <th scope="row">{name}</th>
              {told.map((column) => (
                <td class="number">
                  <Figure text={shown[column].replace('-', '−')} href={href} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function Figure({ text, href }: { readonly text: string; readonly href: string | undefined }) {
  return href === undefined ? <>{text}</> : <a href={href}>{text}</a>
}

/** What the short heads stand for. */
export function LayerKey() {
  return (
    <p class="quiet">
      Fire is energy: electricity, gas. Wear is elements, shelves and props. Pack is boxes and
      paper. Labour is not in the books.
    </p>
  )
}
