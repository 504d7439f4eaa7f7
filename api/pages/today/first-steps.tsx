import type { StockReport } from '../../../db/reports/stock.ts'
import type { WeighableThing } from '../../../db/reports/weigh-list.ts'

interface Step {
  readonly href: string
  readonly name: string
  readonly why: string
}

const CLAY: Step = {
  href: '/books/delivery',
  name: 'Enter the clay that came in',
  why: 'bags, their mass, what they cost',
}
const OPENING: Step = {
  href: '/books/opening',
  name: 'Or begin in the middle',
  why: 'what is here now, as well as you know it',
}
const BUCKET: Step = {
  href: '/books/things/vessels/new',
  name: 'Enter a bucket',
  why: 'its name and what it weighs empty',
}

/** What a studio that has just begun lacks, in the order in which it needs it. */
export function missingThings(
  stock: StockReport,
  things: readonly WeighableThing[],
): readonly Step[] {
  const hasClay = stock.holdings.length > 0
  const hasVessel = things.some(({ kind }) => kind === 'vessel')
  return [...(hasVessel ? [] : [BUCKET]), ...(hasClay ? [] : [CLAY, OPENING])]
}

/** The first steps, until they are done. */
export function FirstSteps({ missing }: { missing: readonly Step[] }) {
  return (
    <section>
      <h2>To begin</h2>
      <ul class="targets">
        {missing.map(({ href, name, why }) => (
          <li>
            <a class="target" href={href}>
              <strong>{name}</strong>
              <span>{why}</span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}
