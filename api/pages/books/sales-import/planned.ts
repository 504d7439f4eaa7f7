import {
  keyOfSale,
  salesBrought,
  salesNotFromFiles,
  shelfNow,
} from '../../../../db/sales-brought.ts'
import type { SaleAlike, SaleBrought } from '../../../../db/sales-brought.ts'
import { decimal } from '../../../../shared/decimal.ts'
import type { FileRow } from '../../../../shared/sales-reading.ts'
import { salesKnownBy, type KnownSale } from '../../../../shared/sales-identity.ts'
import { keyOfName, salesRead, type RowFault } from '../../../../shared/sales-rows.ts'
import type { ApiServices } from '../../../services.ts'
import type { Form } from '../../things.ts'
import type { Voice } from '../../voice.ts'
import { readingOf, type Brought } from './brought.ts'
import { meaningOf, type NameAsked } from './meanings.ts'

/** A sale of the file, with the key under which it would be recorded. */
export interface SalePlanned {
  readonly sale: KnownSale
  readonly key: string
  /** Why it is not recorded of itself; nothing where it is. */
  readonly why: 'brought' | 'taken_back' | 'alike' | undefined
  readonly earlier: SaleBrought | undefined
}

/** All that a file would do. */
export interface Plan {
  readonly planned: readonly SalePlanned[]
  readonly faults: readonly RowFault[]
  readonly leftOut: readonly FileRow[]
  readonly parted: readonly number[]
  readonly shelf: readonly { formId: string; grade: string; pieces: string }[]
}

/** Reads the file as it was said, and looks up what of it is in the books already. */
export async function planOf(
  services: Pick<ApiServices, 'db'>,
  voice: Voice,
  said: { brought: Brought; names: readonly NameAsked[]; forms: readonly Form[] },
): Promise<Plan> {
  const { studioId, timeZone } = voice.studio
  const meanings = new Map(
    said.names.map(({ key, chosen }) => [key, meaningOf(chosen, said.forms)]),
  )
  const { sales, ...others } = salesRead(
    said.brought.rows,
    readingOf(said.brought, voice),
    (name) => meanings.get(keyOfName(name)),
  )
  const known = salesKnownBy(sales)
  const keys = known.map((sale) => keyOfSale(sale))
  const brought = await salesBrought(services.db, { studioId, keys })
  const [first, last] = [known[0]?.day, known.at(-1)?.day]
  const alike =
    first === undefined || last === undefined
      ? []
      : await salesNotFromFiles(services.db, { studioId, timeZone, from: first, to: last })
  const shelf = await shelfNow(services.db, studioId)
  return { planned: known.map(planner(brought, alike)), shelf, ...others }
}

/** Each sale of the books excuses one sale of the file that is like it. */
function planner(brought: ReadonlyMap<string, SaleBrought>, alike: readonly SaleAlike[]) {
  const left = new Map<string, number>()
  for (const sale of alike) left.set(likenessOf(sale), (left.get(likenessOf(sale)) ?? 0) + 1)
  return (sale: KnownSale): SalePlanned => {
    const earlier = brought.get(keyOfSale(sale))
    if (earlier !== undefined) {
      const why = earlier.isTakenBack ? 'taken_back' : 'brought'
      return { sale, key: keyOfSale(sale, earlier.times + 1), why, earlier }
    }
    const likeness = likenessOf({ ...sale, priceEach: sale.priceEach.toFixed() })
    const others = left.get(likeness) ?? 0
    if (others === 0) return { sale, key: keyOfSale(sale), why: undefined, earlier }
    left.set(likeness, others - 1)
    return { sale, key: keyOfSale(sale), why: 'alike', earlier }
  }
}

function likenessOf({ day, formId, grade, pieces, priceEach }: SaleAlike): string {
  return [day, formId, grade, String(pieces), decimal(priceEach).toFixed()].join('|')
}
