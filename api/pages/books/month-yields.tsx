import type { YieldReport } from '../../../db/reports/yield.ts'
import { percentPoints } from '../../../shared/percent.ts'
import { decimal } from '../../../shared/decimal.ts'
import { YieldBars, type StageDrawn } from '../drawings/yield-bars.tsx'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'
import type { SheetProps } from './month-read.ts'

type Stage = NonNullable<YieldReport['allForms']>['stages'][number]

/** What each stage is called where there is little room. */
const SHORT_STAGE_WORDS: Readonly<Record<Stage['stage'], string>> = {
  making: 'To the bisque kiln',
  bisque: 'Bisque to glaze kiln',
  glaze_firing: 'Glaze fired, graded',
  shop: 'In the shop',
  whole: 'Wheel to shelf',
}

/** The stages as bars: share, interval and of how many. */
function stagesDrawn(stages: readonly Stage[], voice: Voice): StageDrawn[] {
  return stages.map(({ stage, yieldFraction, interval95, words }) => {
    const [counted = ''] = words.split(';')
    const range =
      interval95 === null
        ? ''
        : ` (${percentPoints(decimal(interval95.from), 0)} to ${percentPoints(decimal(interval95.to), 0)})`
    return {
      words: SHORT_STAGE_WORDS[stage],
      says: yieldFraction === null ? words : `${voice.share(yieldFraction)}${range}, ${counted}`,
      share: yieldFraction === null ? null : Number(yieldFraction),
      interval:
        interval95 === null ? null : { from: Number(interval95.from), to: Number(interval95.to) },
    }
  })
}

/** How many pieces come through, of everything thrown up to the month's end. */
export function MonthYields({ read, voice }: SheetProps) {
  const { allForms } = read.yields
  if (allForms === null) return null
  const waits = allForms.stages.some(({ words }) => words.includes(';'))
  return (
    <section>
      <h2>
        What comes through <small>pieces, all forms</small>
      </h2>
      <YieldBars
        id={`yield-of-${read.month}`}
        title="What share of the pieces comes through each stage"
        stages={stagesDrawn(allForms.stages, voice)}
      />
      <p class="told">
        <a href={trailHref(`/v1/reports/yield?to=${read.month}`)}>
          All that was thrown up to the end of the month
        </a>
        , as far as it is known today.
        {waits ? ' Some still wait; as losses are told first, shares may rise.' : ''}
      </p>
    </section>
  )
}
