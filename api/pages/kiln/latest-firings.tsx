import type { FiringsReport } from '../../../db/reports/firings.ts'
import { decimal } from '../../../shared/decimal.ts'
import { kilnFill } from '../../../shared/kiln-fill.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'

type Firing = FiringsReport['firings'][number]

const KIND_WORDS: Readonly<Record<string, string>> = {
  bisque: 'Bisque',
  glaze: 'Glaze fire',
  empty: 'Nothing in it',
}

/** How the energy is known. */
const HOW_WORDS: Readonly<Record<string, string>> = {
  meter: 'by the meter',
  said: 'as said',
  usual: 'as usual, not read',
  rule: 'by its power and hours',
}

interface LatestProps {
  readonly report: FiringsReport
  readonly voice: Voice
}

/** What each kiln fired last, and what that cost. */
export function LatestFirings({ report, voice }: LatestProps) {
  const all = [...report.firings, ...report.idle]
  if (all.length === 0) return null
  return (
    <section class="latest-firings">
      <h2>Fired lately</h2>
      {byKiln(all).map(({ name, firings }) => (
        <>
          <h3>{name}</h3>
          <ul class="rows">
            {firings.map((firing) => (
              <li>
                <OneFiring firing={firing} voice={voice} />
              </li>
            ))}
          </ul>
        </>
      ))}
    </section>
  )
}

/** So many of each kiln; the books have all of them. */
const LATEST_MAX = 4

function byKiln(all: readonly Firing[]) {
  const latest = [...all].sort((one, other) => other.happenedAt.localeCompare(one.happenedAt))
  const ids = [...new Set(latest.map(({ kilnId }) => kilnId))]
  return ids.map((id) => {
    const firings = latest.filter(({ kilnId }) => kilnId === id).slice(0, LATEST_MAX)
    return { name: firings[0]?.kilnName ?? id, firings }
  })
}

function OneFiring({ firing, voice }: { firing: Firing; voice: Voice }) {
  const { kind, happenedAt, cost, wearCost, costPerPiece, pieces } = firing
  const each = costPerPiece === null ? '' : `, ${voice.money(costPerPiece)} a piece of ${pieces}`
  const wear = decimal(wearCost).isZero()
    ? ''
    : ` Elements and shelves: ${voice.money(wearCost)} of it.`
  return (
    <>
      <a href={trailHref(firing.trail)}>
        {KIND_WORDS[kind] ?? kind}, {voice.day(happenedAt)}
      </a>
      <span>
        {energyWords(firing)}. {voice.money(cost)}
        {each}.{wear} {fullWords(firing)}
      </span>
    </>
  )
}

function energyWords({ kilowattHours, how }: Firing): string {
  const [way = '', fuel] = how.split('_and_')
  const gas = fuel === undefined && way !== 'fuel' ? '' : 'gas weighed'
  if (kilowattHours === null) return gas === '' ? 'Energy not known' : 'Gas weighed'
  const electricity = `${decimal(kilowattHours).toDecimalPlaces(1).toFixed()} kWh ${HOW_WORDS[way] ?? ''}`
  return gas === '' ? electricity : `${electricity}, and ${gas}`
}

function fullWords({ fullFraction, kind }: Firing): string {
  if (kind === 'empty') return 'On no pot.'
  if (fullFraction === null) return ''
  const saidFraction = decimal(fullFraction)
  return kilnFill({ load: [], volumeLitres: null, saidFraction }).words
}
